"""The date: when a box will be ready, against the decks, the hours and the queue of this moment.

Hundreds of scenarios, each with its own play times, breakdowns, rush boxes and closed days, run through
the same plan. `load` does the costly part once: the queue, up to the moment each deck is free. `promise`
adds the tapes of one box to that and reads the date off. Both are pure: the same queue, clock and tapes
give the same date.
"""

from __future__ import annotations

from bisect import bisect_right
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

import numpy as np

from core.model import common_random_numbers
from core.model.names import JobNumber
from core.model.own_shop.settings_records import Deck, ShopSettings
from core.model.promise_records import Promise
from core.model.quote_records import QuotedTape
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.possibilities import facts
from core.promise import backlogs, recalibration
from core.promise.backlogs import Backlog
from core.promise.stated_dates import Before, DateQuery, Finish, chances_by, finish_of, promise_of
from core.scheduling import initial_state, opening_hours
from core.scheduling.breakdowns import awaited
from core.scheduling.deck_choice import suited
from core.scheduling.dispatching import in_dispatching_order
from core.scheduling.opening_calendar import Calendar
from core.scheduling.plan import Plan
from core.scheduling.plan_records import (
    Ahead,
    Done,
    Step,
    UnderWay,
    Ways,
    drawn_as,
    estimate,
)
from core.scheduling.queued_tapes import (
    QueuedTape,
    follows_people,
    lined_up,
    queued_step,
    under_way,
)
from core.wording.messages import say, worded_cache

SCENARIOS = ((200, 1000), (3_000, 500), (10**9, 200))
"""Up to so many queued tapes, so many scenarios. The promised date still moved from seed to seed in 33, 21,
0 and 0 of 100 runs at 100, 200, 500 and 1,000 scenarios; behind long queues it moves less, because finish
times lump at closing (derived: measured on a prototype)."""
_BOX = common_random_numbers.key("box")
_DAY = 24 * 60.0
"""Minutes, by definition."""


@dataclass(frozen=True, slots=True, eq=False)
class Staffed:
    """The queue before anybody has worked on it."""

    ahead: Ahead
    under_way: UnderWay
    rush: Sequence[Step]
    others: Sequence[Step]


@dataclass(frozen=True, slots=True, eq=False)
class Load:
    """The shop at one moment, with its queue worked through. Costly to make, cheap to ask."""

    settings: ShopSettings
    made_at: datetime
    calendar: Calendar
    ways: Ways
    after_rush: Ahead
    """Behind the tapes that play and the rush boxes: where a new rush box stands."""
    after_all: Ahead
    jobs: Mapping[JobNumber, Finish]
    """The jobs of the queue."""
    by_hand: bool
    """Whether each person was followed."""
    backlog: Backlog | None = None
    """More comes in than is played, where the shop's weeks showed it: dates are then the less sure."""
    staffed: Staffed | None = None
    """What the plan began with, where the people differ: with a new box it is made once more."""

    @property
    def tapes_waiting(self) -> int:
        """Tapes that wait for a deck."""
        return sum(self.after_all.waiting.values())

    @property
    def now(self) -> float:
        """``made_at`` on the calendar."""
        return self.ways.now


def load(
    settings: ShopSettings,
    queue: Sequence[QueuedTape],
    now: datetime,
    *,
    by_hand: bool | None = None,
    backlog: Backlog | None = None,
) -> Load:
    """Work the queue through: playing tapes, then rush, then the others, boxes in the order given.

    Tapes set aside, ready or handed back take no deck. ``by_hand``: whether to follow each person; None
    leaves it to what matters. ``backlog``: that more comes in than is played. WrongInput when ``now`` has no
    timezone.
    """
    calendar = opening_hours.calendar(settings, opening_hours.today(settings, now))
    ways, begun = initial_state.prepared(settings, calendar, calendar.at(now), _scenarios(len(queue)))
    rush, others = lined_up(settings, queue, calendar)
    playing = under_way(settings, queue, calendar, ways.now)
    plan, staffed = Plan(begun, ways), None
    if ways.roster is not None:
        by_hand = True
    elif by_hand is None:
        by_hand = follows_people(settings, queue, [*rush, *others])
    if by_hand:
        hurried = Plan(begun, ways)
        hurried.work_off_by_hand(playing, rush)
        after_rush = hurried.ahead()
        plan.rush = initial_state.rush_to_come(settings, begun, ways, [*rush, *others])
        staffed = Staffed(plan.ahead(), playing, rush, others) if ways.roster is not None else None
        done = plan.work_off_by_hand(playing, [*rush, *others], len(rush))
    else:
        done = plan.go_on(playing) + plan.work_off(rush)
        after_rush = plan.ahead()
        plan.rush = initial_state.rush_to_come(settings, begun, ways, [*rush, *others])
        done += plan.work_off(others)
    jobs = _jobs(queue, done)
    return Load(settings, now, calendar, ways, after_rush, plan.ahead(), jobs, by_hand, backlog, staffed)


def promise(
    load: Load,
    tapes: Sequence[QuotedTape],
    rush: bool = False,
    needed_by: date | None = None,
    shop: ShopHabits = STARTING,
    rests_hours: float = 0.0,
    copying_minutes: float = 0.0,
) -> Promise:
    """The date for a new box behind the queue; a rush box goes ahead of all that is not rush.

    Within the box, tapes that fit the fewest decks go first, then the longest. Tapes that no deck in
    service plays are left out of the date and named in ``held_by``. ``rests_hours``: how long a cold box
    must wait before it may be played (`core.catalogue.acclimatisation.hours_to_rest`); ``copying_minutes``
    of a person's time its copies take.
    """
    finish, before = behind(load, tapes, rush, shop, rests_hours, copying_minutes)
    return _dated(load, finish, needed_by, before)


def _dated(
    load: Load, finish: Finish, needed_by: date | None = None, before: Before | None = None
) -> Promise:
    """The date of a finish as it is stated; behind a queue that keeps growing, or late lately, it says so."""
    made = promise_of(finish, _query(load, needed_by), before)
    if finish.nothing_plays:
        return made
    order = finish.recalibrated
    growing = (load.backlog.sentence,) if load.backlog is not None and load.tapes_waiting else ()
    late = recalibration.why_later(order) if order is not None and made.day is not None else ()
    return replace(made, held_by=(*growing, *made.held_by, *late), recalibrated=order)


def stated(load: Load, finish: Finish) -> Finish:
    """What is stated of a finish of the plan: as unsure as the shop's pace, moved as promises turned out.

    Every chance and day that is told comes from here.
    """
    at = backlogs.spread(finish.at, load.backlog, load.calendar, load.now)
    learned = load.settings.expected.recalibration
    width = recalibration.width_of(at, load.calendar, load.now)
    order = recalibration.of_order(learned, finish.tapes, finish.rush, width)
    moved = recalibration.moved(at, order, load.calendar, load.now)
    return replace(finish, at=moved, recalibrated=order)


def behind(
    load: Load,
    tapes: Sequence[QuotedTape],
    rush: bool = False,
    shop: ShopHabits = STARTING,
    rests_hours: float = 0.0,
    copying_minutes: float = 0.0,
) -> tuple[Finish, Before]:
    """When it is stated that a new box would be done, and what waits with it: what `promise` reads.

    The copies are a person's time before the last tape that plays: their minutes count, and the plan needs no
    further kind of step.
    """
    rests_until = load.now + 60 * rests_hours if rests_hours else 0.0
    settings = load.settings
    times = settings.handling.look_over, settings.worked.repair
    each = [_quoted_step(tape, settings.decks, shop, rests_until, times) for tape in tapes]
    if copying_minutes:
        _add_copying(each, settings.worked.copying * copying_minutes)
    steps = in_dispatching_order(each)
    ahead = load.after_rush if rush else load.after_all
    plan = Plan(ahead, load.ways)
    if load.staffed is not None:
        plan.count([step for step in steps if step.plays and step.suited.decks])
        finish = _behind_people(load.staffed, load.ways, steps, rush)
    else:
        finish = _finish(plan.work_off(steps, is_one_box=True), rush)
    return stated(load, finish), Before(ahead.waiting, plan.work)


def _add_copying(steps: list[Step], minutes: float) -> None:
    last = next((place for place in range(len(steps) - 1, -1, -1) if steps[place].plays), None)
    if last is not None:
        steps[last] = replace(steps[last], bench=steps[last].bench + minutes)


def _behind_people(staffed: Staffed, ways: Ways, box: Sequence[Step], rush: bool) -> Finish:
    """The whole plan with the box in its place: each person has the work of all tapes before them."""
    hurried = [*staffed.rush, *box] if rush else staffed.rush
    others = staffed.others if rush else [*staffed.others, *box]
    plan = Plan(staffed.ahead, ways)
    done = plan.work_off_by_hand(staffed.under_way, [*hurried, *others], len(hurried))
    return _finish([one for one in done if one.step.box == _BOX], rush)


def standing(load: Load, number: JobNumber) -> Promise | None:
    """The date of a job of the queue as it looks now; None when it has no tape on its way."""
    finish = load.jobs.get(number)
    return _dated(load, stated(load, finish)) if finish is not None else None


def chance_of(load: Load, number: JobNumber, day: date) -> float:
    """The chance that a job of the queue is ready by the close of ``day`` (of the day before, if shut)."""
    finish = load.jobs.get(number)
    if finish is None or not len(finish.at):
        return 0.0
    opened = bisect_right(load.calendar.days, day)
    at = stated(load, finish).at
    return float(chances_by(at, load.calendar.day_ends[opened - 1 : opened])[0]) if opened else 0.0


def days_sooner(before: Load, after: Load) -> dict[JobNumber, float]:
    """Days by which the middle of each finish comes sooner (negative: later), where a box finishes at all."""
    found = {}
    for number, finish in before.jobs.items():
        changed = after.jobs.get(number)
        if changed is None or not len(finish.at) or not len(changed.at):
            continue
        was, will = float(np.median(finish.at)), float(np.median(changed.at))
        if np.isfinite(was) and np.isfinite(will):
            found[number] = (was - will) / _DAY
    return found


def is_overlong(load: Load, tape: QuotedTape) -> bool:
    """Whether the tape is likely to play longer than any opening of the shop, time past closing included."""
    return load.after_all.timelines.hours.gate(estimate(tape.minutes)).overlong


def decks_for(load: Load, tape: QueuedTape) -> tuple[int, ...]:
    """Places of the decks that a tape of the queue may play on."""
    return suited(load.settings.decks, tape.format, tape.recorded_as, tape.tv, tape.speed).decks


def is_planned(load: Load, tape: QueuedTape) -> bool:
    """Whether the plan holds a tape of the queue: a deck plays it, and somebody here can do what it needs."""
    step = queued_step(tape, load.settings, load.calendar)
    roster = load.ways.roster
    return bool(step.suited.decks) and not (roster and roster.why_nobody(step.works))


def decks_of(load: Load, tape: QuotedTape) -> tuple[int, ...]:
    """Places of the decks that a tape on the counter may play on."""
    draft = tape.draft
    return suited(load.settings.decks, draft.format, draft.recorded_as, draft.tv, draft.speed).decks


def _query(load: Load, needed_by: date | None = None) -> DateQuery:
    fitted = load.settings
    away = awaited(fitted)
    return DateQuery(load.calendar, load.now, load.made_at, fitted.confidence, needed_by, away)


def _scenarios(queued: int) -> int:
    return next(scenarios for most, scenarios in SCENARIOS if queued <= most)


def _finish(done: Sequence[Done], rush: bool, unsettled: int = 0) -> Finish:
    """The finish of those that can be planned, with a sentence for each kind that cannot."""
    left_out: dict[str, int] = {}
    planned: list[Done] = []
    for one in done:
        why = one.nobody
        if one.step.plays and not one.step.suited.decks:
            why = one.step.suited.doubt or say("dates", "no_deck_at_all")
        if why:
            left_out[why] = left_out.get(why, 0) + one.count
        else:
            planned.append(one)
    sentences = (say("dates", "left_out", why=why, n=count) for why, count in left_out.items())
    return finish_of(planned, (*sentences, *_set_aside(unsettled)), rush)


def _set_aside(count: int) -> tuple[str, ...]:
    return (say("dates", "set_aside", n=count),) if count else ()


def _jobs(queue: Sequence[QueuedTape], done: Sequence[Done]) -> dict[JobNumber, Finish]:
    """The finish of every job that has a tape under way."""
    by_box: dict[int, list[Done]] = {}
    for one in done:
        by_box.setdefault(one.step.box, []).append(one)
    unsettled = Counter(tape.job for tape in queue if tape.station.is_unsettled)
    rush = {tape.job for tape in queue if tape.rush}
    found: dict[JobNumber, Finish] = {}
    for number in dict.fromkeys(tape.job for tape in queue):
        under_way = by_box.get(common_random_numbers.key(number), [])
        if under_way or unsettled[number]:
            found[number] = _finish(under_way, number in rush, unsettled[number])
    return found


@worded_cache(maxsize=1024)
def _quoted_step(
    tape: QuotedTape,
    decks: tuple[Deck, ...],
    shop: ShopHabits,
    rests_until: float,
    times: tuple[float, float],
) -> Step:
    """``times``: minutes of a look-over, and how many times as long as planned repairs take."""
    draft, plays = tape.draft, tape.verdict.is_worked_on
    look_over, repair = times
    return Step(
        key=common_random_numbers.key(tape.line, tape.n),
        box=_BOX,
        suited=suited(decks, draft.format, draft.recorded_as, draft.tv, draft.speed),
        minutes=tape.minutes,
        bench=look_over + (repair * tape.verdict.bench_minutes if plays else 0.0),
        plays=plays,
        drawn_as=drawn_as(facts(draft), shop, tape.minutes),
        rests_until=rests_until,
        repairs=plays and bool(tape.verdict.repairs),
    )
