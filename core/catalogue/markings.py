"""What is printed on a cassette, with the length of tape behind it: every figure with its source."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Generic, NamedTuple, TypeVar

from core.catalogue.format_file import (
    CassetteEntry,
    Figure,
    FormatFile,
    Lot,
    Nominal,
    Thickness,
    ThicknessSpan,
)
from core.model.names import FormatName, Speed, TvSystem
from core.wording.messages import say

T = TypeVar("T")

OVERRUN = 0.07
"""Tapes run up to 7 % over their marking: T-30, 64 m by SMPTE 32M, plays 31.99 minutes (derived)."""


class Derivation(NamedTuple):
    """How a figure was worked out: a sentence of the wording file ``sources``, said when it is read.

    The catalogue is read once; who reads its sources may have another language by then.
    """

    key: str
    fill: tuple[tuple[str, str | float], ...]
    """What the sentence names."""

    def __str__(self) -> str:
        told: dict[str, Any] = dict(self.fill)
        return say("sources", self.key, **told)


@dataclass(frozen=True, slots=True)
class Sourced(Generic[T]):
    """A value, where it comes from, and the kind of its source (a `core.catalogue.format_file.Mark`)."""

    value: T
    source: str | Derivation
    mark: str

    @property
    def words(self) -> str:
        """``SMPTE 35M-1997 (standard)``; the kind is not said twice."""
        source = str(self.source)
        if source.startswith(self.mark.replace("-", " ")):
            return source
        return say("sources", "with-mark", source=source, mark=say("sources", f"mark-{self.mark}"))


@dataclass(frozen=True, slots=True)
class TapeSpeed:
    """Tape speed in mm/s of one recording. ``tv`` is None where it does not depend on the TV system."""

    speed: Speed
    tv: TvSystem | None
    mm_s: Sourced[float]

    def suits(self, speed: Speed | None, tv: TvSystem | None) -> bool:
        """Whether it is possible under what is known; None means that nobody knows."""
        return speed in (None, self.speed) and (tv is None or self.tv in (None, tv))


@dataclass(frozen=True, slots=True)
class Marking:
    """What is printed on a cassette to say how long it runs."""

    name: str
    aliases: tuple[str, ...]
    sold_as: tuple[FormatName, ...]
    minutes: float
    """Nominal play time at ``nominal_speed`` of ``nominal_system``."""
    nominal_system: FormatName
    nominal_speed: Speed
    nominal_tv: TvSystem | None
    metres: Sourced[float]
    """The published length, else the shortest that fits the marking."""
    shortest_m: float
    """Nominal minutes × nominal speed."""
    is_shortest: bool
    """No length is published: real tapes may run up to 7 % longer."""
    hub_radius_mm: Sourced[float] | None
    thickness_um: Sourced[float] | None
    thickness_span: ThicknessSpan | None
    """What the tape may really be, where its nominal thickness is known."""
    rule: Sourced[int] | None = None
    """The number that was read by a rule, because the catalogue does not list the marking."""
    is_told: bool = False
    """Minutes that somebody told of the cassette rather than a marking."""
    longest_m: Sourced[float] | None = None
    """The longest such cassette as far as its sources say; None where nothing is printed of its own."""
    unit: str | None = None
    """What an amount counts (of `core.catalogue.format_file.AmountEntry`); None: it is a marking of tape."""


Speeds = Mapping[str, tuple[TapeSpeed, ...]]
"""The tape speeds of each format by its name."""


def of_file(file: FormatFile, speeds: Speeds) -> Iterator[Marking]:
    """The markings of one format, as its file lists them; ``speeds`` are those of every format."""
    for lot in file.lots:
        mm_s = nominal_speed(lot.nominal, speeds)
        assert mm_s is not None
        for entry in lot.cassettes:
            yield of_entry(file, lot, entry, mm_s)


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


def play_minutes(metres: float, mm_s: float, sides: int = 1) -> float:
    """Minutes that ``metres`` of tape play at ``mm_s``, over both sides where there are two.

    Rounded to a billionth, so that what is equal on paper is equal here.
    """
    return round(metres * 1000 / mm_s / 60 * sides, 9)


def bare(text: str) -> str:
    """Letters and digits only, in lower case: ``T-120`` and ``t 120`` are the same."""
    return "".join(character for character in text.casefold() if character.isalnum())


def of_entry(file: FormatFile, lot: Lot, entry: CassetteEntry, mm_s: Sourced[float]) -> Marking:
    """One cassette of a lot; ``mm_s`` is the speed at which its minutes count."""
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
        is_shortest=metres.value == shortest and file.amount is None,
        hub_radius_mm=_sourced(file.pack.hubs[entry.hub]) if file.pack and entry.hub else None,
        thickness_um=thickness_of(thickness) if thickness else None,
        thickness_span=thickness.span if thickness else None,
        longest_m=_longest(lot, entry, metres.value),
        unit=file.amount.unit if file.amount else None,
    )


def _longest(lot: Lot, entry: CassetteEntry, metres: float) -> Sourced[float] | None:
    """What is printed of the cassette itself, else its length and the margin of its lot."""
    if entry.longest is not None:
        return _sourced(entry.longest)
    margins = [
        Sourced(round(metres + each.value * unit, 9), each.source, each.mark)
        for each, unit in ((lot.over, 1.0), (lot.over_share, metres))
        if each is not None
    ]
    return max(margins, key=lambda each: each.value, default=None)


def _length(
    file: FormatFile, lot: Lot, entry: CassetteEntry, shortest: float, mm_s: Sourced[float]
) -> Sourced[float]:
    """Published length, else the maker's rule, else the shortest length that fits the marking."""
    if entry.metres is not None:
        return Sourced(entry.metres, lot.source or "", lot.mark or "")
    if lot.length is not None:
        rule = file.lengths[lot.length]
        metres = rule.per_minute * entry.minutes + rule.per_number * entry.number + rule.plus
        return Sourced(round(metres, 9), rule.source, rule.mark)
    return Sourced(shortest, f"{entry.minutes:g} min × {mm_s.value:g} mm/s", "derived")


def thickness_of(grade: Thickness) -> Sourced[float]:
    """The thickness in µm to reckon with: the nominal one, else the middle between its bounds."""
    if grade.nominal is not None:
        return _sourced(grade.nominal)
    span = grade.span
    source = Derivation("between-bounds", (("thin", span.thin), ("thick", span.thick)))
    return Sourced(round((span.thin + span.thick) / 2, 2), source, "derived")


def _sourced(figure: Figure) -> Sourced[float]:
    return Sourced(figure.value, figure.source, figure.mark)
