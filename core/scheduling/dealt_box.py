"""A short row of tapes dealt out to decks, one after the other, in every scenario at once.

For the box on the counter, behind a queue that has been worked off already (`event_simulation` does that, by
the same rules). Before a tape takes its turn, rush tapes that have come in by then go first. Where the
tape would not end before closing, the longest of the next ones that does is played on that deck instead.
These happen in some scenarios only: in every round each scenario deals with what is next in its own row,
and those that are through are left out. Where a deck has failed, the tape is played again after all
others of the row.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.scheduling.box_rows import Row
from core.scheduling.breakdowns import repair_after
from core.scheduling.deck_timelines import Turn
from core.scheduling.opening_hours import Minutes
from core.scheduling.rush_boxes import Coming
from core.scheduling.slot_lookup import Places, where
from core.scheduling.waiting_tapes import BENCH, DECK, NIGHT, Ground, Queue, Reasons

RUSH_BEFORE = 3
"""Rush tapes that go before one tape of the box; all the rest go before the last one of its kind. Rounds for
a handful of scenarios cost as much as for all, and the decks are as full in the end."""


def deal(ground: Ground, queue: Queue) -> None:
    """Deals every tape, first to last; what comes of it is in its part."""
    _Deal(ground, queue).all()


@dataclass(frozen=True, slots=True, eq=False)
class _Go:
    """What each scenario of ``at`` deals with next."""

    at: Places
    tape: Places
    ready: Minutes
    rounds: Places
    """How often something has gone before this tape."""


@dataclass(frozen=True, slots=True, eq=False)
class _Deed:
    """What is played in each scenario of ``at``, on the deck at ``spot`` of all (flat)."""

    at: Places
    tape: Places
    spot: Places
    start: Minutes
    why: Reasons

    def only(self, some: Places) -> _Deed:
        """The same in some of the scenarios."""
        return _Deed(
            self.at.take(some),
            self.tape.take(some),
            self.spot.take(some),
            self.start.take(some),
            self.why.take(some),
        )


class _Deal:
    def __init__(self, ground: Ground, queue: Queue) -> None:
        self._ground = ground
        self._lanes = ground.lanes
        self._slots = ground.lanes.slots
        self._decks, self._scenarios = ground.lanes.free.shape
        self._queue = queue
        self._row = Row(queue.tapes, ground)
        self._count = len(queue.tapes)
        self._minutes = queue.minutes.reshape(-1)
        self._fails = np.empty(0) if queue.fails_after is None else queue.fails_after.reshape(-1)
        self._fetched = np.zeros(self._scenarios * (self._count + 1), dtype=bool)
        """Tapes that were fetched forward, one line a scenario; the last place stands for none."""
        self._ends = np.full(self._count * self._scenarios, -np.inf)
        self._why = np.zeros(self._ends.shape, dtype=np.int8)
        self._failed: list[tuple[Places, Places, Minutes]] = []
        """Tapes to be played again: which, in which scenarios, from when."""

    def all(self) -> None:
        self._first_to_last()
        self._again()
        ends, why = (each.reshape(self._count, -1) for each in (self._ends, self._why))
        for place, tape in enumerate(self._queue.tapes):
            tape.part.end_all(ends[place], why[place])

    def _first_to_last(self) -> None:
        """Every scenario has a tape of its own; those that are through are left out."""
        at = np.arange(self._scenarios, dtype=np.intp)
        tape, rounds = np.zeros_like(at), np.zeros_like(at)
        while len(at):
            played = self._round(_Go(at, tape, self._row.ready_of(tape, at), rounds), fills=True)
            tape, rounds = tape + played, np.where(played, 0, rounds + 1)
            self._pass_over(tape, at)
            left = where(tape < self._count)
            if len(left) < len(at):
                at, tape, rounds = at.take(left), tape.take(left), rounds.take(left)

    def _pass_over(self, tape: Places, at: Places) -> None:
        """Moves on from tapes that were fetched forward."""
        cell = at * (self._count + 1) + tape
        gone = where(self._fetched.take(cell))
        while len(gone):
            tape[gone] += 1
            cell[gone] += 1
            gone = gone[self._fetched.take(cell.take(gone))]

    def _again(self) -> None:
        """Tapes whose deck failed, those planned alike together; nothing is left to fill a day with."""
        if not self._failed:
            return
        tapes, scenarios, since = (np.concatenate(each) for each in zip(*self._failed, strict=True))
        order = np.lexsort((self._row.kind.take(tapes), scenarios))
        tapes, scenarios, since = tapes.take(order), scenarios.take(order), since.take(order)
        at, begin = np.unique(scenarios, return_index=True)
        end = np.append(begin[1:], len(order))
        rounds = np.zeros_like(at)
        while len(at):
            played = self._round(_Go(at, tapes.take(begin), since.take(begin), rounds), fills=False)
            begin, rounds = begin + played, np.where(played, 0, rounds + 1)
            left = where(begin < end)
            at, begin, end, rounds = at.take(left), begin.take(left), end.take(left), rounds.take(left)

    def _round(self, go: _Go, *, fills: bool) -> NDArray[np.bool_]:
        """Plays one thing in each scenario: the tape, or what goes before it; where it was the tape."""
        turn = self._turn(go)
        why = (turn.start > turn.free).astype(np.int8)
        why *= NIGHT
        counts = self._row.may_wait or not fills
        why[(turn.free <= go.ready) & (counts | (go.ready > self._ground.now))] = BENCH
        played = self._no_rush(go, turn)
        on = where(played)
        deed = _Deed(go.at, go.tape.copy(), turn.place, turn.start, why)
        if fills:
            self._fetch_forward(go, turn, deed, played)
        self._play(deed if len(on) == len(go.at) else deed.only(on))
        return played

    def _turn(self, go: _Go) -> Turn:
        """The deck each tape would go to: the one free first, of equal ones the one named first."""
        cell = self._row.decks.take(go.tape, axis=0) * self._scenarios + go.at[:, None]
        free = self._lanes.free.reshape(-1).take(cell)
        np.maximum(free, go.ready[:, None], out=free)
        free += self._row.barrier.take(go.tape, axis=0)
        self._put_off(go.tape, cell, free)
        pick = np.arange(len(go.at)) * cell.shape[1] + free.argmin(axis=1)
        free = free.reshape(-1).take(pick)
        return Turn(cell.reshape(-1).take(pick), free, self._row.start(go.tape, free))

    def _put_off(self, tape: Places, cell: Places, free: Minutes) -> None:
        """Decks that would play while they are out by plan are free when they are back."""
        for out, spans in self._lanes.out.items():
            line, column = (cell // self._scenarios == out).nonzero()
            for begins, ends in spans:
                since = free[line, column]
                start = self._row.start(tape.take(line), since)
                inside = (start + self._row.estimate.take(tape.take(line)) > begins) & (start < ends)
                free[line, column] = np.where(inside, np.maximum(since, ends), since)

    def _play(self, deed: _Deed) -> None:
        cell = deed.tape * self._scenarios + deed.at
        ends = deed.start + self._minutes.take(cell)
        busy = self._failing(deed, cell, ends) if self._queue.fails_after is not None else ends
        self._lanes.occupy(deed.spot, busy, self._ground.handling)
        self._ends[cell] = ends
        self._why[cell] = deed.why

    def _failing(self, deed: _Deed, cell: Places, ends: Minutes) -> Minutes:
        """Until when the decks are busy. A tape whose deck fails has not ended: minus infinity."""
        fails = self._fails
        until = fails.take(cell)
        hit = where(deed.start + until < ends)
        if not len(hit):
            return ends
        busy, until = ends.copy(), until.take(hit)
        when = deed.start.take(hit) + until
        busy[hit] = when + repair_after(until, self._queue.repair)
        fails[cell.take(hit)] = np.inf
        ends[hit] = -np.inf
        self._failed.append((deed.tape.take(hit), deed.at.take(hit), when))
        return busy

    # --- what goes before -----------------------------------------------------------------

    def _no_rush(self, go: _Go, turn: Turn) -> NDArray[np.bool_]:
        """Plays the next rush tape of every kind that has come in before this start; where there was none."""
        none = np.ones(len(go.at), dtype=bool)
        if not self._ground.rush:
            return none
        lets_by = self._row.is_last.take(go.tape) | (go.rounds < RUSH_BEFORE)
        for coming, meets in zip(self._ground.rush, self._row.meets, strict=True):
            next_one = coming.next.take(go.at)
            before = (next_one <= turn.start) & (next_one < np.inf) & meets.take(go.tape) & lets_by
            some = where(before)
            if len(some):
                self._play_rush(coming, go.at.take(some))
                none[some] = False
        return none

    def _play_rush(self, coming: Coming, at: Places) -> None:
        arrives, minutes = coming.take(at)
        turn = self._lanes.turn(coming.kind.decks, arrives, coming.gate, at)
        self._lanes.occupy(turn.place, turn.start + minutes, self._ground.handling)

    def _fetch_forward(self, go: _Go, turn: Turn, deed: _Deed, played: NDArray[np.bool_]) -> None:
        """Puts a shorter tape in the place of one that would not end before closing."""
        held = where((turn.start > turn.free) & played & self._row.has_shorter.take(go.tape))
        if not len(held):
            return
        moment = self._slots.rise(turn.free.take(held))
        inside = where((turn.start.take(held) > moment) & (moment < np.inf))
        held, moment = held.take(inside), moment.take(inside)
        deck = turn.place.take(held) // self._scenarios
        near, fits = self._candidates(go.tape.take(held), deck, moment, go.at.take(held))
        best = fits.argmax(axis=1)
        found = where(fits[np.arange(len(held)), best])
        held, best = held.take(found), near[found, best.take(found)]
        self._fetched[go.at.take(held) * (self._count + 1) + best] = True
        deed.tape[held], deed.start[held], deed.why[held] = best, moment.take(found), DECK
        played[held] = False

    def _candidates(
        self, tape: Places, deck: Places, moment: Minutes, at: Places
    ) -> tuple[Places, NDArray[np.bool_]]:
        """The tapes behind each, the longest first, and which of them would end before closing there."""
        row, slots = self._row, self._slots
        room = slots.closes.take(slots.closing(moment)) + self._lanes.past_closing - moment
        near = row.near.take(tape, axis=0)
        fits = row.estimate.take(near) <= room[:, None]
        fits &= ~self._fetched.take(near + (at * (self._count + 1))[:, None])
        fits &= row.plays.take(near * self._decks + deck[:, None])
        if row.latest > self._ground.now:
            fits &= row.ready_of(np.minimum(near, self._count - 1), at[:, None]) <= moment[:, None]
        return near, fits
