"""A plan in the making: the bench and the decks fill up as tapes are taken in, in every scenario."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import replace
from statistics import fmean

import numpy as np

from core.model import common_random_numbers
from core.model.common_random_numbers import SEED
from core.scheduling import event_simulation, roster_simulation, second_plays, staffed_simulation
from core.scheduling.breakdowns import fails_after
from core.scheduling.drawn_minutes import lengths
from core.scheduling.next_event import BENCH, NIGHT
from core.scheduling.opening_calendar import Minutes
from core.scheduling.plan_records import (
    LEAST_REMAINING,
    Ahead,
    Done,
    Step,
    UnderWay,
    Ways,
    estimate,
)
from core.scheduling.simulated_shop import InitialState, Part, Queue, Ready, Turnout
from core.scheduling.simulated_staff import Begun, Bench, Found, times_of


class Plan:
    """Takes tapes in order behind what stands before them."""

    def __init__(self, ahead: Ahead, ways: Ways) -> None:
        self.timelines = ahead.timelines.copy()
        self.slots = ahead.timelines.calendar.slots
        self.calendar = ahead.timelines.calendar
        self.ways = ways
        self.scenarios = ahead.timelines.free.shape[1]
        self.bench = ahead.bench
        self.waiting = Counter(ahead.waiting)
        self.work = dict(ahead.work)
        self.rush = tuple(coming.copy() for coming in ahead.rush)
        self.handling, self.checking = ahead.handling, ahead.checking

    def ahead(self) -> Ahead:
        """Where the next box would stand."""
        rush = tuple(coming.copy() for coming in self.rush)
        waiting, work = dict(self.waiting), dict(self.work)
        return Ahead(self.timelines.copy(), self.bench, waiting, work, rush, self.handling, self.checking)

    def work_off(self, steps: Sequence[Step], *, is_one_box: bool = False) -> list[Done]:
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
            initial = InitialState(self.timelines, self.handling, self.ways.now, self.rush)
            queue = replace(self._queue([step for step, _ in going], tapes), is_one_box=is_one_box)
            event_simulation.work_off(initial, queue)
            self.count([step for step, _ in going])
        return [
            *found,
            *(self._done(part, some, self._checked(part.ends, some)) for part, some in parts.all()),
        ]

    def work_off_by_hand(
        self, under_way: UnderWay, steps: Sequence[Step], overtaken_from: int = 0
    ) -> list[Done]:
        """The same with people who do one thing at a time, what is under way included.

        ``steps`` from ``overtaken_from`` on let rush tapes that come in go before them. Leaves behind how
        long a deck and a recording wait for somebody, for the box that comes next.
        """
        parts = _Parts(self.scenarios)
        steps, under_way, left_out = self._left_to_people(steps, under_way)
        going = [step for step in steps if step.plays and step.suited.decks]
        first = {id(step): place for place, step in enumerate(going)}
        tapes = [
            Turnout(step.suited.decks, estimate(step.minutes), step.rests_until, parts.of(step))
            for step in going
        ]
        bench = [
            Bench(step.bench, parts.of(step, again=True), first.get(id(step)), step.repairs)
            for step in steps
            if step.bench or id(step) not in first
        ]
        playing = self._playing(under_way)
        begun = Begun(
            [(deck, ends, parts.of(step)) for step, ends, deck in playing],
            [parts.of(step) for step in under_way.checking],
            [self._check_of(step) for step, _, _ in playing],
            [self._check_of(step) for step in under_way.checking],
        )
        initial = InitialState(
            self.timelines,
            0.0,
            self.ways.now,
            self.rush,
            overtaken_from=overtaken_from,
            presence=self.ways.presence,
        )
        found = self._worked_off(initial, self._queue(going, tapes), bench, begun)
        self.count(going)
        each = self.ways.handling
        self.handling = each.load + each.unload + found.wait
        self.checking = each.unload + found.check
        if len(self.calendar.opens):
            self.bench = self.calendar.worked(found.bench_free)
        return [*left_out, *(self._done(part, some, self._told(part.ends)) for part, some in parts.all())]

    def _worked_off(self, initial: InitialState, queue: Queue, bench: Sequence[Bench], begun: Begun) -> Found:
        """What a day is like with the people of this shop, one by one where they differ."""
        times, roster = times_of(self.ways.handling), self.ways.roster
        if roster is None:
            return staffed_simulation.work_off(initial, queue, self.ways.people, times, bench, begun)
        return roster_simulation.work_off(initial, queue, roster, times, bench, begun)

    def _left_to_people(
        self, steps: Sequence[Step], under_way: UnderWay
    ) -> tuple[Sequence[Step], UnderWay, list[Done]]:
        """What people here can do; tapes with work that nobody can do are in no plan, and never done."""
        if self.ways.roster is None:
            return steps, under_way, []
        every = [*(step for step, _, _ in under_way.playing), *under_way.checking, *steps]
        why = {id(step): self.ways.roster.why_nobody(step.works) for step in every}
        never = np.full(self.scenarios, np.inf)
        left_out = [Done(step, never, nobody=why[id(step)]) for step in every if why[id(step)]]
        playing = [each for each in under_way.playing if not why[id(each[0])]]
        checking = [step for step in under_way.checking if not why[id(step)]]
        return [step for step in steps if not why[id(step)]], UnderWay(playing, checking), left_out

    def go_on(self, under_way: UnderWay) -> list[Done]:
        """Tapes in the decks go on playing, recordings go on being checked."""
        found = []
        for step, ends, deck in self._playing(under_way):
            self.timelines.free[deck] = self.slots.advanced(ends, self.handling)
            found.append(Done(step, self._checked(ends, [step])))
        return [*found, *(Done(step, self._being_checked(step)) for step in under_way.checking)]

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
        keys = [step.key for step in steps]
        down, again = self.ways.breakdowns, self.ways.again
        fails = fails_after(down, keys, SEED + 7, self.scenarios) if down is not None else None
        if again:
            fails = second_plays.ended_in_vain(minutes, fails, keys, again, SEED + 41)
        repair = down.repair if down is not None else 0.0
        return Queue(tapes, minutes, fails, repair, checked_after=self.checking)

    def count(self, steps: Sequence[Step]) -> None:
        """These wait, and take their decks so long."""
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
        overlong = sum(self.timelines.hours.gate(estimate(step.minutes)).overlong for step in steps)
        return Done(steps[0], at, part.share(BENCH), part.share(NIGHT), overlong, len(steps))

    def _checked(self, ends: Minutes, steps: Sequence[Step]) -> Minutes:
        """When the recordings of these tapes are checked, the last of which ends then."""
        longer = fmean(self._check_of(step) for step in steps) - self.ways.handling.check
        return self._told(self.slots.advanced(ends, self.checking + longer))

    def _being_checked(self, step: Step) -> Minutes:
        """When a check that has just begun is over."""
        begun = np.full(self.scenarios, self.ways.now)
        return self._told(self.slots.advanced(begun, self._check_of(step)))

    def _check_of(self, step: Step) -> float:
        return self.ways.handling.check_of(step.minutes.likely)

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
