"""Whether the boxes of the queue had better take their turns in another order, and what that would bring.

For the background: it plans the whole queue twice, or a few times more. The order found at likely minutes
is taken only if, over all scenarios, no box that has a date is less sure to keep it than it was said to be,
or than it is now. What a box can give is how much earlier than its day it is as sure as it was said to be; a
box that turns out to be harmed all the same gives nothing in another round. Whole boxes change places; within
a box the rule of the dates holds, so that the bench need not learn another.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

import numpy as np

from core.model import common_random_numbers
from core.model.common_random_numbers import SEED
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopSettings
from core.promise import turnaround
from core.promise.turnaround import Load
from core.scheduling import dispatching
from core.scheduling.dispatching import PlannedPlay, Task
from core.scheduling.plan_records import estimate
from core.scheduling.queued_tapes import QueuedTape

NOISE = 0.01
"""Chances closer than this are the same: about one standard error of a thousand scenarios at 90 %
(derived: √(0.9 × 0.1 ÷ 1,000))."""
LEAST_DAYS = 0.1
"""Boxes must be ready so much sooner on average before an order is worth telling, if it keeps no more dates
(an assumption: two hours and a half)."""
ROUNDS = 3
"""Searches, each with the boxes that the one before would have harmed held back (an assumption)."""


@dataclass(frozen=True, slots=True)
class Promised:
    """The date a box was promised for, and the chance it was given."""

    day: date
    stated: float


@dataclass(frozen=True, slots=True)
class Better:
    """A better order of the boxes; chances are of keeping each date, before and after."""

    order: tuple[JobNumber, ...]
    """Every box of the queue, first to last."""
    chances: Mapping[JobNumber, tuple[float, float]]
    sooner: Mapping[JobNumber, float]
    """Days by which the middle of a box's finish comes sooner (negative: later), where it finishes at all."""

    @property
    def gained(self) -> float:
        """Promises kept more than before, on average."""
        return sum(after - before for before, after in self.chances.values())

    @property
    def days(self) -> float:
        """Days by which a box is ready sooner, on average."""
        return sum(self.sooner.values()) / len(self.sooner) if self.sooner else 0.0

    @property
    def is_worth_it(self) -> bool:
        """Whether more promises are kept, or boxes are ready sooner."""
        return self.gained > NOISE or self.days >= LEAST_DAYS

    def harmed(self, promised: Mapping[JobNumber, Promised]) -> frozenset[JobNumber]:
        """Boxes less sure of their day than they were said to be, or than they are without it."""
        return frozenset(
            number
            for number, (was, will) in self.chances.items()
            if will < min(promised[number].stated, was) - NOISE
        )


def better(
    settings: ShopSettings,
    queue: Sequence[QueuedTape],
    now: datetime,
    promised: Mapping[JobNumber, Promised],
    runs: int = dispatching.RUNS,
    stop: Callable[[], bool] = dispatching.never,
) -> Better | None:
    """A better order of the boxes that wait; None when none was found that harms no promise.

    ``stop`` is asked again and again; once it says yes, None is the answer.
    """
    before = turnaround.load(settings, queue, now)
    unmoved = frozenset[JobNumber]()
    for _ in range(ROUNDS):
        order = _order(before, queue, _Wish(promised, unmoved), runs, stop)
        if order is None or stop():
            return None
        places = {job: place for place, job in enumerate(order)}
        after = turnaround.load(settings, sorted(queue, key=lambda tape: places[tape.job]), now)
        found = Better(order, _chances(before, after, promised), turnaround.days_sooner(before, after))
        harmed = found.harmed(promised)
        if not harmed:
            return found if found.is_worth_it else None
        unmoved |= harmed
    return None


@dataclass(frozen=True, slots=True)
class _Wish:
    """What the search works for."""

    promised: Mapping[JobNumber, Promised]
    unmoved: frozenset[JobNumber]
    """Boxes that may not come later at all."""


def _chances(
    before: Load, after: Load, promised: Mapping[JobNumber, Promised]
) -> dict[JobNumber, tuple[float, float]]:
    return {
        number: (
            turnaround.chance_of(before, number, made.day),
            turnaround.chance_of(after, number, made.day),
        )
        for number, made in promised.items()
        if number in before.jobs
    }


def _order(
    load: Load,
    queue: Sequence[QueuedTape],
    wish: _Wish,
    runs: int,
    stop: Callable[[], bool],
) -> tuple[JobNumber, ...] | None:
    """The boxes of the queue in the order found; those that take no deck, or are rush, stay ahead."""
    plays, jobs = [], dict[int, JobNumber]()
    for tape in queue:
        decks = turnaround.decks_for(load, tape)
        if decks and not tape.rush and tape.station.waits_for_a_deck:
            plays.append(_planned_play(load, tape, decks))
            jobs[common_random_numbers.key(tape.job)] = tape.job
    if len(jobs) < 2:
        return None
    found = dispatching.arranged(plays, _task(load, plays, wish), SEED, runs, stop=stop)
    moved = [jobs[box] for box in dict.fromkeys(play.box for play in found)]
    stay = dict.fromkeys(tape.job for tape in queue if tape.job not in set(moved))
    order = (*stay, *moved)
    return None if order == tuple(dict.fromkeys(tape.job for tape in queue)) else order


def _task(load: Load, plays: Sequence[PlannedPlay], wish: _Wish) -> Task:
    """The decks, the dates, and how late each promised box may come: as now, and by what it can give."""
    free = tuple(float(row.mean()) for row in load.after_rush.timelines.free)
    due = {
        common_random_numbers.key(number): _close_by(load, made.day) for number, made in wish.promised.items()
    }
    task = Task(free, load.after_all.handling, due)
    ends = dispatching.finishes(dispatching.as_given(plays), task)
    most = {}
    for number, made in wish.promised.items():
        box = common_random_numbers.key(number)
        if box in ends:
            most[box] = ends[box] + (0.0 if number in wish.unmoved else _spare(load, number, made, due[box]))
    return replace(task, most=most)


def _close_by(load: Load, day: date) -> float:
    """The last closing up to ``day``, which may have become a day off since it was promised."""
    opened = bisect_right(load.calendar.days, day)
    return float(load.calendar.day_ends[opened - 1]) if opened else -np.inf


def _spare(load: Load, number: JobNumber, made: Promised, due: float) -> float:
    """Minutes by which a box may come later and still be as sure of its day as it was said to be."""
    finish = load.jobs.get(number)
    if finish is None or not len(finish.at):
        return 0.0
    at = turnaround.stated(load, finish).at
    sure = float(np.quantile(at, min(made.stated, 1.0), method="inverted_cdf"))
    return max(0.0, due - sure) if np.isfinite(sure) else 0.0


def _planned_play(load: Load, tape: QueuedTape, decks: tuple[int, ...]) -> PlannedPlay:
    planned = estimate(tape.minutes)
    gate = load.after_rush.timelines.hours.gate(planned)
    return PlannedPlay(
        common_random_numbers.key(tape.code), common_random_numbers.key(tape.job), decks, planned, gate
    )
