"""The event simulation with staff: a person who changes a tape cannot look over another at the same time.

A person free takes what can be begun first, and of what can be begun at once: a deck that is due (unload,
load the next tape, then go), then a recording to be checked, then a tape at the bench, each in the order
it came. Nobody leaves a thing half done; checks and the bench rest overnight. A deck whose next tape has to
wait for an opening is unloaded and seen to again then.

With one person this moves dates by a sixth, with two by a fortieth, even where people are busy only half of
their time (derived: measured on a prototype).
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import repeat

import numpy as np
from numpy.typing import NDArray

from core.scheduling.check_line import CheckLine
from core.scheduling.event_simulation import EventSimulation
from core.scheduling.next_event import NextEvent
from core.scheduling.opening_calendar import NEVER, RETIRED, Minutes, Places, where
from core.scheduling.part_ends import PartEnds
from core.scheduling.simulated_shop import InitialState, Queue, Reasons
from core.scheduling.simulated_staff import Begun, Bench, Found, Times
from core.scheduling.staffed_tape_choice import StaffedTapeChoice


def work_off(
    initial: InitialState, queue: Queue, people: int, times: Times, bench: Sequence[Bench], begun: Begun
) -> Found:
    """Works the queue off with so many people; parts end when their last tape is checked."""
    simulation = StaffedSimulation(initial, queue, people, times, bench, begun)
    simulation.run()
    return simulation.found()


_LONGEST_WAIT = 60.0
"""A deck that waits longer waits for the morning and not for a person (an assumption)."""


class StaffedSimulation(StaffedTapeChoice, EventSimulation):
    """One go through a queue."""

    def __init__(
        self,
        initial: InitialState,
        queue: Queue,
        people: int,
        times: Times,
        bench: Sequence[Bench],
        begun: Begun,
    ) -> None:
        super().__init__(initial, queue)
        self._times = times
        self._presence = initial.presence or self._openings
        """When people are here."""
        self._check_minutes = times.checks(queue.minutes).reshape(-1)
        """Of each tape in each scenario."""
        others = [*(each.part for each in bench), *(part for _, _, part in begun.playing), *begun.checking]
        self._parts = PartEnds([*(tape.part for tape in queue.tapes), *others], self._scenarios)
        places = [*(self._parts.place_of(tape.part) for tape in queue.tapes), self._parts.none]
        self._part = np.array(places, dtype=np.intp)
        self._people = np.full((people, self._scenarios), initial.now)
        self._decks.free_apart()
        self._decks.is_any_idle = True  # one with nothing left may get a tape from the bench at any time
        self._loaded = np.zeros(self._decks.due.shape, dtype=bool)
        self._on = np.zeros(self._decks.due.shape, dtype=np.intp)
        self._why_on = np.zeros(self._decks.due.shape, dtype=np.int8)
        self._check_on = np.full(self._decks.due.shape, times.check)
        self._set_up_bench(bench, initial.now)
        most = self._count + len(begun.playing) + len(begun.checking)
        self._checks = CheckLine(most, self._scenarios, self._parts.none)
        self._set_up_begun(begun, initial.now)
        self._waited, self._visits = 0.0, 0

    def found(self) -> Found:
        """What was learned on the way."""
        check = self._checks.minutes(self._timelines.calendar, self._times.check)
        wait = self._waited / max(1, self._visits)
        return Found(wait, self._times.check if check is None else check, self._bench_free)

    def run(self) -> None:
        """Works everything off."""
        while self._anything_left() and not self._has_seen_enough():
            self._next_task()
        free = self._decks.free_apart()
        free[:] = self._timelines.calendar.slots.advanced(free, self._times.load)
        self._hand_over()

    def _has_seen_enough(self) -> bool:
        """Nobody comes to a deck any more; one that is idle now may yet get a tape from the bench."""
        return self._queue.until < NEVER and bool(self._people.min() >= self._queue.until)

    def _hand_over(self) -> None:
        """Parts end when their last tape is checked."""
        for tape, at in self._never_played():
            self._parts.note_never(self._part[tape], at)
        self._parts.hand_over()
        self._hand_over_decks()

    def _anything_left(self) -> bool:
        return bool(
            (self._decks.due < RETIRED).any()
            or self._checks.is_any_left()
            or (self._bench_next < len(self._bench_minutes) - 1).any()
        )

    def _next_task(self) -> None:
        """The next thing somebody does, in every scenario."""
        deck, spot = self._decks.soonest()
        who = self._people.argmin(axis=0) * self._scenarios + self._columns
        here = self._presence.rise(self._people.reshape(-1).take(who))
        due = self._presence.rise(self._decks.due.take(spot))
        visit = np.maximum(here, due)
        check_from = np.maximum(here, self._checks.since())
        bench_from = np.where(self._bench_next < len(self._bench_minutes) - 1, here, RETIRED)
        checks = (check_from <= bench_from) & (check_from < visit)
        benches = ~checks & (bench_from < visit)
        self._check(where(checks), who, check_from)
        self._look_over(where(benches), self._bench_next, who, here)
        self._visit(~checks & ~benches & (due < RETIRED), who, deck, spot, visit, due)

    def _done_at(self, who: Places, begin: Minutes, work: Minutes) -> Minutes:
        """When each person (a place among all) has done so much work; it rests overnight."""
        return self._presence.advanced(begin, work)

    def _keep_busy(self, who: Places, until: Minutes) -> None:
        self._people.reshape(-1)[who] = until

    # --- a deck ---------------------------------------------------------------------------

    def _visit(
        self,
        going: NDArray[np.bool_],
        who: Places,
        deck: Places,
        spot: Places,
        visit: Minutes,
        due: Minutes,
    ) -> None:
        """Unloads the deck and, if a tape can start at once, loads it."""
        if not going.any():
            return
        loaded = self._loaded.take(spot) & going
        unload = np.where(loaded, self._times.unload, 0.0)
        moment = self._done_at(who, visit, unload + self._times.load)
        event, next_look = self._choose(going, deck, spot, moment)
        self._unload(where(loaded), spot, visit, due)
        starts = (event.tape < self._count) | event.is_busy
        left = where(going & ~starts)
        self._decks.free_apart()[spot[left]] = visit[left] + unload[left]
        self._decks.due[spot[left]] = next_look[left]
        gone = where(going)
        self._keep_busy(who[gone], np.where(starts, moment, visit + unload)[gone])
        self._load(where(event.tape < self._count), spot, event)
        self._play(event)

    def _has_failed(self, spot: Places, tape: Places) -> None:
        super()._has_failed(spot, tape)
        self._loaded[spot] = False

    def _unload(self, at: Places, spot: Places, visit: Minutes, due: Minutes) -> None:
        self._loaded[spot[at]] = False
        part, why = self._on.take(spot.take(at)), self._why_on.take(spot.take(at))
        self._checks.add(
            at, visit.take(at) + self._times.unload, part, self._check_on.take(spot.take(at)), why
        )
        self._waited += float(np.minimum(visit[at] - due[at], _LONGEST_WAIT).sum())
        self._visits += len(at)

    def _load(self, at: Places, spot: Places, event: NextEvent) -> None:
        self._loaded[spot[at]] = True
        self._on[spot[at]] = self._part.take(event.tape[at])
        self._why_on[spot[at]] = event.why[at]
        self._check_on[spot[at]] = self._check_minutes.take(event.tape[at] * self._scenarios + at)

    def _occupy(self, spot: Places, ends: Minutes, slot: Places) -> None:
        self._decks.set_due(spot, ends)

    def _may_find_none(self, event: NextEvent) -> bool:
        """Nobody loads a deck on which nothing can start at once."""
        return True

    def _note(self, cell: Places, ends: Minutes, why: Reasons, hit: Places) -> None:
        """A tape has not ended before it is checked."""

    # --- the bench and the screen ---------------------------------------------------------

    def _check(self, at: Places, who: Places, since: Minutes) -> None:
        """The recording that came first is checked."""
        ends = self._done_at(who[at], since[at], self._checks.work(at))
        self._keep_busy(who[at], ends)
        part, why = self._checks.check(at, ends)
        self._parts.note(part, ends, why, at)

    def _look_over(self, at: Places, line: Places, who: Places, since: Minutes) -> None:
        """The tape of a line of the bench, told for each scenario, is looked over or repaired."""
        line = line[at]
        ends = self._done_at(who[at], since[at], self._bench_minutes[line])
        self._keep_busy(who[at], ends)
        self._bench_next[at] += 1
        self._bench_free[at] = np.maximum(self._bench_free[at], ends)
        tape = self._bench_tape[line]
        playing = tape < self._count
        self._ready[tape[playing], at[playing]] = np.maximum(ends[playing], self._rests.take(tape[playing]))
        self._wake(tape[playing], at[playing], ends[playing])
        only = ~playing
        why = np.ones(int(only.sum()), dtype=np.int8)
        self._parts.note(self._bench_part[line[only]], ends[only], why, at[only])

    # --- setting up -----------------------------------------------------------------------

    def _set_up_bench(self, bench: Sequence[Bench], now: float) -> None:
        """The tapes that go over the bench, with one more line for none."""
        none = self._count
        self._bench_minutes = np.array([*(each.minutes for each in bench), 0.0])
        tapes = [none if each.tape is None else each.tape for each in bench]
        self._bench_tape = np.array([*tapes, none], dtype=np.intp)
        parts = [self._parts.place_of(each.part) for each in bench]
        self._bench_part = np.array([*parts, self._parts.none], dtype=np.intp)
        self._bench_next = np.zeros(self._scenarios, dtype=np.intp)
        self._bench_free = np.full(self._scenarios, now)
        self._rests = self._ready_table()
        self._ready = np.repeat(self._rests[:, None], self._scenarios, axis=1)
        self._ready[self._bench_tape[:-1]] = RETIRED
        self._ready[none] = 0.0
        self._anyone_waits = True

    def _set_up_begun(self, begun: Begun, now: float) -> None:
        """What is being checked at this moment, and what is in the decks."""
        least = self._times.check
        for part, work in zip(begun.checking, begun.checks_of_checking or repeat(least), strict=False):
            self._checks.add(self._columns, now, self._parts.place_of(part), work)
        due, loaded, on, check_on = (
            each.reshape(self._scenarios, -1)
            for each in (self._decks.due, self._loaded, self._on, self._check_on)
        )
        for (deck, ends, part), work in zip(
            begun.playing, begun.checks_of_playing or repeat(least), strict=False
        ):
            if loaded[:, deck].any():  # two tapes are said to be on it: the second goes on by itself
                self._checks.add(self._columns, ends, self._parts.place_of(part), work)
                continue
            check_on[:, deck] = work
            due[:, deck] = ends
            loaded[:, deck] = True
            on[:, deck] = self._parts.place_of(part)
