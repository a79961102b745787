"""Both packs read through the window: how far the tape was last run, and whether its marking can be right."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache

from core.catalogue.markings import play_minutes
from core.model.errors import WrongInput
from core.model.names import FillKnown, FormatName, Speed, TvSystem
from core.model.ranges import Range
from core.playtime import packs
from core.playtime.beliefs import gathered, spread
from core.playtime.packs import MISREADING_MM, MarkingCheck, Reels
from core.playtime.tape_minutes import recordings
from core.wording.messages import say

NEAR_AN_END = 0.03
"""Closer to an end than this share, a tape counts as wound to it: 1 mm at an empty VHS hub is 1.8 %
(derived)."""

_LOW, _LIKELY, _HIGH = 0.25, 0.5, 0.25
"""Weights that give the three columns of a range back at 10, 50 and 90 % (derived)."""


class WoundTo(Enum):
    """Where in the tape it was left."""

    AT_THE_BEGINNING = "begin"
    ON_THE_WAY = "way"
    AT_THE_END = "end"


@dataclass(frozen=True, slots=True)
class Reel:
    """One reel. Ranges hold the misreading and what the thickness may be."""

    radius_mm: float
    metres: Range
    minutes: Range
    was_read: bool
    """False: worked out from the other reel and the marking."""


@dataclass(frozen=True, slots=True)
class PackMeasurement:
    """A look through the window. ``run`` has passed the heads, ``to_come`` has not."""

    reels: Reels
    to_come: Reel
    run: Reel
    share_run: Range
    """Share of the whole tape that has passed the heads."""
    place: WoundTo
    fit: MarkingCheck | None
    """None while only one pack was read, or no marking is known to compare with."""
    too_full: bool
    """One pack alone is larger than all of the tape of this marking."""
    sources: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Recorded:
    """How much is recorded, as the packs tell it; the fields are those of a line of the inventory."""

    fill: float
    fill_known: FillKnown
    fill_off: float | None = None


def read(
    name: FormatName,
    marking: str | None,
    *,
    to_come_mm: float | None = None,
    run_mm: float | None = None,
    speed: Speed | None = None,
    tv: TvSystem | None = None,
) -> PackMeasurement:
    """What one or both packs tell; radii in mm from the middle of the hub.

    With one pack the other is the rest of the marking's length. With both, the share run needs the hub only:
    the thickness of the tape falls out. WrongInput when no radius is given or one is impossible; Refused
    where the geometry is not known.
    """
    known = packs.reels(name, marking, tv)
    seen = {"to_come": to_come_mm, "run": run_mm}
    radii = {place: radius for place, radius in seen.items() if radius is not None}
    if not radii:
        raise WrongInput(say("playtime", "radius"), None, say("playtime", "radius-needed"))
    for place, radius in radii.items():
        known.check(say("playtime", f"pack-{place}"), radius)
    return _reading(known, radii, name, speed, tv)


def fit_words(found: PackMeasurement) -> str:
    """Whether both packs add up to the marking, within what and why; for one pack, that nobody knows."""
    known = found.reels
    if not (found.to_come.was_read and found.run.was_read):
        return say("playtime", "one-pack")
    together = packs.metres_together(known, found.to_come.radius_mm, found.run.radius_mm)
    marking, others = known.marking, found.fit.others if found.fit else ()
    key = "both-packs" if found.fit is None else "packs-agree" if found.fit.agrees else "packs-differ"
    return say(
        "playtime",
        f"{key}-others" if key == "packs-differ" and others else key,
        low=round(together.low),
        high=round(together.high),
        mm=MISREADING_MM,
        marking=marking.name,
        metres=marking.metres.value,
        over=100 * packs.over_length(marking),
        others=", ".join(others),
        thin=known.thin_um,
        thick=known.thick_um,
        source=known.thickness_span,
    )


def recorded_at_least(found: PackMeasurement) -> Recorded:
    """The tape stands within its recording: how much further that goes the packs do not tell."""
    return Recorded(found.share_run.likely, FillKnown.AT_LEAST)


def recorded_to_here(found: PackMeasurement) -> Recorded:
    """The recording ends where the tape stands, as exactly as the packs were read; at its end it is full."""
    if found.place is WoundTo.AT_THE_END:
        return Recorded(1.0, FillKnown.READ)
    share = found.share_run
    return Recorded(share.likely, FillKnown.READ, (share.high - share.low) / 2)


# --- one reading -----------------------------------------------------------------------------


def _reading(
    known: Reels, radii: Mapping[str, float], name: FormatName, speed: Speed | None, tv: TvSystem | None
) -> PackMeasurement:
    whole = known.marking.metres.value
    if len(radii) == 2:
        share, metres = _of_both(known, radii["to_come"], radii["run"])
        found = packs.fit(known, radii["to_come"], radii["run"]) if known.named is not None else None
    else:
        share, metres = _of_one(known, radii)
        found = None
    cases = recordings(name, speed, tv, known.marking.name)
    both = {
        place: Reel(
            radii.get(place, known.radius(length.likely)),
            length,
            _minutes(length, tuple((case.mm_s, case.weight) for case in cases)),
            place in radii,
        )
        for place, length in metres.items()
    }
    return PackMeasurement(
        reels=known,
        to_come=both["to_come"],
        run=both["run"],
        share_run=share,
        place=_place(share),
        fit=found,
        too_full=max(known.metres(radius) for radius in radii.values()) > _most(known, whole, radii),
        sources=(*_sources(known), *dict.fromkeys(case.words for case in cases)),
    )


def _of_both(known: Reels, to_come_mm: float, run_mm: float) -> tuple[Range, dict[str, Range]]:
    """Shares from both packs; metres from the marking when it adds up, else from the geometry alone."""
    hub = known.hub.value
    coming, run = to_come_mm**2 - hub**2, run_mm**2 - hub**2
    if coming + run == 0:
        raise WrongInput(say("playtime", "packs"), 0, say("playtime", "empty-hubs"))
    likely = run / (coming + run)
    off = math.hypot(coming * run_mm, run * to_come_mm) * 2 * MISREADING_MM / (coming + run) ** 2
    share = packs.around(likely, off, off, 1.0)
    if known.named is not None and not packs.adds_up(known, known.marking, to_come_mm, run_mm):
        return share, {"to_come": _on_reel(known, to_come_mm), "run": _on_reel(known, run_mm)}
    if known.named is None:
        together = packs.metres_together(known, to_come_mm, run_mm)
        whole, over = together.likely, together.high / together.likely - 1
    else:
        whole, over = known.marking.metres.value, packs.over_length(known.marking)
    rest = Range(1 - share.high, 1 - share.likely, 1 - share.low)
    return share, {"to_come": _of_whole(rest, whole, over), "run": _of_whole(share, whole, over)}


def _of_one(known: Reels, radii: Mapping[str, float]) -> tuple[Range, dict[str, Range]]:
    """One pack by geometry; the other is what the marking leaves."""
    ((place, radius),) = radii.items()
    whole, over = known.marking.metres.value, packs.over_length(known.marking)
    here = _on_reel(known, radius)
    there = Range(
        max(0.0, whole - here.high), max(0.0, whole - here.likely), max(0.0, whole * (1 + over) - here.low)
    )
    share = Range(*(min(1.0, metres / whole) for metres in (here.low, here.likely, here.high)))
    if place == "run":
        return share, {"to_come": there, "run": here}
    return Range(1 - share.high, 1 - share.likely, 1 - share.low), {"to_come": here, "run": there}


def _on_reel(known: Reels, radius_mm: float) -> Range:
    """Metres on one reel by the geometry: misreading and thickness together, in quadrature."""
    likely = known.metres(radius_mm)
    misread = 2 * math.pi * radius_mm * MISREADING_MM / known.thickness.value
    less = likely * (1 - known.thickness.value / known.thick_um)
    more = likely * (known.thickness.value / known.thin_um - 1)
    return packs.around(likely, math.hypot(misread, less), math.hypot(misread, more), math.inf)


def _most(known: Reels, whole: float, radii: Mapping[str, float]) -> float:
    """Metres that one pack of this marking may seem to hold at most, misread and thick as it may be."""
    fullest = known.radius(whole * (1 + packs.over_length(known.marking))) + MISREADING_MM
    return known.metres(fullest) * known.thick_um / known.thickness.value


def _of_whole(share: Range, whole: float, over: float) -> Range:
    return Range(share.low * whole, share.likely * whole, share.high * whole * (1 + over))


def _place(share: Range) -> WoundTo:
    if share.likely <= NEAR_AN_END:
        return WoundTo.AT_THE_BEGINNING
    return WoundTo.AT_THE_END if share.likely >= 1 - NEAR_AN_END else WoundTo.ON_THE_WAY


@lru_cache(maxsize=256)
def _minutes(metres: Range, cases: tuple[tuple[float, float], ...]) -> Range:
    columns = ((metres.low, _LOW), (metres.likely, _LIKELY), (metres.high, _HIGH))
    return spread(
        gathered(
            (play_minutes(length, mm_s), weight * share)
            for mm_s, weight in cases
            for length, share in columns
        )
    )


def _sources(known: Reels) -> tuple[str, ...]:
    marking, metres = known.marking, known.marking.metres.value
    thin, thick = known.thin_um, known.thick_um
    return (
        *packs.geometry_sources(known),
        say("playtime", "thickness-span", thin=thin, thick=thick, source=known.thickness_span),
        say(
            "playtime",
            "marking-length",
            marking=marking.name,
            metres=metres,
            source=marking.metres.words,
        ),
        say("playtime", "misreading", mm=MISREADING_MM),
    )
