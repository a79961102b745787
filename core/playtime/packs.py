"""From the radius of a wound pack to metres and minutes: plain geometry of a spiral.

Only VHS hubs are known from a maker's guide; the audio cassette is rough; all others are refused.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from core.catalogue.cassettes import Format
from core.catalogue.formats import catalogue
from core.catalogue.markings import Marking, Sourced, play_minutes
from core.model.errors import Refused, WrongInput
from core.model.names import FormatName, Speed, TvSystem
from core.model.ranges import Range
from core.playtime.beliefs import gathered, settled
from core.playtime.tape_minutes import recordings
from core.wording.messages import say

MISREADING_MM = 1.0
"""How far a reading through the window may be off; 1 mm at 35 mm is 11.6 m of VHS tape (derived)."""


@dataclass(frozen=True, slots=True)
class Pack:
    """What lies on one reel. Minutes are of one pass, one side where there are two."""

    metres: float
    minutes: float | Range
    sources: tuple[str, ...]


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

    def check(self, place: str, radius_mm: float) -> None:
        """WrongInput for a radius below the hub or beyond the reel, which is impossible."""
        if not self.hub.value <= radius_mm <= self.flange.value:
            hub, reel = f"{self.hub.value:g}", f"{self.flange.value:g}"
            accepted = say("playtime", "pack-reaches", format=self.form.words, hub=hub, reel=reel)
            raise WrongInput(place, radius_mm, accepted)


def reels(name: FormatName, marking: str | None) -> Reels:
    """The reels of a cassette; the usual marking stands in for one that cannot be read.

    Refused, with the reason, where hub or tape thickness is not known.
    """
    form = catalogue().format(name)
    named = form.marking(marking)
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


def pack(
    name: FormatName, marking: str | None, radius_mm: float, speed: Speed | None, tv: TvSystem | None
) -> Pack:
    """Metres and minutes on a reel whose pack reaches ``radius_mm`` from the middle of the hub.

    Refused where hub or tape thickness is not known; WrongInput for a radius below the hub or beyond
    the reel, which is impossible.
    """
    known = reels(name, marking)
    known.check("radius_mm", radius_mm)
    metres = round(known.metres(radius_mm), 9)
    cases = recordings(name, speed, tv, marking)
    minutes = settled(gathered((play_minutes(metres, case.mm_s), case.weight) for case in cases))
    sources = (
        *geometry_sources(known),
        *dict.fromkeys(case.words for case in cases),
        *_doubts(known, radius_mm),
    )
    return Pack(metres, minutes, sources)


def geometry_sources(known: Reels) -> tuple[str, ...]:
    """Where hub and thickness come from."""
    return (
        say("playtime", "hub", mm=f"{known.hub.value:g}", source=known.hub.words),
        say("playtime", "thickness", um=f"{known.thickness.value:g}", source=known.thickness.words),
    )


def wound_metres(radius_mm: float, hub_mm: float, thickness_um: float) -> float:
    """L = π(R² − r²)/t; square millimetres over micrometres are metres."""
    return math.pi * (radius_mm**2 - hub_mm**2) / thickness_um


def wound_radius(metres: float, hub_mm: float, thickness_um: float) -> float:
    """R = √(r² + L·t/π), in mm."""
    return math.sqrt(hub_mm**2 + metres * thickness_um / math.pi)


def turns(radius_mm: float, hub_mm: float, thickness_um: float) -> float:
    """One turn adds one thickness to the radius."""
    return (radius_mm - hub_mm) * 1000 / thickness_um


def _doubts(known: Reels, radius_mm: float) -> tuple[str, ...]:
    doubts: list[str] = []
    if known.named is None:
        doubts.append(say("playtime", "no-marking", marking=known.marking.name))
    if radius_mm > known.fullest_mm + MISREADING_MM:
        full = f"{known.fullest_mm:.1f}"
        doubts.append(say("playtime", "too-full", marking=known.marking.name, mm=full))
    if "from-memory" in (known.hub.mark, known.thickness.mark):
        doubts.append(say("playtime", "rough"))
    if known.form.sides == 2:
        doubts.append(say("playtime", "one-side"))
    return tuple(doubts)
