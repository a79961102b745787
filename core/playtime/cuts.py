"""What a cut takes away: the programme that is gone, and the programme that is disturbed.

A track lies slanted along the tape, so a cut of N mm also hurts every track that crosses it: N/speed is
removed, (N + P)/speed disturbed, P being how far one track reaches along the tape.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from core.catalogue.formats import catalogue
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.names import FormatName, Section, Speed, TvSystem
from core.model.ranges import ZERO, Range, exactly
from core.model.repair_records import Splice
from core.playtime.beliefs import Points, as_range, gathered, quantile, settled
from core.playtime.tape_minutes import Recording, recordings
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class Cut:
    """Seconds of play time; the likely figure where the speed is not known."""

    seconds_removed: float
    seconds_disturbed: float
    removed: Range
    disturbed: Range
    sources: tuple[str, ...]
    is_disturbed_known: bool = True
    """False where nobody knows how far a track reaches: at least what is removed is disturbed."""


def in_leader() -> Cut:
    """The loss at a joint in the leader; the leader never reaches the drum (trade: United Visual)."""
    return Cut(0.0, 0.0, ZERO, ZERO, (say("playtime", "in-leader"),))


def is_disturbed_known(line: TapeLine) -> bool:
    """Whether the catalogue knows how far a track reaches along a tape of ``line``."""
    form = catalogue().format(line.recorded_as or line.format)
    systems = (form.name,) if form.has_own_system else form.systems
    return all(catalogue().format(name).footprint(line.tv) is not None for name in systems)


def cut(name: FormatName, speed: Speed | None, tv: TvSystem | None, cm: float) -> Cut:
    """The loss when ``cm`` centimetres are cut out; 0 is a clean snap with nothing cut away.

    ``name`` is the recording, or the format it was booked as. WrongInput for a negative length, one
    longer than any tape of the format, or a speed the format lacks.
    """
    form = catalogue().format(name)
    longest = max(marking.metres.value for marking in form.markings)
    if not 0 <= cm <= longest * 100 or math.isnan(cm):
        raise WrongInput(
            "cm", cm, say("playtime", "cm-accepted", most=round(longest * 100), format=form.words)
        )
    cases = recordings(name, speed, tv)
    removed = gathered((_rounded(cm * 10 / case.mm_s), case.weight) for case in cases)
    disturbed = gathered((_rounded((cm * 10 + _footprint(case)) / case.mm_s), case.weight) for case in cases)
    return Cut(
        seconds_removed=_likely(removed),
        seconds_disturbed=_likely(disturbed),
        removed=as_range(settled(removed)),
        disturbed=as_range(settled(disturbed)),
        sources=tuple(dict.fromkeys(text for case in cases for text in _sources(case))),
        is_disturbed_known=all(case.system.footprint(case.tv) is not None for case in cases),
    )


def joint(line: TapeLine, cm: float, section: Section) -> Cut:
    """The loss at one joint of a tape of ``line``; the clear leader holds nothing that could be lost."""
    lost = cut(line.recorded_as or line.format, line.speed, line.tv, cm)
    return lost if section is Section.PROGRAMME else in_leader()


@dataclass(frozen=True, slots=True)
class Total:
    """What all joints of a tape cost together, in seconds."""

    removed: Range
    disturbed: Range
    """At most: joints nearer to each other than a track is long disturb some of the same."""


def total(splices: Iterable[Splice]) -> Total:
    """The loss of several joints. All lie on one tape at one speed, so low adds to low and high to high."""
    every = tuple(splices)
    removed = [each.removed or exactly(each.seconds_removed) for each in every]
    disturbed = [each.disturbed or exactly(each.seconds_disturbed) for each in every]
    return Total(_sum(removed), _sum(disturbed))


def _sum(ranges: list[Range]) -> Range:
    return Range(
        math.fsum(each.low for each in ranges),
        math.fsum(each.likely for each in ranges),
        math.fsum(each.high for each in ranges),
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
        say("playtime", "track", mm=known.value, source=known.words)
        if known
        else say("playtime", "track-unknown")
    )
    if case.system.sides == 2:
        return (case.words, track, say("playtime", "both-sides"))
    return (case.words, track, say("playtime", "relock"))
