"""A plan in the making: the bench and the decks fill up as tapes are taken in, in every scenario."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np

from core import customer_habits, draws, playtime
from core.deck_choice import Suited
from core.errors import WrongInput
from core.habits import ShopHabits
from core.hours import Minutes
from core.lanes import Lanes
from core.possibilities import Facts
from core.ranges import Range

SEED = 20260101

ESTIMATE_AT = 0.7
"""A play is started when its 70th percentile fits before closing (derived: 60 to 80 of 100 is sensible)."""

LOOK_OVER_MINUTES = 5.0
"""Condition check and label before play (common practice, no source)."""
CHECK_MINUTES = 8.0
"""Checking a recording from start to end of the file (from memory)."""
LOAD_MINUTES, UNLOAD_MINUTES = 3.0, 2.0
"""From memory."""
WAIT_FOR_A_PERSON = {1: 9.0, 2: 3.0}
"""Minutes a deck waits until somebody comes, by the people in the shop (derived on a prototype: least
error at nine to twelve for one person, at three for two); nothing for three or more is an assumption."""
LEAST_REMAINING = 5.0
"""Minutes given to a tape that should be over already (an assumption)."""


def estimate(minutes: Range) -> float:
    """The whole minutes a play is planned with."""
    return float(ceil(draws.percentile(minutes, ESTIMATE_AT)))


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
    drawn_as: tuple[Facts, ShopHabits] | None = None
    """What its play times are drawn from; None: from the percentiles of ``minutes``."""


def drawn_as(known: Facts | None, shop: ShopHabits, minutes: Range) -> tuple[Facts, ShopHabits] | None:
    """The belief behind ``minutes``, where there is one: minutes given by hand are drawn as they are."""
    if known is None:
        return None
    try:
        believed = playtime.belief_of(known, shop).range
    except WrongInput:  # a recording the catalogue does not know has its minutes only
        return None
    return (known, shop) if believed == minutes else None


@dataclass(frozen=True, slots=True, eq=False)
class Done:
    """When one tape is finished in each scenario; infinity is beyond the calendar."""

    step: Step
    at: Minutes
    benched: bool = False
    """Whether it waited for the bench and not for a deck."""
    overlong: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Ahead:
    """What stands before the next box: the decks, the bench (in worked minutes), and how many wait where."""

    lanes: Lanes
    bench: float
    waiting: Mapping[tuple[int, ...], int]


class Plan:
    """Takes tapes in order. ``now`` is the moment of planning on the calendar of the lanes."""

    def __init__(self, ahead: Ahead, now: float, people: int) -> None:
        self.lanes = ahead.lanes.copy()
        self.calendar = ahead.lanes.calendar
        self.now = now
        self.people = people
        self.scenarios = ahead.lanes.free.shape[1]
        self.bench = ahead.bench
        self.waiting = Counter(ahead.waiting)
        self.handling = LOAD_MINUTES + UNLOAD_MINUTES + WAIT_FOR_A_PERSON.get(people, 0.0)

    def ahead(self) -> Ahead:
        """Where the next box would stand."""
        return Ahead(self.lanes.copy(), self.bench, dict(self.waiting))

    def take(self, steps: Sequence[Step]) -> list[Done]:
        """Bench, play and check these tapes after all that was taken before."""
        if not steps:
            return []
        lengths = self._lengths(steps)
        ready = self._through_the_bench(steps)
        return [self._done(step, ready[n], lengths[n]) for n, step in enumerate(steps)]

    def go_on_playing(self, steps: Sequence[tuple[Step, float]]) -> list[Done]:
        """Tapes in the decks now, each with the minutes it has played."""
        taken: set[int] = set()
        found: list[Done] = []
        for step, elapsed in steps:
            uniform = draws.uniforms(SEED, [step.key], self.scenarios)[0]
            ends = self.now + draws.remaining(step.minutes, elapsed, uniform, LEAST_REMAINING)
            deck = next((deck for deck in step.suited.decks if deck not in taken), None)
            if deck is not None:
                taken.add(deck)
                self.lanes.free[deck] = self.calendar.advanced(ends, self.handling)
            found.append(Done(step, self._checked(ends)))
        return found

    def go_on_checking(self, steps: Sequence[Step]) -> list[Done]:
        """Tapes that have played and are being checked."""
        at = self.calendar.advanced(np.full(self.scenarios, self.now), CHECK_MINUTES)
        return [Done(step, at) for step in steps]

    def _lengths(self, steps: Sequence[Step]) -> draws.Draws:
        """Play times, one row a step; tapes of one box share its habits."""
        found = np.empty((len(steps), self.scenarios))
        together: dict[tuple[int, ShopHabits | None], list[int]] = {}
        for place, step in enumerate(steps):
            shop = step.drawn_as[1] if step.drawn_as else None
            together.setdefault((step.box if shop else 0, shop), []).append(place)
        for (key, shop), places in together.items():
            some = [steps[place] for place in places]
            keys = [step.key for step in some]
            if shop is None:
                uniform = draws.shared(SEED, keys, [step.box for step in some], self.scenarios)
                found[places] = draws.minutes([step.minutes for step in some], uniform)
                continue
            box = customer_habits.Box(key, SEED, self.scenarios, shop)
            tapes = [step.drawn_as[0] for step in some if step.drawn_as]
            found[places] = customer_habits.draws_of_job(tapes, keys, box)
        return found

    def _through_the_bench(self, steps: Sequence[Step]) -> Minutes:
        """When the bench lets each tape go; the people share the work, which rests overnight."""
        shares = np.cumsum([step.bench for step in steps]) / self.people
        worked = self.bench + shares
        self.bench = float(worked[-1])
        return self.calendar.when_worked(worked) if len(self.calendar.opens) else np.full(len(steps), np.inf)

    def _done(self, step: Step, ready: float, lengths: Minutes) -> Done:
        decks = step.suited.decks
        if not step.plays or not decks:
            return Done(step, np.full(self.scenarios, ready), benched=True)
        self.waiting[decks] += 1
        deck_free = self.lanes.free[list(decks)].min(axis=0)
        if deck_free.min() == np.inf:
            return Done(step, deck_free)
        planned = estimate(step.minutes)
        ends = self.lanes.play(decks, ready, lengths, estimate=planned, handling=self.handling)
        benched = float(np.median(deck_free)) < ready
        return Done(step, self._checked(ends), benched, self.lanes.gate(planned).overlong)

    def _checked(self, ends: Minutes) -> Minutes:
        return self.calendar.advanced(ends, UNLOAD_MINUTES + CHECK_MINUTES)
