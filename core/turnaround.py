"""The date: when a box will be ready, against the decks, the hours and the queue of this moment.

Hundreds of scenarios, each with its own play times, run through the same list scheduler. `load` does
the costly part once: the queue, up to the moment each deck is free. `promise` adds the tapes of one
box to that and reads the date off. Both are pure: the same queue, clock and tapes give the same date.

Left out, and so not in the stated chance: breakdowns, rush boxes that have yet to come in, and days
the shop stays shut without having planned to.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

import numpy as np

from core import draws, hours, plan
from core.dates import Asked, Finish, chances_by, finish_of, promise_of
from core.deck_choice import suited
from core.habits import STARTING, ShopHabits
from core.lanes import Lanes
from core.names import FormatName, JobNumber, Outcome, Speed, TapeCode, TvSystem
from core.plan import LOOK_OVER_MINUTES, Ahead, Done, Plan, Step, estimate
from core.possibilities import Facts, facts
from core.ranges import Range
from core.records import Fittings, Promise, QuotedTape, Verdict
from core.stations import ASIDE, Station

SCENARIOS = 500
"""The promised date still moved from seed to seed in 33, 21, 0 and 0 of 100 runs at 100, 200, 500 and
1,000 scenarios (derived: measured on a prototype)."""
SCENARIOS_OF_LONG_QUEUE = 200
LONG_QUEUE = 600
"""Queued tapes beyond which fewer scenarios do: finish times then lump at closing (derived, as above)."""

_BENCH_AHEAD = (Station.BOOKED_IN, Station.LOOKED_OVER, Station.AT_THE_BENCH)
_ON_ITS_WAY = (*_BENCH_AHEAD, Station.CLEARED_TO_PLAY)
_UNSETTLED = tuple(station for station in ASIDE if station is not Station.CANNOT_BE_PLAYED)


@dataclass(frozen=True, slots=True)
class QueuedTape:
    """A tape in the shop's care; ``bench_minutes`` is what repairs still take."""

    code: TapeCode
    format: FormatName
    recorded_as: FormatName | None
    tv: TvSystem | None
    speed: Speed | None
    minutes: Range
    station: Station
    since: datetime
    """When its station began."""
    rush: bool
    bench_minutes: float
    known: Facts | None = None
    """What is known of the recording; None: only ``minutes`` are."""
    habits: ShopHabits = STARTING
    """What the shop believes of it, tapes already played of its box taken in."""

    @property
    def job(self) -> JobNumber:
        """The job number is the beginning of the tape code."""
        return JobNumber(self.code[:6])


@dataclass(frozen=True, slots=True, eq=False)
class Load:
    """The shop at one moment, with its queue worked through. Costly to make, cheap to ask."""

    fittings: Fittings
    made_at: datetime
    calendar: hours.Calendar
    now: float
    """``made_at`` on the calendar."""
    after_rush: Ahead
    """Behind the tapes that play and the rush boxes: where a new rush box stands."""
    after_all: Ahead
    jobs: Mapping[JobNumber, Finish]
    """The jobs of the queue."""


def load(fittings: Fittings, queue: Sequence[QueuedTape], now: datetime) -> Load:
    """Work the queue through: playing tapes, then rush, then the others, each in the order given.

    Tapes set aside, ready or handed back take no deck. WrongInput when ``now`` has no timezone.
    """
    calendar = hours.calendar(fittings, hours.today(fittings, now))
    moment = calendar.at(now)
    filling = Plan(_empty(fittings, calendar, moment, len(queue)), moment, fittings.people)
    done = filling.go_on_playing(
        [
            (_queued_step(tape, fittings), max(0.0, moment - calendar.at(tape.since)))
            for tape in queue
            if tape.station is Station.PLAYING
        ]
    )
    checked = [tape for tape in queue if tape.station is Station.BEING_CHECKED]
    done += filling.go_on_checking([_queued_step(tape, fittings) for tape in checked])
    coming = [tape for tape in queue if tape.station in _ON_ITS_WAY]
    done += filling.take([_queued_step(tape, fittings) for tape in coming if tape.rush])
    after_rush = filling.ahead()
    done += filling.take([_queued_step(tape, fittings) for tape in coming if not tape.rush])
    return Load(fittings, now, calendar, moment, after_rush, filling.ahead(), _jobs(queue, done))


def promise(
    load: Load,
    tapes: Sequence[QuotedTape],
    rush: bool = False,
    needed_by: date | None = None,
    shop: ShopHabits = STARTING,
) -> Promise:
    """The date for a new box behind the queue; a rush box goes ahead of all that is not rush.

    Within the box, tapes that fit the fewest decks go first, then the longest. Tapes that no deck in
    service plays are left out of the date and named in ``held_by``.
    """
    steps = [_quoted_step(tape, load.fittings, shop) for tape in tapes]
    steps.sort(key=lambda step: (len(step.suited.decks), -step.minutes.likely))
    ahead = load.after_rush if rush else load.after_all
    done = Plan(ahead, load.now, load.fittings.people).take(steps)
    return promise_of(_finish(done), _asked(load, needed_by), ahead.waiting)


def standing(load: Load, number: JobNumber) -> Promise | None:
    """The date of a job of the queue as it looks now; None when it has no tape on its way."""
    finish = load.jobs.get(number)
    return promise_of(finish, _asked(load), {}) if finish is not None else None


def chance_of(load: Load, number: JobNumber, day: date) -> float:
    """The chance that a job of the queue is ready by the close of ``day`` (of the day before, if shut)."""
    finish = load.jobs.get(number)
    if finish is None or not len(finish.at):
        return 0.0
    opened = bisect_right(load.calendar.days, day)
    return float(chances_by(finish.at, load.calendar.day_ends[opened - 1 : opened])[0]) if opened else 0.0


def is_overlong(load: Load, tape: QuotedTape) -> bool:
    """Whether the tape is likely to play longer than any opening of the shop, time past closing included."""
    return load.after_all.lanes.gate(estimate(tape.minutes)).overlong


def bench_minutes(verdict: Verdict) -> float:
    """Likely minutes of a person's time for the repairs of one tape."""
    return sum(repair.minutes.likely for repair in verdict.repairs)


def _asked(load: Load, needed_by: date | None = None) -> Asked:
    return Asked(load.calendar, load.now, load.made_at, load.fittings.confidence, needed_by)


def _empty(fittings: Fittings, calendar: hours.Calendar, moment: float, queued: int) -> Ahead:
    """All decks free, nobody at the bench."""
    scenarios = SCENARIOS if queued <= LONG_QUEUE else SCENARIOS_OF_LONG_QUEUE
    free = np.full((len(fittings.decks), scenarios), moment)
    worked = float(calendar.worked(np.array([moment]))[0]) if len(calendar.opens) else 0.0
    return Ahead(Lanes(calendar, fittings.past_closing_minutes, free), worked, {})


def _finish(done: Sequence[Done], unsettled: int = 0) -> Finish:
    """The finish of those that can be planned, with a sentence for each kind that cannot."""
    planned = [one for one in done if one.step.suited.decks or not one.step.plays]
    left_out: dict[str, int] = {}
    for one in done:
        if one.step.plays and not one.step.suited.decks:
            why = one.step.suited.doubt or "no deck"
            left_out[why] = left_out.get(why, 0) + 1
    sentences = (
        f"{why}: {count} {'tape is' if count == 1 else 'tapes are'} left out of the date"
        for why, count in left_out.items()
    )
    return finish_of(planned, (*sentences, *_set_aside(unsettled)))


def _set_aside(count: int) -> tuple[str, ...]:
    if not count:
        return ()
    return (f"{count} {'tape is' if count == 1 else 'tapes are'} set aside and left out of the date",)


def _jobs(queue: Sequence[QueuedTape], done: Sequence[Done]) -> dict[JobNumber, Finish]:
    """The finish of every job that has a tape under way."""
    by_box: dict[int, list[Done]] = {}
    for one in done:
        by_box.setdefault(one.step.box, []).append(one)
    unsettled = Counter(tape.job for tape in queue if tape.station in _UNSETTLED)
    found: dict[JobNumber, Finish] = {}
    for number in dict.fromkeys(tape.job for tape in queue):
        under_way = by_box.get(draws.key(number), [])
        if under_way or unsettled[number]:
            found[number] = _finish(under_way, unsettled[number])
    return found


def _queued_step(tape: QueuedTape, fittings: Fittings) -> Step:
    bench = 0.0
    if tape.station in _BENCH_AHEAD:
        bench = tape.bench_minutes + (LOOK_OVER_MINUTES if tape.station is Station.BOOKED_IN else 0.0)
    return Step(
        key=draws.key(tape.code),
        box=draws.key(tape.job),
        suited=suited(fittings.decks, tape.format, tape.recorded_as, tape.tv, tape.speed),
        minutes=tape.minutes,
        bench=bench,
        drawn_as=plan.drawn_as(tape.known, tape.habits, tape.minutes),
    )


def _quoted_step(tape: QuotedTape, fittings: Fittings, shop: ShopHabits) -> Step:
    draft, plays = tape.draft, tape.verdict.outcome is not Outcome.CANNOT
    return Step(
        key=draws.key(tape.line, tape.n),
        box=draws.key("box"),
        suited=suited(fittings.decks, draft.format, draft.recorded_as, draft.tv, draft.speed),
        minutes=tape.minutes,
        bench=LOOK_OVER_MINUTES + (bench_minutes(tape.verdict) if plays else 0.0),
        plays=plays,
        drawn_as=plan.drawn_as(facts(draft), shop, tape.minutes),
    )
