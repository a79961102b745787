"""From the radius of a wound pack to metres and minutes: plain geometry of a spiral.

Only VHS hubs are known from a maker's guide; the audio cassette is rough; all others are refused.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from core.beliefs import gathered, settled
from core.cassettes import Format, Marking, Sourced
from core.errors import Refused, WrongInput
from core.formats import catalogue
from core.names import FormatName, Speed, TvSystem
from core.playtime import play_minutes, recordings
from core.ranges import Range

MISREADING_MM = 1.0
"""How far a reading through the window may be off; 1 mm at 35 mm is 11.6 m of VHS tape (derived)."""


@dataclass(frozen=True, slots=True)
class Pack:
    """What lies on one reel. Minutes are of one pass, one side where there are two."""

    metres: float
    minutes: float | Range
    sources: tuple[str, ...]


def pack(
    name: FormatName, marking: str | None, radius_mm: float, speed: Speed | None, tv: TvSystem | None
) -> Pack:
    """Metres and minutes on a reel whose pack reaches ``radius_mm`` from the middle of the hub.

    Refused where hub or tape thickness is not known; WrongInput for a radius below the hub or beyond
    the reel, which is impossible.
    """
    form = catalogue().format(name)
    known = form.marking(marking or form.usual_pack)
    hub, thickness, reel = _known(form, known)
    if not hub.value <= radius_mm <= reel.value:
        span = f"from the hub, {hub.value:g} mm, to the edge of the reel, {reel.value:g} mm"
        accepted = f"a pack of {form.words} reaches {span}"
        raise WrongInput("radius_mm", radius_mm, accepted)
    metres = round(wound_metres(radius_mm, hub.value, thickness.value), 9)
    cases = recordings(name, speed, tv, marking)
    minutes = settled(gathered((play_minutes(metres, case.mm_s), case.weight) for case in cases))
    sources = (
        f"hub radius {hub.value:g} mm, {hub.words}",
        f"tape {thickness.value:g} µm, {thickness.words}",
        *dict.fromkeys(case.words for case in cases),
        *_doubts(form, known, marking, radius_mm, hub, thickness),
    )
    return Pack(metres, minutes, sources)


def wound_metres(radius_mm: float, hub_mm: float, thickness_um: float) -> float:
    """L = π(R² − r²)/t; square millimetres over micrometres are metres."""
    return math.pi * (radius_mm**2 - hub_mm**2) / thickness_um


def wound_radius(metres: float, hub_mm: float, thickness_um: float) -> float:
    """R = √(r² + L·t/π), in mm."""
    return math.sqrt(hub_mm**2 + metres * thickness_um / math.pi)


def turns(radius_mm: float, hub_mm: float, thickness_um: float) -> float:
    """One turn adds one thickness to the radius."""
    return (radius_mm - hub_mm) * 1000 / thickness_um


def _known(form: Format, marking: Marking | None) -> tuple[Sourced[float], Sourced[float], Sourced[float]]:
    if marking is None or marking.hub_radius_mm is None or marking.thickness_um is None:
        raise Refused(f"{form.words}: the hub radius is not known, so a radius does not tell the length.")
    if form.reel_radius_mm is None:
        raise Refused(f"{form.words}: the size of the reel is not known, so a radius cannot be judged.")
    return marking.hub_radius_mm, marking.thickness_um, form.reel_radius_mm


def _doubts(
    form: Format,
    known: Marking | None,
    asked: str | None,
    radius_mm: float,
    hub: Sourced[float],
    thickness: Sourced[float],
) -> tuple[str, ...]:
    doubts: list[str] = []
    if known is None or asked is None:
        doubts.append(f"no marking given: taken as {form.usual_pack}")
    if known is not None:
        full = wound_radius(known.metres.value, hub.value, thickness.value)
        if radius_mm > full + MISREADING_MM:
            doubts.append(f"a full {known.name} reaches {full:.1f} mm: check the marking or the reading")
    if "from-memory" in (hub.mark, thickness.mark):
        doubts.append("rough: hub or thickness is from memory")
    if form.sides == 2:
        doubts.append("minutes are of one side")
    return tuple(doubts)
