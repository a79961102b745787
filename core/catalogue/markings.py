"""What is printed on a cassette, with the length of tape behind it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from core.catalogue.cassettes import Marking, Sourced, TapeSpeed
from core.catalogue.format_file import CassetteEntry, Figure, FormatFile, Lot, Nominal
from core.model.names import FormatName

Speeds = Mapping[str, tuple[TapeSpeed, ...]]


def of_file(file: FormatFile, speeds: Speeds) -> Iterator[Marking]:
    """The markings of one format, as its file lists them; ``speeds`` are those of every format."""
    for lot in file.lots:
        mm_s = nominal_speed(lot.nominal, speeds)
        assert mm_s is not None
        for entry in lot.cassettes:
            yield _marking(file, lot, entry, mm_s)


def nominal_speed(nominal: Nominal, speeds: Speeds) -> Sourced[float] | None:
    """The tape speed in mm/s in which minutes are counted; None where that recording has no such speed."""
    return next(
        (
            entry.mm_s
            for entry in speeds.get(nominal.system, ())
            if entry.speed is nominal.speed and entry.tv is nominal.tv
        ),
        None,
    )


def minutes_to_metres(minutes: float, mm_s: float, sides: int = 1) -> float:
    """The tape that ``minutes`` use up; on two sides each metre counts twice."""
    return round(minutes * mm_s * 60 / 1000 / sides, 9)


def _marking(file: FormatFile, lot: Lot, entry: CassetteEntry, mm_s: Sourced[float]) -> Marking:
    shortest = minutes_to_metres(entry.minutes, mm_s.value, file.sides)
    metres = _length(file, lot, entry, shortest, mm_s)
    thickness = file.pack.thicknesses[entry.thickness] if file.pack and entry.thickness else None
    return Marking(
        name=entry.name,
        aliases=entry.aliases,
        sold_as=tuple(FormatName(sold) for sold in lot.sold_as),
        minutes=entry.minutes,
        nominal_system=FormatName(lot.nominal.system),
        nominal_speed=lot.nominal.speed,
        nominal_tv=lot.nominal.tv,
        metres=metres,
        shortest_m=shortest,
        is_shortest=metres.value == shortest,
        hub_radius_mm=_sourced(file.pack.hubs[entry.hub]) if file.pack and entry.hub else None,
        thickness_um=_sourced(thickness.nominal) if thickness else None,
        thickness_span=thickness.span if thickness else None,
    )


def _length(
    file: FormatFile, lot: Lot, entry: CassetteEntry, shortest: float, mm_s: Sourced[float]
) -> Sourced[float]:
    """Published length, else the maker's rule, else the shortest length that fits the marking."""
    if entry.metres is not None:
        return Sourced(entry.metres, lot.source or "", lot.mark or "")
    if lot.rule is not None:
        rule = file.rules[lot.rule]
        metres = rule.per_minute * entry.minutes + rule.per_number * entry.number + rule.plus
        return Sourced(round(metres, 9), rule.source, rule.mark)
    text = f"nominal {entry.minutes:g} minutes × {mm_s.value:g} mm/s"
    return Sourced(shortest, f"{text}, the shortest that fits the marking", "derived")


def _sourced(figure: Figure) -> Sourced[float]:
    return Sourced(figure.value, figure.source, figure.mark)
