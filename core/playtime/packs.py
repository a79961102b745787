"""The packs of a cassette: from radius to metres by the plain geometry of a spiral, and what marking fits.

Only VHS hubs are known from a maker's guide; the audio cassette is rough; all others are refused.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.catalogue.markings import OVERRUN, Marking, Sourced
from core.catalogue.wound_tape import wound_metres, wound_radius
from core.model.errors import Refused, WrongInput
from core.model.names import FormatName, TvSystem
from core.model.ranges import Range
from core.playtime import starting_beliefs
from core.wording.messages import say

MISREADING_MM = 1.0
"""How far a reading through the window may be off; 1 mm at 35 mm is 11.6 m of VHS tape (derived)."""


PUBLISHED_OVER = 0.02
"""Cassettes of one published length differ by this much: +3/−0 m of a T-120 is 1.2 %, rules are looser."""


@dataclass(frozen=True, slots=True)
class Reels:
    """What the geometry knows of the two reels of one cassette."""

    form: Format
    named: Marking | None
    """The marking, when it is known."""
    marking: Marking
    """The marking that counts: the one named, else the usual one."""
    hub: Sourced[float]
    thickness: Sourced[float]
    flange: Sourced[float]
    thin_um: float
    thick_um: float
    """Between these the thickness of the tape may be."""
    thickness_span: str
    """Where that span comes from."""

    def metres(self, radius_mm: float) -> float:
        """Tape on a reel whose pack reaches so far from the middle of the hub."""
        return wound_metres(radius_mm, self.hub.value, self.thickness.value)

    def radius(self, metres: float) -> float:
        """How far a pack of so much tape reaches, in mm."""
        return wound_radius(metres, self.hub.value, self.thickness.value)

    @property
    def fullest_mm(self) -> float:
        """How far the pack reaches when all the tape is on one reel."""
        return self.radius(self.marking.metres.value)

    @property
    def room_mm(self) -> float:
        """How far a pack can reach in its shell: two of its radii are no deeper than the shell."""
        return self.form.shell.value[1] / 2

    def is_beyond_reel(self, radius_mm: float) -> bool:
        """Whether a pack reaches past the edge of its reel, further than it may be misread."""
        return radius_mm > self.flange.value + MISREADING_MM

    def check(self, place: str, radius_mm: float) -> None:
        """WrongInput for a radius below the hub or beyond the shell, which is impossible."""
        if not self.hub.value <= radius_mm <= self.room_mm:
            accepted = say(
                "playtime",
                "pack-reaches",
                format=self.form.words,
                hub=self.hub.value,
                room=self.room_mm,
                source=self.form.shell.words,
            )
            raise WrongInput(place, radius_mm, accepted)


@dataclass(frozen=True, slots=True)
class MarkingCheck:
    """Whether both packs add up to the length of the marking."""

    agrees: bool
    metres: Range
    """What the two packs hold together, by the geometry alone."""
    others: tuple[str, ...]
    """Other markings of this format that the same two packs would fit."""


def reels(name: FormatName, marking: str | None, tv: TvSystem | None = None) -> Reels:
    """The reels of a cassette; the usual marking stands in for one that cannot be read.

    Refused, with the reason, where hub or tape thickness is not known.
    """
    form = catalogue().format(name)
    named = form.marking(marking, tv)
    counts = named or form.marking(form.usual_pack)
    if counts is None or counts.hub_radius_mm is None or counts.thickness_um is None:
        raise Refused(say("playtime", "hub-unknown", format=form.words))
    if form.reel_radius_mm is None or counts.thickness_span is None:
        raise Refused(say("playtime", "reel-unknown", format=form.words))
    span = counts.thickness_span
    words = Sourced(None, span.source, span.mark).words
    return Reels(
        form, named, counts, counts.hub_radius_mm, counts.thickness_um, form.reel_radius_mm,
        span.thin, span.thick, words,
    )  # fmt: skip


def geometry_sources(known: Reels) -> tuple[str, ...]:
    """Where hub and thickness come from."""
    return (
        say("playtime", "hub", mm=known.hub.value, source=known.hub.words),
        say("playtime", "thickness", um=known.thickness.value, source=known.thickness.words),
    )


# --- whether two packs add up to a marking ---------------------------------------------------


def fit(known: Reels, to_come_mm: float, run_mm: float) -> MarkingCheck:
    """Compare both packs with the length of the marking, and with the other markings of the format."""
    every = dict.fromkeys((*known.form.markings, known.marking))
    markings = [each for each in every if _can_be(known, each, max(to_come_mm, run_mm))]
    agreeing = [each.name for each in markings if adds_up(known, each, to_come_mm, run_mm)]
    return MarkingCheck(
        agrees=known.marking.name in agreeing,
        metres=metres_together(known, to_come_mm, run_mm),
        others=tuple(name for name in agreeing if name != known.marking.name),
    )


def metres_together(known: Reels, to_come_mm: float, run_mm: float) -> Range:
    """Metres on both reels: misreadings are two, the thickness is one."""
    likely = known.metres(to_come_mm) + known.metres(run_mm)
    misread = 2 * math.pi * math.hypot(to_come_mm, run_mm) * MISREADING_MM / known.thickness.value
    less = likely * (1 - known.thickness.value / known.thick_um)
    more = likely * (known.thickness.value / known.thin_um - 1)
    return around(likely, math.hypot(misread, less), math.hypot(misread, more), math.inf)


def adds_up(known: Reels, marking: Marking, to_come_mm: float, run_mm: float) -> bool:
    """Whether the two packs may be a whole tape of this marking."""
    try:
        own = reels(known.form.name, marking.name)
    except Refused:
        return False
    if min(to_come_mm, run_mm) < own.hub.value - MISREADING_MM:
        return False
    held, whole = metres_together(own, to_come_mm, run_mm), marking.metres.value
    return held.low <= whole * (1 + over_length(marking)) and whole * (1 - _shorter(marking)) <= held.high


def _shorter(marking: Marking) -> float:
    """By which share a cassette may be shorter than a rule says; a listed one is not."""
    if marking.rule is None:
        return 0.0
    return -min(0.0, *starting_beliefs.length_over(starting_beliefs.length_group(marking)))


def over_length(marking: Marking) -> float:
    """By which share a cassette may be longer than the catalogue says."""
    if marking.longest_m is not None:
        return max(PUBLISHED_OVER, *starting_beliefs.over_of(marking))
    if marking.rule is not None:
        return max(starting_beliefs.length_over(starting_beliefs.length_group(marking)))
    return OVERRUN if marking.is_shortest else PUBLISHED_OVER


def around(likely: float, less: float, more: float, most: float) -> Range:
    return Range(max(0.0, likely - less), likely, min(most, likely + more))


def _can_be(known: Reels, marking: Marking, radius_mm: float) -> bool:
    return marking.hub_radius_mm is not None and radius_mm <= known.flange.value
