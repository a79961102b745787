"""The whole queue worked off on the shop's floor, event by event, in every scenario at once.

Each scenario takes its own next event in every round: the deck that is free first gets its next tape. So
the rounds are about as many as the tapes, whatever happens in between: rush tapes that come in, tapes
fetched forward for the end of the day, decks that fail.

The rules, written down so that another program with the same draws gives the same plan to the minute:
- of all decks with tapes left, the one free first takes its turn; of two equal ones, the first in order;
- it takes the first tape of the queue that it can play, and waits for the bench or an opening with it;
- unless a rush tape for it has come in before that start: that one goes first;
- unless the tape would have to wait for another opening, or for the bench: then the longest of the next
  `FILL` tapes it can play that is ready and ends before closing (by estimates) goes first, of equally long
  ones the first in the queue;
- a deck that fails is free again when it is repaired; its tape stands before all others again.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.breakdowns import repair_after
from core.dealing import BENCH, DECK, FILL_WITHIN, NIGHT, Ground, Queue
from core.hours import Minutes
from core.slots import Places

NEVER = 1e12
"""Minutes that stand for beyond the calendar: arithmetic with infinity would warn."""
_RETIRED = 1e15
_WAITING = 4
"""Tapes that may wait at once to be played again: one deck in a dozen has failed, rarely two."""


@dataclass(frozen=True, slots=True, eq=False)
class _Turn:
    """What each scenario does next; changed in place as something else goes before."""

    tape: Places
    """The place of the tape; the count of all tapes stands for none."""
    start: Minutes
    why: NDArray[np.int8]
    is_busy: NDArray[np.bool_]
    """Whether the deck has been given something that is not of the queue."""
    is_again: NDArray[np.bool_]
    """Whether the tape has been played before, on a deck that failed."""


def work_off(ground: Ground, queue: Queue) -> None:
    """Works the queue off; what comes of it is in the parts of its tapes, the lanes and the rush."""
    _Floor(ground, queue).run()


class _Floor:
    """One go through a queue. Changes ``lanes``, ``rush`` and the parts of the tapes."""

    def __init__(self, ground: Ground, queue: Queue) -> None:
        lanes = self._lanes = ground.lanes
        self._queue = queue
        self._handling = ground.handling
        self._rush = ground.rush
        self._most = ground.fill
        decks, self._scenarios = lanes.free.shape
        self._columns = np.arange(self._scenarios, dtype=np.intp)
        self._count = len(queue.tapes)
        np.minimum(lanes.free, NEVER, out=lanes.free)
        self._due = lanes.free.copy()
        self._rush_on = [np.isin(np.arange(decks), coming.kind.decks) for coming in ground.rush]
        self._set_up_slots()
        self._set_up_tapes(decks)
        self._set_up_parts()

    def run(self) -> None:
        """Works everything off."""
        while (self._due < _RETIRED).any():
            self._round()
        free = self._lanes.free
        free[free >= NEVER] = np.inf
        for place, part in enumerate(self._parts):
            part.ends[:] = np.where(self._ends[place] >= NEVER, np.inf, self._ends[place])
            part.why[:] = self._why[place]

    def _round(self) -> None:
        """The next event of every scenario."""
        deck = self._due.argmin(axis=0)
        spot = deck * self._scenarios + self._columns
        moment = self._due.reshape(-1).take(spot)
        turn = self._next_tape(deck, moment)
        held = self._held_by_plan(deck, spot, turn)
        self._rush_first(deck, spot, turn)
        if self._queue.fails_after is not None:
            self._again_first(deck, moment, turn)
        self._fetch_forward(deck, moment, turn)
        self._play(spot, turn)
        idle = np.flatnonzero((turn.tape == self._count) & ~turn.is_busy & ~held)
        self._due.reshape(-1)[spot[idle]] = _RETIRED

    def _next_tape(self, deck: Places, moment: Minutes) -> _Turn:
        """The first tape of the queue for each deck and the start it could have."""
        tape = np.maximum(self._head, self._plays.take(deck, axis=1)).min(axis=0)
        wish = np.maximum(moment, self._ready.take(tape)) if self._anyone_waits else moment
        slot = self._slots.closing(wish)
        start = np.maximum(wish, self._opens.take(slot))
        room = self._closes.take(slot) + self._lanes.past_closing - start
        self._shorten(deck, start, room)
        fits = self._estimate.take(tape) <= room
        if self._any_overlong:
            fits = np.where(self._overlong.take(tape), wish <= self._opens.take(slot), fits)
        late = np.flatnonzero(~fits & (tape < self._count))
        following = self._following[self._line[tape[late]], slot[late] + 1]
        start[late] = np.maximum(start[late], self._opens.take(following))
        why = np.full(self._scenarios, DECK, dtype=np.int8)
        if self._anyone_waits:
            why[wish > moment] = BENCH
        why[late] = NIGHT
        no = np.zeros(self._scenarios, dtype=bool)
        return _Turn(tape, start, why, no, no.copy())

    def _shorten(self, deck: Places, start: Minutes, room: Minutes) -> None:
        """Leaves less room on a deck that will be out by plan."""
        for out, spans in self._lanes.out.items():
            mine = np.flatnonzero(deck == out)
            for begins, _ in spans:
                before = mine[start[mine] < begins]
                room[before] = np.minimum(room[before], begins - start[before])

    def _held_by_plan(self, deck: Places, spot: Places, turn: _Turn) -> NDArray[np.bool_]:
        """Decks that would play while they are out by plan wait until they are back."""
        held = np.zeros(self._scenarios, dtype=bool)
        for out, spans in self._lanes.out.items():
            mine = np.flatnonzero((deck == out) & (turn.tape < self._count))
            for begins, ends in spans:
                start = turn.start[mine]
                inside = mine[(start + self._estimate[turn.tape[mine]] > begins) & (start < ends)]
                held[inside] = True
                self._due.reshape(-1)[spot[inside]] = np.maximum(turn.start[inside], ends)
                mine = mine[~held[mine]]
        turn.tape[held] = self._count
        return held

    def _rush_first(self, deck: Places, spot: Places, turn: _Turn) -> None:
        """Where a rush tape for this deck has come in before the start, it plays instead."""
        for coming, allowed in zip(self._rush, self._rush_on, strict=True):
            plays = allowed.take(deck)
            ready = plays & (coming.next <= turn.start) & (coming.next < np.inf) & (turn.tape < self._count)
            at = np.flatnonzero(ready)
            if len(at):
                free = self._due.reshape(-1)[spot[at]]
                arrives, minutes = coming.take(at)
                ends = coming.gate.start(np.maximum(free, arrives)) + minutes
                self._occupy(spot[at], np.minimum(ends, NEVER))
                turn.tape[at] = self._count
                turn.is_busy[at] = True

    def _fetch_forward(self, deck: Places, moment: Minutes, turn: _Turn) -> None:
        """Where the tape would wait, the longest of the next ones that can play and end now goes first."""
        at = np.flatnonzero((turn.start > moment) & (turn.tape < self._count) & ~turn.is_again)
        if not len(at) or not self._most:
            return
        slot = self._slots.closing(moment[at])
        begin = np.maximum(moment[at], self._opens.take(slot))
        inside = np.flatnonzero((turn.start[at] > begin) & (begin < NEVER))
        if not len(inside):
            return
        at, begin, slot = at[inside], begin[inside], slot[inside]
        room = self._closes.take(slot) + self._lanes.past_closing - begin
        self._shorten_some(deck[at], begin, room)
        line = self._own_place[deck[at], turn.tape[at]]
        near = self._own[deck[at, None], line[:, None] + np.arange(self._most)]
        estimates = np.where(near < self._count, self._estimate.take(near), np.inf)
        fits = (estimates <= room[:, None]) & ~self._fetched[near, at[:, None]]
        fits &= near - turn.tape[at, None] <= FILL_WITHIN
        if self._anyone_waits:
            fits &= self._ready.take(near) <= begin[:, None]
        longest = np.where(fits, estimates, -1.0)
        best = longest.argmax(axis=1)
        found = np.flatnonzero(longest[np.arange(len(at)), best] >= 0)
        at = at[found]
        turn.tape[at] = near[found, best[found]]
        turn.start[at] = begin[found]
        turn.why[at] = DECK

    def _shorten_some(self, deck: Places, start: Minutes, room: Minutes) -> None:
        if self._lanes.out:
            self._shorten(deck, start, room)

    def _play(self, spot: Places, turn: _Turn) -> None:
        """Plays the tapes that were chosen, and moves their queues on."""
        tape = turn.tape
        cell = tape * self._scenarios + self._columns
        ends = np.minimum(turn.start + self._minutes.take(cell), NEVER)
        part = self._part.take(tape) * self._scenarios + self._columns
        busy, hit = self._failed(cell, turn, ends)
        going = np.flatnonzero(tape < self._count)
        self._occupy(spot[going], busy[going])
        self._move_on(tape, np.flatnonzero((tape < self._count) & ~turn.is_again))
        last = ends > self._ends.reshape(-1).take(part)
        if len(hit):
            self._wake(tape[hit], hit)
            last[hit] = False
        last = np.flatnonzero(last)
        self._ends.reshape(-1)[part[last]] = ends[last]
        self._why.reshape(-1)[part[last]] = turn.why[last]

    def _occupy(self, spot: Places, ends: Minutes) -> None:
        after = self._slots.advanced(ends, self._handling) if self._handling else ends
        after = np.minimum(after, NEVER)
        self._lanes.free.reshape(-1)[spot] = after
        self._due.reshape(-1)[spot] = after

    # --- the queues -----------------------------------------------------------------------

    def _move_on(self, tape: Places, going: Places) -> None:
        """The heads of the queues after these tapes have gone."""
        chosen = tape[going]
        cell = self._kind.take(chosen) * self._scenarios + going
        head = self._head.reshape(-1)
        is_head = head.take(cell) == chosen
        fetched = np.flatnonzero(~is_head)
        if len(fetched):
            self._fetched[chosen[fetched], going[fetched]] = True
            self._any_fetched = True
        self._advance(cell[is_head], going[is_head])

    def _advance(self, cell: Places, at: Places) -> None:
        head, place = self._head.reshape(-1), self._at.reshape(-1)
        while len(cell):
            place[cell] += 1
            new = self._rows.take(self._begin.take(cell // self._scenarios) + place[cell])
            head[cell] = new
            if not self._any_fetched:
                return
            skip = np.flatnonzero(self._fetched[new, at])
            cell, at = cell[skip], at[skip]

    # --- decks that fail ------------------------------------------------------------------

    def _again_first(self, deck: Places, moment: Minutes, turn: _Turn) -> None:
        """A tape whose deck has failed before this start goes first; a deck with nothing else waits for it."""
        allowed = self._plays[self._kind.take(self._again), deck] == 0
        since = np.where(allowed, self._again_since, _RETIRED)
        line = since.argmin(axis=0)
        first = since[line, self._columns]
        idle = turn.tape == self._count
        at = np.flatnonzero((first < NEVER) & ~turn.is_busy & (idle | (first <= turn.start)))
        if not len(at):
            return
        tape = self._again[line[at], at]
        turn.tape[at] = tape
        turn.start[at] = self._start(np.maximum(moment[at], first[at]), tape)
        turn.why[at] = DECK
        turn.is_again[at] = True
        self._again_since[line[at], at] = _RETIRED

    def _start(self, wish: Minutes, tape: Places) -> Minutes:
        """The first allowed start of each tape at or after a moment."""
        slot = self._slots.closing(wish)
        start: Minutes = np.maximum(wish, self._opens.take(slot))
        room = self._closes.take(slot) + self._lanes.past_closing - start
        late = np.flatnonzero(self._estimate.take(tape) > room)
        following = self._following[self._line[tape[late]], slot[late] + 1]
        start[late] = np.maximum(start[late], self._opens.take(following))
        return start

    def _failed(self, cell: Places, turn: _Turn, ends: Minutes) -> tuple[Minutes, Places]:
        """Until when the decks are busy, and the scenarios in which a tape must be played again.

        With `_WAITING` tapes waiting to be played again already, the next plays on after the repair.
        """
        fails = self._queue.fails_after
        if fails is None:
            return ends, np.empty(0, dtype=np.intp)
        until = fails.reshape(-1).take(np.minimum(cell, fails.size - 1))
        hit = np.flatnonzero((turn.start + until < ends) & (turn.tape < self._count))
        if not len(hit):
            return ends, hit
        repair = repair_after(until[hit], self._queue.repair)
        fails.reshape(-1)[cell[hit]] = np.inf
        line = self._again_since[:, hit].argmax(axis=0)
        free = self._again_since[line, hit] >= _RETIRED
        ends[hit[~free]] += repair[~free]
        busy = ends.copy()
        hit, line, repair = hit[free], line[free], repair[free]
        failed = turn.start[hit] + until[hit]
        busy[hit] = failed + repair
        self._again_since[line, hit] = failed
        self._again[line, hit] = turn.tape[hit]
        return busy, hit

    def _wake(self, tape: Places, at: Places) -> None:
        """Decks that had nothing left to do have something again."""
        kind = self._kind.take(tape)
        for which in np.unique(kind):
            mine = at[kind == which]
            for deck in self._kinds[which]:
                self._due[deck, mine] = self._lanes.free[deck, mine]

    # --- setting up -----------------------------------------------------------------------

    def _set_up_slots(self) -> None:
        slots = self._lanes.slots
        self._slots = slots
        self._opens = np.append(np.where(np.isinf(slots.opens), NEVER, slots.opens), NEVER)
        self._closes = np.append(np.where(np.isinf(slots.closes), NEVER + 1e6, slots.closes), NEVER + 1e6)

    def _set_up_tapes(self, decks: int) -> None:
        """Tables with one more line, for no tape at all."""
        tapes = self._queue.tapes
        estimates = sorted({tape.estimate for tape in tapes})
        gates = [self._lanes.gate(estimate) for estimate in estimates]
        lines = {estimate: line for line, estimate in enumerate(estimates)}
        self._estimate = np.array([*(tape.estimate for tape in tapes), 0.0])
        self._line = np.array([*(lines[tape.estimate] for tape in tapes), 0], dtype=np.intp)
        self._overlong = np.array([*(gates[lines[tape.estimate]].overlong for tape in tapes), False])
        self._any_overlong = bool(self._overlong.any())
        self._following = np.stack([np.append(gate.following, gate.following[-1]) for gate in gates])
        self._minutes = np.append(self._queue.minutes, np.zeros((1, self._scenarios)), axis=0).reshape(-1)
        self._ready = np.array([*(float(tape.ready) for tape in tapes), 0.0])
        self._anyone_waits = bool(self._ready.max() > float(self._lanes.free.min()))
        kinds = list(dict.fromkeys(tape.decks for tape in tapes))
        self._kinds = kinds
        self._kind = np.array([*(kinds.index(tape.decks) for tape in tapes), 0], dtype=np.intp)
        none = self._count
        self._plays = np.array([[0 if deck in kind else none for deck in range(decks)] for kind in kinds])
        self._set_up_rows(decks)
        self._fetched = np.zeros((self._count + 1, self._scenarios), dtype=bool)
        self._any_fetched = False

    def _set_up_rows(self, decks: int) -> None:
        """The tapes of each kind in a row, and for each deck the tapes it can play."""
        none = self._count
        rows = [np.flatnonzero(self._kind[:-1] == kind) for kind in range(len(self._kinds))]
        begins = np.cumsum([0, *(len(row) + 1 for row in rows)])
        self._rows = np.concatenate([np.append(row, none) for row in rows])
        self._begin = begins[:-1].astype(np.intp)
        shape = (len(rows), self._scenarios)
        self._at = np.zeros(shape, dtype=np.intp)
        self._head = np.repeat(self._rows[self._begin][:, None], self._scenarios, axis=1)
        self._again = np.full((_WAITING, self._scenarios), none, dtype=np.intp)
        self._again_since = np.full((_WAITING, self._scenarios), _RETIRED)
        wide = max((len(row) for row in rows), default=0) * len(rows) + self._most + 2
        self._own = np.full((decks, min(wide, self._count + self._most + 2)), none, dtype=np.intp)
        self._own_place = np.zeros((decks, self._count + 1), dtype=np.intp)
        for deck in range(decks):
            mine = [row for kind, row in zip(self._kinds, rows, strict=True) if deck in kind]
            own = np.sort(np.concatenate(mine)) if mine else np.empty(0, dtype=np.intp)
            self._own[deck, : len(own)] = own
            self._own_place[deck] = np.searchsorted(own, np.arange(self._count + 1), side="right")

    def _set_up_parts(self) -> None:
        parts = list({id(tape.part): tape.part for tape in self._queue.tapes}.values())
        places = {id(part): place for place, part in enumerate(parts)}
        self._part = np.array([places[id(tape.part)] for tape in self._queue.tapes] + [len(parts)])
        self._ends = np.full((len(parts) + 1, self._scenarios), -np.inf)
        self._why = np.zeros((len(parts) + 1, self._scenarios), dtype=np.int8)
        self._parts = parts
