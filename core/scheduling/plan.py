"""A plan in the making: the bench and the decks fill up as tapes are taken in, in every scenario."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import ceil

import numpy as np

from core.model import common_random_numbers
from core.model.errors import WrongInput
from core.model.ranges import Range
from core.playtime import tape_minutes
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import Facts
from core.scheduling import event_simulation, staffed_simulation
from core.scheduling.breakdowns import Breakdowns, fails_after
from core.scheduling.closures import Closures
from core.scheduling.deck_choice import Suited
from core.scheduling.deck_timelines import Lanes
from core.scheduling.drawn_minutes import DrawnAs, lengths
from core.scheduling.opening_hours import Minutes
from core.scheduling.rush_boxes import Coming
from core.scheduling.waiting_tapes import BENCH, NIGHT, Ground, Part, Queue, Ready, Turnout

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


@dataclass(frozen=True, slots=True, eq=False)
class Ahead:
    """What stands before the next box."""

    lanes: Lanes
    bench: float | Minutes
    """Minutes of opening worked by when the bench is free."""
    waiting: Mapping[tuple[int, ...], int] = field(default_factory=dict)
    """Tapes that wait, by the decks they may play on."""
    work: Mapping[tuple[int, ...], float] = field(default_factory=dict)
    """Likely minutes of deck time of these."""
    rush: tuple[Coming, ...] = ()
    """Rush tapes yet to come in, that go before it."""
    handling: float = LOAD_MINUTES + UNLOAD_MINUTES
    """Minutes a deck stands still between two tapes."""
    checking: float = UNLOAD_MINUTES + CHECK_MINUTES
    """Minutes of opening from the end of a tape until its recording is checked."""


@dataclass(frozen=True, slots=True, eq=False)
class Ways:
    """How the shop of a plan works, and what it reckons with."""

    now: float
    people: int
    breakdowns: Breakdowns | None = None
    closures: Closures | None = None


def handling(people: int) -> float:
    """Minutes between two tapes on one deck: somebody comes, unloads and loads."""
    return LOAD_MINUTES + UNLOAD_MINUTES + WAIT_FOR_A_PERSON.get(people, 0.0)


@dataclass(frozen=True, slots=True)
class UnderWay:
    """What is being done at this moment."""

    playing: Sequence[tuple[Step, float, int | None]] = ()
    """Each tape with the minutes it has played, and the place of its deck where that is known."""
    checking: Sequence[Step] = ()


class Plan:
    """Takes tapes in order behind what stands before them."""

    def __init__(self, ahead: Ahead, ways: Ways) -> None:
        self.lanes = ahead.lanes.copy()
        self.slots = ahead.lanes.slots
        self.calendar = ahead.lanes.calendar
        self.ways = ways
        self.scenarios = ahead.lanes.free.shape[1]
        self.bench = ahead.bench
        self.waiting = Counter(ahead.waiting)
        self.work = dict(ahead.work)
        self.rush = tuple(coming.copy() for coming in ahead.rush)
        self.handling, self.checking = ahead.handling, ahead.checking

    def ahead(self) -> Ahead:
        """Where the next box would stand."""
        rush = tuple(coming.copy() for coming in self.rush)
        waiting, work = dict(self.waiting), dict(self.work)
        return Ahead(self.lanes.copy(), self.bench, waiting, work, rush, self.handling, self.checking)

    def work_off(self, steps: Sequence[Step]) -> list[Done]:
        """Bench, play and check the tapes of one box or many after all that was taken before."""
        if not steps:
            return []
        ready = self._through_the_bench(steps)
        found: list[Done] = []
        going: list[tuple[Step, Ready]] = []
        for step, since in zip(steps, ready, strict=True):
            if step.plays and step.suited.decks:
                going.append((step, since))
            else:
                at = np.broadcast_to(since, self.scenarios).astype(np.float64)
                found.append(Done(step, self._told(at), benched=1.0))
        parts = _Parts(self.scenarios)
        tapes = [Turnout(s.suited.decks, estimate(s.minutes), since, parts.of(s)) for s, since in going]
        if tapes:
            ground = Ground(self.lanes, self.handling, self.ways.now, self.rush)
            event_simulation.work_off(ground, self._queue([step for step, _ in going], tapes))
            self._count([step for step, _ in going])
        return [*found, *(self._done(part, some, self._checked(part.ends)) for part, some in parts.all())]

    def work_off_by_hand(
        self, under_way: UnderWay, steps: Sequence[Step], overtaken_from: int = 0
    ) -> list[Done]:
        """The same with people who do one thing at a time, what is under way included.

        ``steps`` from ``overtaken_from`` on let rush tapes that come in go before them. Leaves behind how
        long a deck and a recording wait for somebody, for the box that comes next.
        """
        parts = _Parts(self.scenarios)
        going = [step for step in steps if step.plays and step.suited.decks]
        first = {id(step): place for place, step in enumerate(going)}
        tapes = [
            Turnout(step.suited.decks, estimate(step.minutes), step.rests_until, parts.of(step))
            for step in going
        ]
        bench = [
            staffed_simulation.Bench(step.bench, parts.of(step, again=True), first.get(id(step)))
            for step in steps
            if step.bench or id(step) not in first
        ]
        begun = staffed_simulation.Begun(
            [(deck, ends, parts.of(step)) for step, ends, deck in self._playing(under_way)],
            [parts.of(step) for step in under_way.checking],
        )
        ground = Ground(self.lanes, 0.0, self.ways.now, self.rush, overtaken_from=overtaken_from)
        times = staffed_simulation.Times(LOAD_MINUTES, UNLOAD_MINUTES, CHECK_MINUTES)
        found = staffed_simulation.work_off(
            ground, self._queue(going, tapes), self.ways.people, times, bench, begun
        )
        self._count(going)
        self.handling = LOAD_MINUTES + UNLOAD_MINUTES + found.wait
        self.checking = UNLOAD_MINUTES + found.check
        if len(self.calendar.opens):
            self.bench = self.calendar.worked(found.bench_free)
        return [self._done(part, some, self._told(part.ends)) for part, some in parts.all()]

    def go_on(self, under_way: UnderWay) -> list[Done]:
        """Tapes in the decks go on playing, recordings go on being checked."""
        found = []
        for step, ends, deck in self._playing(under_way):
            self.lanes.free[deck] = self.slots.advanced(ends, self.handling)
            found.append(Done(step, self._checked(ends)))
        at = self._told(self.slots.advanced(np.full(self.scenarios, self.ways.now), CHECK_MINUTES))
        return [*found, *(Done(step, at) for step in under_way.checking)]

    def _playing(self, under_way: UnderWay) -> list[tuple[Step, Minutes, int]]:
        """Each tape that plays, when it ends, and on which deck; two cannot play on one."""
        taken = {deck for _, _, deck in under_way.playing if deck is not None}
        found: list[tuple[Step, Minutes, int]] = []
        for step, elapsed, deck in under_way.playing:
            uniform = common_random_numbers.uniforms(SEED, [step.key], self.scenarios)[0]
            ends = self.ways.now + common_random_numbers.remaining(
                step.minutes, elapsed, uniform, LEAST_REMAINING
            )
            if deck is None:
                free = (each for each in step.suited.decks if each not in taken)
                deck = next(free, next(iter(step.suited.decks), None))
            if deck is not None:
                taken.add(deck)
                found.append((step, ends, deck))
        return found

    def _queue(self, steps: Sequence[Step], tapes: Sequence[Turnout]) -> Queue:
        minutes = lengths(steps, SEED, self.scenarios)
        down = self.ways.breakdowns
        if down is None:
            return Queue(tapes, minutes)
        keys = [step.key for step in steps]
        return Queue(tapes, minutes, fails_after(down, keys, SEED + 7, self.scenarios), down.repair)

    def _count(self, steps: Sequence[Step]) -> None:
        for step in steps:
            decks = step.suited.decks
            self.waiting[decks] += 1
            self.work[decks] = self.work.get(decks, 0.0) + step.minutes.likely + self.handling

    def _through_the_bench(self, steps: Sequence[Step]) -> list[Ready]:
        """When the bench lets each tape go; the people share the work, which rests overnight.

        A tape that is cleared to play waits for nobody at the bench.
        """
        if not len(self.calendar.opens):
            return [np.inf] * len(steps)
        shares = np.cumsum([step.bench for step in steps]) / self.ways.people
        through = self.calendar.when_worked(np.add.outer(shares, self.bench))
        found: list[Ready] = []
        for step, at in zip(steps, through, strict=True):
            if step.plays and not step.bench:
                found.append(max(self.ways.now, step.rests_until))
            else:
                found.append(
                    np.maximum(at, step.rests_until) if np.ndim(at) else max(float(at), step.rests_until)
                )
        self.bench = self.bench + float(shares[-1])
        return found

    def _done(self, part: Part, steps: Sequence[Step], at: Minutes) -> Done:
        overlong = sum(self.lanes.gate(estimate(step.minutes)).overlong for step in steps)
        return Done(steps[0], at, part.share(BENCH), part.share(NIGHT), overlong, len(steps))

    def _checked(self, ends: Minutes) -> Minutes:
        return self._told(self.slots.advanced(ends, self.checking))

    def _told(self, at: Minutes) -> Minutes:
        return at if self.ways.closures is None else self.ways.closures.told(at)


class _Parts:
    """Tapes of one box on the same decks, together."""

    def __init__(self, scenarios: int) -> None:
        self._scenarios = scenarios
        self._found: dict[tuple[int, tuple[int, ...]], tuple[Part, list[Step]]] = {}

    def of(self, step: Step, *, again: bool = False) -> Part:
        part, steps = self._found.setdefault(
            (step.box, step.suited.decks), (Part(np.full(self._scenarios, -np.inf)), [])
        )
        if not again or not steps:
            steps.append(step)
        return part

    def all(self) -> Collection[tuple[Part, list[Step]]]:
        return self._found.values()
