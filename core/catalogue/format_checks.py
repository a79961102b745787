"""Whether the names in a format's file mean something, and whether it has all its sentences."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from core.catalogue import format_words
from core.catalogue.format_file import ANY, FormatFile, Lot, Nominal, Weights
from core.catalogue.markings import Speeds, TapeSpeed, nominal_speed
from core.catalogue.shell_anatomy import PARTS
from core.model.errors import WrongInput, at, missing, nothing, one_of
from core.model.names import Container, Speed, TvSystem
from core.wording.messages import say

Files = Mapping[str, FormatFile]
ROOM = "files"


def check(where: str, name: str, file: FormatFile, files: Files, speeds: Speeds) -> None:
    """WrongInput for the first name that nothing is called; ``where`` is the file."""
    own = speeds[name] or tuple(entry for system in file.systems for entry in speeds.get(system, ()))
    _named(at(where, "systems"), file.systems, files)
    _weighted(at(where, "systems"), file.systems)
    if not own:
        raise missing(where, "speeds", say(ROOM, "a-speed"))
    if file.counted_in is Container.TAPE and file.tape_width is None and file.amount is None:
        raise missing(where, "tape_width", say(ROOM, "figure"))
    _referred(where, file, files)
    for n, lot in enumerate(file.lots, 1):
        _lot(at(where, f"lots {n}"), lot, file, files, speeds)
    _rules(where, file, files, speeds)
    _habits(at(where, "habits"), file, own)
    _parts(where, file)


def check_words(where: str, names: tuple[str, ...], file: FormatFile) -> None:
    """WrongInput for the first kind of sentence that English lacks; ``names`` as in `format_words`."""
    for key, own in format_words.NEEDED.items():
        if file.drawing.shape != "cassette" and key.startswith("look-"):
            continue  # no lid and no reels inside
        if not format_words.sentences(names, key, file):
            sentence, words = f"{key}-{names[0]}", f"{format_words.ROOM}.ftl"
            accepted = say(ROOM, "words-needed", key=own, sentence=sentence, file=words)
            raise WrongInput(at(where, "words"), nothing(), accepted)


def _referred(where: str, file: FormatFile, files: Files) -> None:
    _maybe(at(where, "asks_for"), file.asks_for, files)
    _maybe(at(where, "priced_like"), file.priced_like, files)
    _maybe(at(where, "habits", "counted_with"), file.habits.counted_with, files)
    if file.pack is not None:
        _named(at(where, "pack", "usual"), [file.pack.usual], _whole_cassettes(file))


def _lot(where: str, lot: Lot, file: FormatFile, files: Files, speeds: Speeds) -> None:
    _named(at(where, "sold_as"), lot.sold_as, files)
    _named(at(where, "nominal", "system"), [lot.nominal.system], files)
    _nominal(at(where, "nominal"), lot.nominal, speeds)
    _maybe(at(where, "length"), lot.length, file.lengths)
    if not (lot.source and lot.mark) and any(entry.metres for entry in lot.cassettes):
        raise missing(where, "source", say(ROOM, "sourced-metres"))
    hubs = file.pack.hubs if file.pack else {}
    grades = file.pack.thicknesses if file.pack else {}
    for n, entry in enumerate(lot.cassettes, 1):
        _maybe(at(where, f"cassettes {n}", "hub"), entry.hub, hubs)
        _maybe(at(where, f"cassettes {n}", "thickness"), entry.thickness, grades)


def _rules(where: str, file: FormatFile, files: Files, speeds: Speeds) -> None:
    """Every rule names things that are known."""
    for n, entry in enumerate(file.rules, 1):
        place = at(where, f"rules {n}")
        _named(at(place, "nominal", "system"), [entry.nominal.system], files)
        _nominal(at(place, "nominal"), entry.nominal, speeds)
        _maybe(at(place, "length"), entry.length, file.lengths)
        if entry.numbers[0] > entry.numbers[1]:
            raise WrongInput(at(place, "numbers"), list(entry.numbers), say(ROOM, "rule-numbers"))


def _nominal(where: str, nominal: Nominal, speeds: Speeds) -> None:
    if nominal_speed(nominal, speeds) is None:
        known = ", ".join(_spelled(entry.speed, entry.tv) for entry in speeds[nominal.system])
        accepted = say(ROOM, "nominal", system=nominal.system, speeds=known)
        raise WrongInput(where, _spelled(nominal.speed, nominal.tv), accepted)


def _habits(where: str, file: FormatFile, own: tuple[TapeSpeed, ...]) -> None:
    cassettes = [entry.name for lot in file.lots for entry in lot.cassettes]
    for tv in (tv for tv in TvSystem if any(entry.suits(None, tv) for entry in own)):
        known = [entry.speed.value for entry in own if entry.suits(None, tv)]
        _by_tv(at(where, "speeds"), file.habits.speeds, tv, known)
        _by_tv(at(where, "usual"), file.habits.usual, tv, cassettes)
    camera = file.habits.camera
    _named(at(where, "camera", "speeds"), camera.speeds if camera else (), [each.speed.value for each in own])


def _by_tv(where: str, table: Mapping[str, Weights], tv: TvSystem, known: Iterable[str]) -> None:
    column = tv.value if tv.value in table else ANY
    if column not in table:
        raise WrongInput(where, nothing(), say(ROOM, "needed-or-any", key=tv.value))
    _named(at(where, column), table[column], known)
    _weighted(at(where, column), table[column])


def _parts(where: str, file: FormatFile) -> None:
    _named(at(where, "drawing", "parts"), file.drawing.parts, PARTS)
    for needed in ("hubs", "window") if file.drawing.shape == "cassette" else ():
        if needed not in file.drawing.parts:
            raise missing(at(where, "drawing", "parts"), needed, say(ROOM, "list"))
    for key in file.look.__struct_fields__:
        _maybe(at(where, "look", key, "part"), file.look.part(key), PARTS)


def _weighted(where: str, weights: Weights) -> None:
    if not sum(weights.values()):
        raise WrongInput(where, dict(weights), say(ROOM, "weight-above-0"))


def _maybe(where: str, name: str | None, known: Iterable[str]) -> None:
    _named(where, [name] if name else [], known)


def _named(where: str, found: Iterable[str], known: Iterable[str]) -> None:
    names = tuple(known)
    for name in found:
        if name not in names:
            raise WrongInput(where, name, one_of(names))


def _whole_cassettes(file: FormatFile) -> list[str]:
    """Markings whose hub and thickness are known."""
    return [entry.name for lot in file.lots for entry in lot.cassettes if entry.hub and entry.thickness]


def _spelled(speed: Speed, tv: TvSystem | None) -> str:
    return f"{speed.value} {tv.value}" if tv else speed.value
