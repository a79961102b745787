"""What a plan is made of: its tapes, how the shop works, what stands before a box, when tapes are done."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import ceil

from core.model import common_random_numbers
from core.model.errors import WrongInput
from core.model.own_shop.handling_minutes import USUAL_HANDLING, HandlingMinutes
from core.model.own_shop.settings_records import Skill, Work
from core.model.ranges import Range
from core.playtime import tape_minutes
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import Facts
from core.playtime.tape_minutes import DrawnAs
from core.scheduling.breakdowns import Breakdowns
from core.scheduling.closures import Closures
from core.scheduling.deck_choice import Suited
from core.scheduling.opening_calendar import Minutes, Openings
from core.scheduling.rosters import Roster
from core.scheduling.simulated_shop import DeckTimelines, RushToCome

ESTIMATE_AT = 0.7
"""A play is started when its 70th percentile fits before closing (derived: 60 to 80 of 100 is sensible)."""

WAIT_FOR_A_PERSON = {1: 9.0, 2: 3.0}
"""Minutes a deck waits until somebody comes, by the people in the shop (derived on a prototype: least
error at nine to twelve for one person, at three for two); nothing for three or more is an assumption."""
LEAST_REMAINING = 5.0
"""Minutes given to a tape that should be over already (an assumption)."""


@lru_cache(maxsize=4096)
def estimate(minutes: Range) -> float:
    """The whole minutes a play is planned with."""
    return float(ceil(common_random_numbers.percentile(minutes, ESTIMATE_AT)))


@dataclass(frozen=True, slots=True)
class Step:
    """One tape as the plan sees it; ``key`` and ``box`` name its draws."""

    key: int
    box: int
    suited: Suited
    minutes: Range
    bench: float
    """Minutes of a person's time before it may play."""
    plays: bool = True
    drawn_as: DrawnAs | None = None
    """What its play times are drawn from; None: from the percentiles of ``minutes``."""
    rests_until: float = 0.0
    """Not to be played before: a cold tape comes to the temperature of the room first."""
    repairs: bool = False
    """Whether the time at the bench is for more than looking it over."""

    @property
    def works(self) -> tuple[Work, ...]:
        """What people still have to do about it."""
        at_bench = ((Skill.SPLICE if self.repairs else None),) if self.bench else ()
        return (*at_bench, Skill.LOAD, Skill.CHECK) if self.plays and self.suited.decks else at_bench


def drawn_as(known: Facts | None, shop: ShopHabits, minutes: Range) -> DrawnAs | None:
    """The belief behind ``minutes``, where there is one: minutes given by hand are drawn as they are."""
    if known is None:
        return None
    try:
        believed = tape_minutes.belief_of(known, shop).range
    except WrongInput:  # a recording the catalogue does not know has its minutes only
        return None
    return (known, shop) if believed == minutes else None


@dataclass(frozen=True, slots=True, eq=False)
class Done:
    """When tapes of one box that play on the same decks are finished, in each scenario.

    Infinity is beyond the calendar. The shares are those of the scenarios in which the last of them
    waited for that.
    """

    step: Step
    """The first of them."""
    at: Minutes
    benched: float = 0.0
    """For the bench, with a deck free."""
    overnight: float = 0.0
    """For an opening, with a deck free: it would not have ended before closing."""
    overlong: int = 0
    """Tapes that fit no opening."""
    count: int = 1
    nobody: str = ""
    """Why they are in no plan: what nobody here can do. Nothing: they are."""


@dataclass(frozen=True, slots=True, eq=False)
class Ahead:
    """What stands before the next box."""

    timelines: DeckTimelines
    bench: float | Minutes
    """Minutes of opening worked by when the bench is free."""
    waiting: Mapping[tuple[int, ...], int] = field(default_factory=dict)
    """Tapes that wait, by the decks they may play on."""
    work: Mapping[tuple[int, ...], float] = field(default_factory=dict)
    """Likely minutes of deck time of these."""
    rush: tuple[RushToCome, ...] = ()
    """Rush tapes yet to come in, that go before it."""
    handling: float = USUAL_HANDLING.load + USUAL_HANDLING.unload
    """Minutes a deck stands still between two tapes."""
    checking: float = USUAL_HANDLING.unload + USUAL_HANDLING.check
    """Minutes of opening from the end of a short tape until its recording is checked."""


@dataclass(frozen=True, slots=True, eq=False)
class Ways:
    """How the shop of a plan works, and what it reckons with."""

    now: float
    people: int
    breakdowns: Breakdowns | None = None
    closures: Closures | None = None
    roster: Roster | None = None
    """The people one by one, where they differ."""
    handling: HandlingMinutes = USUAL_HANDLING
    presence: Openings | None = None
    """When people are here; None: whenever the shop is open."""
    again: float = 0.0
    """Share of the tapes that are played a second time."""


def handling(minutes: HandlingMinutes, people: int) -> float:
    """Minutes between two tapes on one deck: somebody comes, unloads and loads."""
    return minutes.load + minutes.unload + WAIT_FOR_A_PERSON.get(people, 0.0)


@dataclass(frozen=True, slots=True)
class UnderWay:
    """What is being done at this moment."""

    playing: Sequence[tuple[Step, float, int | None]] = ()
    """Each tape with the minutes it has played, and the place of its deck where that is known."""
    checking: Sequence[Step] = ()
