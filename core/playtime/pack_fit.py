"""Whether two packs add up to the length of a marking, within what a reading and the thickness leave open."""

from __future__ import annotations

import math
from dataclasses import dataclass

from core.catalogue.markings import Marking
from core.model.errors import Refused
from core.model.ranges import Range
from core.playtime import packs
from core.playtime.packs import MISREADING_MM, Reels
from core.playtime.tape_minutes import OVERRUN

PUBLISHED_OVER = 0.02
"""Cassettes of one published length differ by this much: +3/−0 m of a T-120 is 1.2 %, rules are looser."""


@dataclass(frozen=True, slots=True)
class Fit:
    """Whether both packs add up to the length of the marking."""

    agrees: bool
    metres: Range
    """What the two packs hold together, by the geometry alone."""
    others: tuple[str, ...]
    """Other markings of this format that the same two packs would fit."""


def fit(known: Reels, to_come_mm: float, run_mm: float) -> Fit:
    """Compare both packs with the length of the marking, and with the other markings of the format."""
    markings = [each for each in known.form.markings if _can_be(known, each, max(to_come_mm, run_mm))]
    agreeing = [each.name for each in markings if adds_up(known, each, to_come_mm, run_mm)]
    return Fit(
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
        own = packs.reels(known.form.name, marking.name)
    except Refused:
        return False
    if min(to_come_mm, run_mm) < own.hub.value - MISREADING_MM:
        return False
    held, whole = metres_together(own, to_come_mm, run_mm), marking.metres.value
    return held.low <= whole * (1 + over_length(marking)) and whole <= held.high


def over_length(marking: Marking) -> float:
    """By which share a cassette may be longer than the catalogue says."""
    return OVERRUN if marking.is_shortest else PUBLISHED_OVER


def around(likely: float, less: float, more: float, most: float) -> Range:
    return Range(max(0.0, likely - less), likely, min(most, likely + more))


def _can_be(known: Reels, marking: Marking, radius_mm: float) -> bool:
    return marking.hub_radius_mm is not None and radius_mm <= known.flange.value
