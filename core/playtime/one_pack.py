"""Metres and minutes on one reel, from how far its pack reaches."""

from __future__ import annotations

from dataclasses import dataclass

from core.catalogue.markings import play_minutes
from core.model.names import FormatName, Speed, TvSystem
from core.model.ranges import Range
from core.playtime import length_doubts, packs
from core.playtime.beliefs import gathered, settled
from core.playtime.packs import MISREADING_MM, Reels
from core.playtime.tape_minutes import recordings
from core.wording.locale_figures import figure
from core.wording.messages import say


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
    the shell, which is impossible. One past the edge of the reel is doubted.
    """
    known = packs.reels(name, marking, tv)
    known.check("radius_mm", radius_mm)
    metres = round(known.metres(radius_mm), 9)
    cases = recordings(name, speed, tv, marking)
    minutes = settled(gathered((play_minutes(metres, case.mm_s), case.weight) for case in cases))
    sources = (
        *packs.geometry_sources(known),
        *dict.fromkeys(case.words for case in cases),
        *_doubts(known, radius_mm),
    )
    return Pack(metres, minutes, sources)


def _doubts(known: Reels, radius_mm: float) -> tuple[str, ...]:
    doubts: list[str] = []
    if known.named is None:
        doubts.append(say("playtime", "no-marking", marking=known.marking.name))
    if (beyond := length_doubts.of_pack(known, radius_mm)) is not None:
        doubts.append(beyond.words)
    if radius_mm > known.fullest_mm + MISREADING_MM:
        full = figure(known.fullest_mm, digits=1)
        doubts.append(say("playtime", "too-full", marking=known.marking.name, mm=full))
    if "from-memory" in (known.hub.mark, known.thickness.mark):
        doubts.append(say("playtime", "rough"))
    if known.form.sides == 2:
        doubts.append(say("playtime", "one-side"))
    return tuple(doubts)
