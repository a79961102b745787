"""Whether the names in a format's file mean something: formats, speeds, markings, hubs, hazards, parts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from core.catalogue import hazards, markings
from core.catalogue.cassettes import TapeSpeed
from core.catalogue.format_file import FormatFile, Lot
from core.catalogue.shell_anatomy import PARTS
from core.model.errors import WrongInput
from core.model.names import TvSystem

Files = Mapping[str, FormatFile]
Speeds = Mapping[str, tuple[TapeSpeed, ...]]
ANY = "any"
"""The key of what holds in every TV system."""


def check(where: str, name: str, file: FormatFile, files: Files, speeds: Speeds) -> None:
    """WrongInput for the first name that nothing is called; ``where`` is the file."""
    own = speeds[name] or tuple(entry for system in file.systems for entry in speeds.get(system, ()))
    _named(f"{where}, systems", file.systems, files)
    _referred(where, file, files)
    _named(f"{where}, hazards", file.hazards, hazards.names())
    for n, lot in enumerate(file.lots, 1):
        _lot(f"{where}, lots {n}", lot, file, files, speeds)
    _habits(f"{where}, habits", file, own)
    _parts(where, file)
    if not own:
        raise WrongInput(f"{where}, speeds", "nothing", "at least one speed is accepted")
    if file.pack is not None:
        _named(f"{where}, pack, usual", [file.pack.usual], _whole_cassettes(file))


def _referred(where: str, file: FormatFile, files: Files) -> None:
    for key in ("asks_for", "priced_like"):
        value = getattr(file, key)
        _named(f"{where}, {key}", [value] if value else [], files)
    counted = file.habits.counted_with
    _named(f"{where}, habits, counted_with", [counted] if counted else [], files)


def _lot(where: str, lot: Lot, file: FormatFile, files: Files, speeds: Speeds) -> None:
    _named(f"{where}, sold_as", lot.sold_as, files)
    _named(f"{where}, nominal, system", [lot.nominal.system], files)
    if markings.nominal_speed(lot.nominal, speeds) is None:
        known = ", ".join(_spelled(entry) for entry in speeds[lot.nominal.system])
        found = f"{lot.nominal.speed.value} {lot.nominal.tv.value if lot.nominal.tv else ''}".strip()
        raise WrongInput(f"{where}, nominal", found, f"{lot.nominal.system} has {known}")
    _named(f"{where}, rule", [lot.rule] if lot.rule else [], file.rules)
    if not (lot.source and lot.mark) and any(entry.metres for entry in lot.cassettes):
        raise WrongInput(where, "nothing", "published metres need the keys source and mark beside them")
    for n, entry in enumerate(lot.cassettes, 1):
        pack = file.pack
        here = f"{where}, cassettes {n}"
        _named(f"{here}, hub", [entry.hub] if entry.hub else [], pack.hubs if pack else ())
        _named(
            f"{here}, thickness",
            [entry.thickness] if entry.thickness else [],
            pack.thicknesses if pack else (),
        )


def _habits(where: str, file: FormatFile, own: tuple[TapeSpeed, ...]) -> None:
    cassettes = [entry.name for lot in file.lots for entry in lot.cassettes]
    for tv in (tv for tv in TvSystem if any(entry.suits(None, tv) for entry in own)):
        known = [entry.speed.value for entry in own if entry.suits(None, tv)]
        for key, table, accepted in (
            ("speeds", file.habits.speeds, known),
            ("usual", file.habits.usual, cassettes),
        ):
            column = tv.value if tv.value in table else ANY
            if column not in table:
                raise WrongInput(f"{where}, {key}", "nothing", f"the key {tv.value} is needed, or {ANY}")
            _named(f"{where}, {key}, {column}", table[column], accepted)
            if not sum(table[column].values()):
                raise WrongInput(f"{where}, {key}, {column}", table[column], "one weight above 0 is needed")
    _named(f"{where}, camera, speeds", file.habits.camera.speeds if file.habits.camera else (),
           [entry.speed.value for entry in own])  # fmt: skip
    if not sum(file.systems.values()):
        raise WrongInput(
            f"{where.removesuffix(', habits')}, systems", file.systems, "one weight above 0 is needed"
        )


def _parts(where: str, file: FormatFile) -> None:
    _named(f"{where}, drawing, parts", file.drawing.parts, PARTS)
    for needed in ("hubs", "window"):
        if needed not in file.drawing.parts:
            raise WrongInput(
                f"{where}, drawing, parts", "nothing", f"the key {needed} is needed; a list of spots"
            )
    for key in file.look.__struct_fields__:
        part = file.look.part(key)
        _named(f"{where}, look, {key}, part", [part] if part else [], PARTS)


def _named(where: str, found: Iterable[str], known: Iterable[str]) -> None:
    names = tuple(known)
    for name in found:
        if name not in names:
            raise WrongInput(where, name, f"accepted are {', '.join(names) or 'none'}")


def _whole_cassettes(file: FormatFile) -> list[str]:
    """Markings whose hub and thickness are known."""
    return [entry.name for lot in file.lots for entry in lot.cassettes if entry.hub and entry.thickness]


def _spelled(entry: TapeSpeed) -> str:
    return f"{entry.speed.value} {entry.tv.value}" if entry.tv else entry.speed.value
