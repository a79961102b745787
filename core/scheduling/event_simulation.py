"""Discrete-event simulation of the decks: works the whole queue off in every scenario at once.

Each scenario takes its own next event in every round: the deck that is free first gets its next tape. So
the rounds are about as many as the tapes, whatever happens in between: rush tapes that come in, tapes
fetched forward for the end of the day, decks that fail. Decks that share no tape know nothing of each
other: each group of them (`deck_groups`) is worked off by itself.

Which tape goes next on a deck is the dispatching rule (`core.scheduling.tape_choice`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from core.scheduling.deck_states import DeckStates
from core.scheduling.next_event import DECK, NextEvent
from core.scheduling.opening_calendar import NEVER, RETIRED, Minutes, Places, where
from core.scheduling.ready_lists import ReadyLists
from core.scheduling.rework import Rework
from core.scheduling.simulated_shop import InitialState, Queue, Ready, Reasons, SeenStart, deck_groups
from core.scheduling.start_gates import StartGates
from core.scheduling.tape_choice import TapeChoice

_WORTH_LEAVING_OUT = 0.9
"""Scenarios that are through are left out once no more than this share goes on (an assumption)."""
_FEW = 100
"""Among so few it is not worth the while (measured: a row costs next to nothing then)."""


def work_off(initial: InitialState, queue: Queue) -> None:
    """Works the queue off; what comes of it is in the parts of its tapes, the deck timelines and the rush.

    The queue's minutes and failures may be used up. A queue that is seen is one of one scenario.
    """
    if queue.seen is not None:
        EventSimulation(initial, queue).run()
        return
    for group in deck_groups(initial, queue):
        EventSimulation(group.initial, group.queue).run()
        group.give_back(initial)


class EventSimulation(TapeChoice):
    """One go through a queue. Changes the deck timelines, the rush, the minutes and the parts of the tapes.

    Everything of one event is an array with a row for each scenario that is not through yet.
    """

    def __init__(self, initial: InitialState, queue: Queue) -> None:
        self._timelines, self._rush = initial.timelines, initial.rush
        self._queue, self._handling = queue, initial.handling
        self._openings = initial.timelines.hours.openings
        self._most = min(initial.fill, len(queue.tapes))
        self._scenarios = initial.timelines.free.shape[1]
        self._columns = np.arange(self._scenarios, dtype=np.intp)
        self._count = len(queue.tapes)
        self._rounds = 0
        self._through = np.full(self._scenarios, self._count, dtype=np.intp)
        """The round after which each row is through: one more for each in which no tape played to its end."""
        self._goes_on = True
        """Whether some row is not through yet."""
        self._stranded: list[tuple[np.intp, Places]] = []
        """Tapes that no deck will play any more, with the scenarios."""
        self._decks = DeckStates(initial.timelines.free, self._openings)
        self._rush_on = [self._only_on(coming.kind.decks) for coming in self._rush]
        self._overtaken = np.arange(self._count + 1) >= initial.overtaken_from
        self._overtaken[-1] = False
        self._set_up_tapes()

    def run(self) -> None:
        """Works everything off."""
        while self._goes_on and not self._has_seen_enough():
            self._round()
            self._leave_out()
        self._hand_over()

    def _has_seen_enough(self) -> bool:
        return self._queue.until < NEVER and bool(self._decks.due.min() >= self._queue.until)

    def _hand_over(self) -> None:
        """What came of it; tapes that found no opening any more never end."""
        ends = self._minutes.reshape(self._count, self._scenarios)
        for left, at in self._never_played():
            ends[left, at] = NEVER
        ends[ends >= NEVER] = np.inf
        why = self._why.reshape(ends.shape)
        for place, tape in enumerate(self._queue.tapes):
            tape.part.end(ends[place], why[place])
        self._hand_over_decks()

    def _hand_over_decks(self) -> None:
        self._timelines.free[:] = self._decks.at_the_end(self._columns)

    def _never_played(self) -> Iterator[tuple[Places | np.intp, Places]]:
        """Tapes with the scenarios in which they are still there, and those that wait to be played again."""
        yield from self._stranded
        row = where(self._through > self._rounds)
        if len(row):
            yield from self._ready_lists.never_taken(row, self._columns.take(row))
        for tapes, since in zip(self._rework.tape, self._rework.since, strict=True):
            at = where(since < RETIRED)
            yield tapes[at], at

    def _round(self) -> None:
        """The next event of every scenario with something left to do."""
        deck, spot = self._decks.soonest()
        moment, slot = self._decks.due.take(spot), self._decks.slot.take(spot)
        if self._decks.is_any_idle:
            self._give_up(where(moment >= RETIRED))
        self._anyone_waits = self._anyone_waits and bool(moment.min() < self._last_ready)
        event = self._next_tape(deck, spot, moment, slot)
        if self._timelines.out:
            self._hold_by_plan(event)
        if self._rush and self._rush_first(event):
            return
        if self._rework.is_any_waiting:
            self._again_first(event)
        self._fetch_forward(event)
        none = self._play(event)
        if len(none):
            idle = none[~(event.is_held | event.is_busy).take(none)]
            if len(idle):
                self._decks.retire(spot.take(idle))

    def _give_up(self, at: Places) -> None:
        """Where no deck has anything to do the tapes that are left never play."""
        at = at[self._through.take(at) > self._rounds]
        if len(at):
            self._stranded += self._ready_lists.never_taken(at, self._columns.take(at))
            self._through[at] = self._rounds

    def _leave_out(self) -> None:
        """Scenarios that are through are left out from now on, when they are many."""
        if self._rounds < self._count and not self._stranded:
            return
        row = where(self._through > self._rounds)
        self._goes_on = len(row) > 0
        if self._goes_on and len(row) <= _WORTH_LEAVING_OUT * len(self._through) > _FEW:
            self._decks.only(self._columns, row)
            self._ready_lists.only(row)
            self._columns, self._through = self._columns.take(row), self._through.take(row)

    def _play(self, event: NextEvent) -> Places:
        """Plays the tapes that were chosen; which of the rows have none."""
        none = where(event.tape == self._count) if self._may_find_none(event) else self._columns[:0]
        self._rounds += 1
        scenario, at = self._columns, None
        if len(none):
            self._through[none] += 1
            at = where(event.tape < self._count)
            if not len(at):
                return none
            event, scenario = event.only(at), scenario.take(at)
        if self._queue.seen is not None:
            self._write_down(event)
        cell = event.tape * self._scenarios + scenario
        ends = event.start + self._minutes.take(cell)
        np.minimum(ends, NEVER, out=ends)
        until, hit = self._rework.failing(cell, event.start, ends, scenario)
        self._occupy(event.spot, until, event.slot)
        self._take_away(event, at)
        self._note(cell, ends, event.why, hit)
        if len(hit):
            self._through[hit if at is None else at.take(hit)] += 1
            self._has_failed(event.spot.take(hit), event.tape.take(hit))
        return none

    def _may_find_none(self, event: NextEvent) -> bool:
        """Whether some deck may have found no tape: as long as no list can be empty, none does."""
        return bool(event.busy or self._rounds >= self._ready_lists.shortest or self._timelines.out)

    def _write_down(self, event: NextEvent) -> None:
        if self._queue.seen is not None:
            decks = (event.spot % self._decks.count).tolist()
            rows = zip(event.tape.tolist(), decks, event.start.tolist(), strict=True)
            self._queue.seen.extend(SeenStart(*row) for row in rows)

    def _take_away(self, event: NextEvent, at: Places | None) -> None:
        """What is played is on no ready list any more; what is played again has been taken away before."""
        if self._rework.may_fail and event.is_again.any():
            fresh = where(~event.is_again)
            lists = event.ready_list.take(fresh), event.head.take(fresh), event.place.take(fresh)
            self._ready_lists.take(*lists, fresh if at is None else at.take(fresh))
        else:
            self._ready_lists.take(event.ready_list, event.head, event.place, at)

    def _note(self, cell: Places, ends: Minutes, why: Reasons, hit: Places) -> None:
        """The ends take the place of the minutes, but for tapes whose deck failed."""
        if len(hit):
            ends[hit] = self._minutes.take(cell.take(hit))
        self._minutes[cell] = ends
        if self._rework.may_fail:
            self._why[cell] = why
        else:
            told = where(why != DECK)
            self._why[cell.take(told)] = why.take(told)

    def _occupy(self, spot: Places, ends: Minutes, slot: Places) -> None:
        """Decks are busy to these ends and until somebody has handled them; ``slot`` is none too late."""
        self._decks.occupy(spot, *self._openings.handled(ends, slot, self._handling))

    # --- decks that fail ------------------------------------------------------------------

    def _has_failed(self, spot: Places, tape: Places) -> None:
        """Decks have failed under these tapes: others may have something to play again."""
        row = spot // self._decks.count
        self._wake(tape, row, self._decks.first_free(row))

    def _wake(self, tape: Places, row: Places, since: Minutes) -> None:
        """Decks that had nothing left to do have something again."""
        if self._decks.is_any_idle:
            line, deck = (self._decks.idle(row) & self._plays.take(tape, axis=0)).nonzero()
            spot = row.take(line) * self._decks.count + deck
            self._decks.put_off(spot, np.maximum(self._decks.free.take(spot), since.take(line)))

    # --- setting up -----------------------------------------------------------------------

    def _only_on(self, decks: Sequence[int]) -> NDArray[np.bool_] | None:
        """Which decks these are; None: all there are."""
        allowed = np.array([deck in decks for deck in range(self._decks.count)])
        return None if allowed.all() else allowed

    def _set_up_tapes(self) -> None:
        """Tables with one more line, for no tape at all."""
        tapes, decks = self._queue.tapes, self._decks.count
        needs = [(tape.decks, tape.estimate) for tape in tapes]
        self._ready_lists = ReadyLists(needs, decks, self._scenarios, self._most)
        self._starts = StartGates(self._timelines.hours, self._ready_lists.estimates, self._ready_lists.ranks)
        self._last_ready = max((_latest(tape.ready) for tape in tapes), default=0.0)
        self._anyone_waits = self._last_ready > float(self._decks.due.min())
        self._ready = self._ready_table() if self._anyone_waits else np.zeros(0)
        self._plays = np.zeros((self._count + 1, decks), dtype=bool)
        for place, tape in enumerate(tapes):
            self._plays[place, list(tape.decks)] = True
        queue = self._queue
        times = queue.repair, queue.checked_after
        self._rework = Rework(self._plays, queue.fails_after, times, self._scenarios)
        self._minutes = self._queue.minutes.reshape(-1)
        self._why = np.zeros(self._minutes.shape, dtype=np.int8)

    def _ready_table(self) -> Minutes:
        """When the bench lets each tape go, 0 for no tape; with a column a scenario where these differ."""
        ready = [*(tape.ready for tape in self._queue.tapes), 0.0]
        if any(isinstance(each, np.ndarray) for each in ready):
            return np.stack([np.broadcast_to(each, self._scenarios) for each in ready])
        return np.array(ready, dtype=np.float64)


def _latest(ready: Ready) -> float:
    """The last of the moments at which the bench lets a tape go."""
    return float(ready.max()) if isinstance(ready, np.ndarray) else ready
