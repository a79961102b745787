"""Reading one family of formats from its TOML file. Lengths that follow from minutes are computed here."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from core.catalogue.cassettes import MARKS, Footprint, Format, Marking, Shell, Sourced, TapeSpeed
from core.model.errors import WrongInput
from core.model.names import FormatName, Speed, TvSystem

Table = Mapping[str, Any]


def read(path: Path) -> tuple[Format, ...]:
    """Every format of the file; WrongInput when the file cannot be read or a mark is none of `MARKS`."""
    try:
        page = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as failure:
        raise WrongInput(path.name, str(failure), "a readable TOML file is accepted") from None
    return tuple(_formats(page))


def sourced(table: Table, value: float) -> Sourced[float]:
    """``value`` with the source and mark written in ``table``."""
    return Sourced(float(value), table["source"], _mark(table))


def minutes_to_metres(minutes: float, mm_s: float, sides: int = 1) -> float:
    """The tape that ``minutes`` use up; on two sides each metre counts twice."""
    return round(minutes * mm_s * 60 / 1000 / sides, 9)


def _formats(page: Table) -> Iterator[Format]:
    tables = {name: _filled(page["formats"], name) for name in page["formats"]}
    speeds = {name: _speeds(table) for name, table in tables.items()}
    for name, table in tables.items():
        own = speeds[name] or tuple(
            dict.fromkeys(entry for system in table["systems"] for entry in speeds[system])
        )
        yield Format(
            name=FormatName(name),
            words=table["words"],
            family=table.get("family") or page["family"],
            sides=table.get("sides", 1),
            systems=tuple(FormatName(system) for system in table["systems"]),
            shells=tuple(_shell(shell) for shell in table["shells"]),
            tape_width_mm=sourced(table["tape_width"], table["tape_width"]["value"]),
            tape_speeds=own,
            footprints=tuple(_footprint(entry) for entry in table.get("footprints", ())),
            markings=tuple(_markings(page, name, speeds, table.get("sides", 1))),
            reel_radius_mm=_named(table, "reel_radius"),
            usual_pack=table.get("usual_pack"),
        )


def _filled(tables: Table, name: str) -> Table:
    """The table of one format, with what it takes over from the one it is ``like``."""
    own = tables[name]
    return {**_filled(tables, own["like"]), **own} if "like" in own else own


def _shell(table: Table) -> Shell:
    width, depth, height = (float(edge) for edge in table["mm"])
    return Shell(table["words"], Sourced((width, depth, height), table["source"], _mark(table)))


def _footprint(table: Table) -> Footprint:
    return Footprint(_tv(table), sourced(table, table["mm"]))


def _speeds(table: Table) -> tuple[TapeSpeed, ...]:
    found: list[TapeSpeed] = []
    for entry in table["speeds"]:
        tv = _tv(entry)
        if "mm_s" in entry:
            mm_s = float(entry["mm_s"])
        else:
            times, parts = entry["of_sp"]
            sp = next(known for known in found if known.speed is Speed.SP and known.tv is tv)
            mm_s = round(sp.mm_s.value * times / parts, 9)
        found.append(TapeSpeed(Speed(entry["speed"]), tv, sourced(entry, mm_s)))
    return tuple(found)


def _markings(
    page: Table, name: str, speeds: Mapping[str, tuple[TapeSpeed, ...]], sides: int
) -> Iterator[Marking]:
    for lot in page["lots"]:
        if name not in lot["formats"]:
            continue
        nominal = lot["nominal"]
        speed, tv = Speed(nominal["speed"]), _tv(nominal)
        mm_s = next(e.mm_s for e in speeds[nominal["system"]] if e.speed is speed and e.tv is tv)
        for cassette in lot["cassettes"]:
            shortest = minutes_to_metres(cassette["minutes"], mm_s.value, sides)
            metres = _length(page, lot, cassette, shortest, mm_s)
            yield Marking(
                name=cassette["name"],
                aliases=tuple(cassette.get("aliases", ())),
                sold_as=tuple(FormatName(sold) for sold in lot.get("sold_as", lot["formats"])),
                minutes=float(cassette["minutes"]),
                nominal_system=FormatName(nominal["system"]),
                nominal_speed=speed,
                nominal_tv=tv,
                metres=metres,
                shortest_m=shortest,
                is_shortest=metres.value == shortest,
                hub_radius_mm=_named(page.get("hubs", {}), cassette.get("hub")),
                thickness_um=_named(page.get("thicknesses", {}), cassette.get("thickness")),
            )


def _length(
    page: Table, lot: Table, cassette: Table, shortest: float, mm_s: Sourced[float]
) -> Sourced[float]:
    """Published length, else the maker's rule, else the shortest length that fits the marking."""
    if "metres" in cassette:
        return sourced(lot, cassette["metres"])
    if "rule" in lot:
        rule = page["rules"][lot["rule"]]
        by_minutes = rule["per_minute"] * cassette["minutes"]
        by_number = rule.get("per_number", 0) * cassette.get("number", 0)
        return sourced(rule, round(by_minutes + by_number + rule["plus"], 9))
    text = f"nominal {cassette['minutes']} minutes × {mm_s.value:g} mm/s"
    return Sourced(shortest, f"{text}, the shortest that fits the marking", "derived")


def _named(tables: Table, name: str | None) -> Sourced[float] | None:
    if name is None or name not in tables:
        return None
    return sourced(tables[name], tables[name]["value"])


def _tv(table: Table) -> TvSystem | None:
    return TvSystem(table["tv"]) if "tv" in table else None


def _mark(table: Table) -> str:
    mark = str(table["mark"])
    if mark not in MARKS:
        raise WrongInput(str(table["source"]), mark, f"a mark is one of {', '.join(MARKS)}")
    return mark
