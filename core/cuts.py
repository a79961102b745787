"""What a cut takes away: the programme that is gone, and the programme that is disturbed.

A track lies slanted along the tape, so a cut of N mm also hurts every track that crosses it: N/speed is
removed, (N + P)/speed disturbed, P being how far one track reaches along the tape.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from core.beliefs import Points, as_range, gathered, quantile, settled
from core.errors import WrongInput
from core.formats import catalogue
from core.names import FormatName, Speed, TvSystem
from core.playtime import Recording, recordings
from core.ranges import Range

RELOCK = "picture and colour take one or two seconds more to lock again (common practice, no source)"


@dataclass(frozen=True, slots=True)
class Cut:
    """Seconds of play time; the likely figure where the speed is not known."""

    seconds_removed: float
    seconds_disturbed: float
    removed: Range
    disturbed: Range
    sources: tuple[str, ...]


def cut(name: FormatName, speed: Speed | None, tv: TvSystem | None, cm: float) -> Cut:
    """The loss when ``cm`` centimetres are cut out; 0 is a clean snap with nothing cut away.

    ``name`` is the recording, or the format it was booked as. WrongInput for a negative length, one
    longer than any tape of the format, or a speed the format lacks.
    """
    form = catalogue().format(name)
    longest = max(marking.metres.value for marking in form.markings)
    if not 0 <= cm <= longest * 100 or math.isnan(cm):
        raise WrongInput("cm", cm, f"accepted are 0 to {longest * 100:.0f}, the longest {form.words} tape")
    cases = recordings(name, speed, tv)
    removed = gathered((_rounded(cm * 10 / case.mm_s), case.weight) for case in cases)
    disturbed = gathered((_rounded((cm * 10 + _footprint(case)) / case.mm_s), case.weight) for case in cases)
    return Cut(
        seconds_removed=_likely(removed),
        seconds_disturbed=_likely(disturbed),
        removed=as_range(settled(removed)),
        disturbed=as_range(settled(disturbed)),
        sources=tuple(dict.fromkeys(text for case in cases for text in _sources(case))),
    )


def _footprint(case: Recording) -> float:
    known = case.system.footprint(case.tv)
    return known.value if known else 0.0


def _likely(points: Points) -> float:
    return quantile(points, 0.5)


def _rounded(seconds: float) -> float:
    return round(seconds, 9)


def _sources(case: Recording) -> tuple[str, ...]:
    known = case.system.footprint(case.tv)
    track = (
        f"track {known.value:g} mm along the tape, {known.words}"
        if known
        else "how far a track reaches along the tape is not known: at least so much is disturbed"
    )
    if case.system.sides == 2:
        return (case.words, track, "lost on both sides of the tape")
    return (case.words, track, RELOCK)
