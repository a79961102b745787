"""Where on a tape: minutes of play time or metres from the head, one turned into the other.

A counter tells minutes, a pack read through the window tells metres. Tape speed leads from one to the other;
while the speed is not known the figure that was not measured stays a range.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite

from core.catalogue.formats import catalogue
from core.catalogue.markings import Marking
from core.model.errors import WrongInput
from core.model.inventory import TapeLine
from core.model.names import Join, Measure, Section
from core.model.ranges import Range, exactly
from core.playtime import starting_beliefs, tape_minutes
from core.playtime.beliefs import as_range
from core.wording.messages import say

LEADER_REACH_M = 1.0
"""So near to an end a place may be in the clear leader; leaders are shorter, but no counter and no eye tells
a place much better (an assumption, no source gives lengths of leaders)."""


@dataclass(frozen=True, slots=True)
class Place:
    """A place on a tape, from its head; the figure that was not measured is reckoned from the speed."""

    minutes: Range
    metres: Range
    measured: Measure

    @property
    def words(self) -> str:
        """As it was measured: ``12.5 minutes``, ``37 metres``."""
        figure = self.minutes if self.measured is Measure.MINUTES else self.metres
        return say("playtime", f"place-{self.measured.value}", n=figure.likely)


def after_minutes(line: TapeLine, minutes: float) -> Place:
    """The place ``minutes`` of play time from the head; WrongInput for one that is none.

    A place beyond what the tape is known to hold is as good as any (`length_doubts` tells of it). On a
    cassette with two sides, minutes beyond the first side run back on the second.
    """
    if not isfinite(minutes) or minutes < 0:
        raise WrongInput(say("playtime", "minutes-from-head"), minutes, say("playtime", "place-from-0"))
    believed = tape_minutes.belief(line, line.tv)
    speed = as_range(believed.speed_mm_s)
    along = _along(line, minutes, as_range(believed.full).likely)
    metres = Range(*(along * 60 / 1000 * mm_s for mm_s in (speed.low, speed.likely, speed.high)))
    return Place(exactly(minutes), metres, Measure.MINUTES)


def after_metres(line: TapeLine, metres: float) -> Place:
    """The place ``metres`` of tape from the head; WrongInput for one that is none.

    On a cassette with two sides, the minutes are those of the first side.
    """
    if not isfinite(metres) or metres < 0:
        raise WrongInput(say("playtime", "metres-from-head"), metres, say("playtime", "place-from-0"))
    speed = as_range(tape_minutes.belief(line, line.tv).speed_mm_s)
    minutes = Range(*(metres * 1000 / 60 / mm_s for mm_s in (speed.high, speed.likely, speed.low)))
    return Place(minutes, exactly(metres), Measure.METRES)


def section(line: TapeLine, place: Place, joined_with: Join, said: Section | None = None) -> Section:
    """Whether a joint at ``place`` is in the clear leader or in the programme.

    Nobody having ``said``, a re-anchored leader at an end of the tape is one; everything else is taken for
    programme, so that a loss is never hidden. WrongInput for a leader where none can be.
    """
    could = may_be_leader(line, place)
    if said is Section.LEADER and not could:
        accepted = say("playtime", "leader-at-ends", place=place.words)
        raise WrongInput("section", said.value, accepted)
    if said is not None:
        return said
    return Section.LEADER if could and joined_with is Join.LEADER else Section.PROGRAMME


def may_be_leader(line: TapeLine, place: Place) -> bool:
    """Whether a place is, or may be, so near to an end that clear leader can be there."""
    shortest = min(marking.metres.value for marking in _markings(line))
    return place.metres.low <= LEADER_REACH_M or place.metres.high >= shortest - LEADER_REACH_M


def longest_metres(line: TapeLine) -> float:
    """Metres the tape may have at most, what it may run over its marking included."""
    return max(
        marking.metres.value * (1 + max(starting_beliefs.over_of(marking))) for marking in _markings(line)
    )


def _markings(line: TapeLine) -> tuple[Marking, ...]:
    form = catalogue().format(line.format)
    named = form.marking(line.marking, line.tv)
    return (named,) if named else form.markings


def _along(line: TapeLine, minutes: float, full_minutes: float) -> float:
    """Minutes from the head as the tape lies, whichever side is recorded there."""
    if catalogue().format(line.format).sides == 1:
        return minutes
    return minutes if minutes <= full_minutes / 2 else max(0.0, full_minutes - minutes)
