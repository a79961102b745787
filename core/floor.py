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

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.breakdowns import repair_after
from core.dealing import BENCH, DECK, NIGHT, Ground, Part, Queue, Reasons
from core.hours import Minutes
from core.lanes import OVERLONG_WITHIN
from core.slots import Places

NEVER = 1e12
"""Minutes that stand for beyond the calendar: arithmetic with infinity would warn."""
RETIRED = 1e15
"""A deck with nothing left to do is due at this moment."""
_NO_TAPE = 1e9
"""Minutes that fit no opening."""
_WAITING = 4
"""Tapes that may wait at once to be played again: one deck in a dozen has failed, rarely two."""


@dataclass(frozen=True, slots=True, eq=False)
class Turn:
    """What each scenario does next; changed in place as something else goes before."""

    tape: Places
    """The place of the tape; the count of all tapes stands for none."""
    start: Minutes
    why: Reasons
    is_busy: NDArray[np.bool_]
    """Whether the deck has been given something that is not of the queue."""
    is_again: NDArray[np.bool_]
    """Whether the tape has been played before, on a deck that failed."""


def work_off(ground: Ground, queue: Queue) -> None:
    """Works the queue off; what comes of it is in the parts of its tapes, the lanes and the rush."""
    Floor(ground, queue).run()


def _where(claims: NDArray[np.bool_]) -> Places:
    """The places of what is true; numpy's own is twice as slow on a thousand, for the sake of its checks."""
    return claims.nonzero()[0]


class Floor:
    """One go through a queue. Changes ``lanes``, ``rush`` and the parts of the tapes."""

    def __init__(self, ground: Ground, queue: Queue) -> None:
        lanes = self._lanes = ground.lanes
        self._queue = queue
        self._handling = ground.handling
        self._rush = ground.rush
        self._most = ground.fill
        self._overtaken_from = ground.overtaken_from
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
        while (self._due < RETIRED).any():
            self._round()
        self._hand_over()

    def _hand_over(self) -> None:
        """What came of it; tapes that found no opening any more never end."""
        left = ~self._gone[:, :-1].T
        for tape in _where(np.asarray(left.any(axis=1))):
            self._ends[self._part[tape], left[tape]] = NEVER
        for tapes, since in zip(self._again, self._again_since, strict=True):
            at = _where(since < RETIRED)
            self._ends[self._part[tapes[at]], at] = NEVER
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
        self._rush_first(deck, spot, moment, turn)
        if self._queue.fails_after is not None:
            self._again_first(deck, moment, turn)
        self._fetch_forward(deck, moment, turn)
        self._play(spot, turn)
        idle = _where((turn.tape == self._count) & ~turn.is_busy & ~held)
        self._due.reshape(-1)[spot[idle]] = RETIRED

    def _next_tape(self, deck: Places, moment: Minutes) -> Turn:
        """The first tape of the queue for each deck and the start it could have."""
        tape = np.maximum(self._head, self._plays.take(deck, axis=1)).min(axis=0)
        wish = np.maximum(moment, self._ready_of(tape, self._columns)) if self._anyone_waits else moment
        slot = self._slots.closing(wish)
        start = np.maximum(wish, self._opens.take(slot))
        room = self._closes.take(slot) + self._lanes.past_closing - start
        self._shorten(deck, start, room)
        late = _where(~self._fits(tape, start, slot, room) & (tape < self._count))
        following = self._following[self._line[tape[late]], slot[late] + 1]
        start[late] = np.maximum(start[late], self._opens.take(following))
        why = np.full(self._scenarios, DECK, dtype=np.int8)
        if self._anyone_waits:
            why[wish > moment] = BENCH
        why[late] = NIGHT
        no = np.zeros(self._scenarios, dtype=bool)
        return Turn(tape, start, why, no, no.copy())

    def _fits(self, tape: Places, start: Minutes, slot: Places, room: Minutes) -> NDArray[np.bool_]:
        """Whether tapes may start at a moment of a slot that leaves so much room."""
        fits = self._estimate.take(tape) <= room
        if self._any_overlong:
            soon = start <= self._opens.take(slot) + OVERLONG_WITHIN
            fits = np.where(self._overlong.take(tape), soon, fits)
        return fits

    def _ready_of(self, tape: Places, at: Places) -> Minutes:
        """When the bench lets tapes go in the scenarios ``at``."""
        return self._ready.take(tape)

    def _shorten(self, deck: Places, start: Minutes, room: Minutes) -> None:
        """Leaves less room on a deck that will be out by plan."""
        for out, spans in self._lanes.out.items():
            mine = _where(deck == out)
            for begins, _ in spans:
                before = mine[start[mine] < begins]
                room[before] = np.minimum(room[before], begins - start[before])

    def _held_by_plan(self, deck: Places, spot: Places, turn: Turn) -> NDArray[np.bool_]:
        """Decks that would play while they are out by plan wait until they are back."""
        held = np.zeros(self._scenarios, dtype=bool)
        for out, spans in self._lanes.out.items():
            mine = _where((deck == out) & (turn.tape < self._count))
            for begins, ends in spans:
                start = turn.start[mine]
                inside = mine[(start + self._estimate[turn.tape[mine]] > begins) & (start < ends)]
                held[inside] = True
                self._due.reshape(-1)[spot[inside]] = np.maximum(turn.start[inside], ends)
                mine = mine[~held[mine]]
        turn.tape[held] = self._count
        return held

    def _rush_first(self, deck: Places, spot: Places, moment: Minutes, turn: Turn) -> None:
        """Where a rush tape for this deck has come in before the start, it plays instead."""
        for coming, allowed in zip(self._rush, self._rush_on, strict=True):
            plays = allowed.take(deck)
            ready = plays & (coming.next <= turn.start) & (coming.next < np.inf) & self._overtaken(turn.tape)
            at = _where(ready)
            if len(at):
                arrives, minutes = coming.take(at)
                ends = coming.gate.start(np.maximum(moment[at], arrives)) + minutes
                self._occupy(spot[at], np.minimum(ends, NEVER))
                turn.tape[at] = self._count
                turn.is_busy[at] = True

    def _overtaken(self, tape: Places) -> NDArray[np.bool_]:
        """Whether a tape lets rush tapes go before it."""
        return (tape >= self._overtaken_from) & (tape < self._count)

    def _fetch_forward(self, deck: Places, moment: Minutes, turn: Turn) -> None:
        """Where the tape would wait, the longest of the next ones that can play and end now goes first."""
        at = _where((turn.start > moment) & (turn.tape < self._count) & ~turn.is_again)
        if not len(at) or not self._most:
            return
        slot = self._slots.closing(moment[at])
        begin = np.maximum(moment[at], self._opens.take(slot))
        inside = _where((turn.start[at] > begin) & (begin < NEVER))
        if not len(inside):
            return
        at, begin, slot = at[inside], begin[inside], slot[inside]
        room = self._closes.take(slot) + self._lanes.past_closing - begin
        self._shorten_some(deck[at], begin, room)
        line = self._own_place.reshape(-1).take(deck[at] * (self._count + 1) + turn.tape[at])
        near, estimates = self._near[deck[at], line], self._near_estimates[deck[at], line]
        fits = estimates <= room[:, None]
        fits &= ~self._gone.reshape(-1).take(near + (at * (self._count + 1))[:, None])
        if self._anyone_waits:
            fits &= self._ready_of(near, at[:, None]) <= begin[:, None]
        estimates *= fits
        best = estimates.argmax(axis=1)
        found = _where(estimates[np.arange(len(at)), best] > 0)
        at = at[found]
        turn.tape[at] = near[found, best[found]]
        turn.start[at] = begin[found]
        turn.why[at] = DECK
        self._any_fetched |= len(at) > 0

    def _shorten_some(self, deck: Places, start: Minutes, room: Minutes) -> None:
        if self._lanes.out:
            self._shorten(deck, start, room)

    def _play(self, spot: Places, turn: Turn) -> Places:
        """Plays the tapes that were chosen and moves their queues on; the scenarios whose deck failed."""
        going = _where(turn.tape < self._count)
        cell = turn.tape * self._scenarios + self._columns
        ends = np.minimum(turn.start + self._minutes.take(cell), NEVER)
        busy, hit = self._failed(cell, turn, ends)
        self._occupy(spot[going], busy[going])
        self._move_on(turn.tape, _where((turn.tape < self._count) & ~turn.is_again))
        if len(hit):
            self._wake(turn.tape[hit], hit, self._lanes.free.min(axis=0)[hit])
            ends[hit] = -np.inf
        self._note_end(self._part.take(turn.tape[going]), ends[going], turn.why[going], going)
        return hit

    def _occupy(self, spot: Places, ends: Minutes) -> None:
        after = self._slots.advanced(ends, self._handling) if self._handling else ends
        after = np.minimum(after, NEVER)
        self._lanes.free.reshape(-1)[spot] = after
        self._due.reshape(-1)[spot] = after

    # --- the queues -----------------------------------------------------------------------

    def _move_on(self, tape: Places, going: Places) -> None:
        """The heads of the queues after these tapes have gone."""
        chosen = tape.take(going)
        self._gone.reshape(-1)[chosen + going * (self._count + 1)] = True
        head = self._head.reshape(-1)
        cell = self._kind.take(chosen) * self._scenarios + going
        if self._any_fetched:
            first = _where(head.take(cell) == chosen)
            chosen, cell, going = chosen.take(first), cell.take(first), going.take(first)
        new = self._kin.take(chosen)
        head[cell] = new
        while self._any_fetched:
            skip = _where(self._gone.reshape(-1).take(new + going * (self._count + 1)))
            if not len(skip):
                return
            new, cell, going = self._kin.take(new.take(skip)), cell.take(skip), going.take(skip)
            head[cell] = new

    # --- decks that fail ------------------------------------------------------------------

    def _again_first(self, deck: Places, moment: Minutes, turn: Turn) -> None:
        """A tape whose deck has failed before this start goes first; an idle deck waits for it."""
        allowed = self._plays[self._kind.take(self._again), deck] == 0
        since = np.where(allowed, self._again_since, RETIRED)
        line = since.argmin(axis=0)
        first = since[line, self._columns]
        idle = turn.tape == self._count
        at = _where((first < NEVER) & ~turn.is_busy & (idle | (first <= turn.start)))
        if not len(at):
            return
        tape = self._again[line[at], at]
        turn.tape[at] = tape
        turn.start[at] = self._start(np.maximum(moment[at], first[at]), tape)
        turn.why[at] = DECK
        turn.is_again[at] = True
        self._again_since[line[at], at] = RETIRED

    def _start(self, wish: Minutes, tape: Places) -> Minutes:
        """The first allowed start of each tape at or after a moment."""
        slot = self._slots.closing(wish)
        start: Minutes = np.maximum(wish, self._opens.take(slot))
        room = self._closes.take(slot) + self._lanes.past_closing - start
        late = _where(~self._fits(tape, start, slot, room))
        following = self._following[self._line[tape[late]], slot[late] + 1]
        start[late] = np.maximum(start[late], self._opens.take(following))
        return start

    def _failed(self, cell: Places, turn: Turn, ends: Minutes) -> tuple[Minutes, Places]:
        """Until when the decks are busy, and the scenarios in which a tape must be played again.

        With `_WAITING` tapes waiting to be played again already, the next plays on after the repair.
        """
        fails = self._queue.fails_after
        if fails is None or not fails.size:
            return ends, np.empty(0, dtype=np.intp)
        until = fails.reshape(-1).take(np.minimum(cell, fails.size - 1))
        hit = _where((turn.start + until < ends) & (turn.tape < self._count))
        if not len(hit):
            return ends, hit
        repair = repair_after(until[hit], self._queue.repair)
        fails.reshape(-1)[cell[hit]] = np.inf
        line = self._again_since[:, hit].argmax(axis=0)
        free = self._again_since[line, hit] >= RETIRED
        ends[hit[~free]] += repair[~free]
        busy = ends.copy()
        hit, line, repair = hit[free], line[free], repair[free]
        failed = turn.start[hit] + until[hit]
        busy[hit] = failed + repair
        self._again_since[line, hit] = failed
        self._again[line, hit] = turn.tape[hit]
        return busy, hit

    def _wake(self, tape: Places, at: Places, since: Minutes) -> None:
        """Decks that had nothing left to do have something again."""
        kind = self._kind.take(tape)
        for which in np.unique(kind):
            mine = _where(kind == which)
            for deck in self._kinds[which]:
                idle = mine[self._due[deck, at[mine]] >= RETIRED]
                self._due[deck, at[idle]] = np.maximum(self._lanes.free[deck, at[idle]], since[idle])

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
        gates = [self._lanes.gate(estimate) for estimate in estimates] or [self._lanes.gate(0.0)]
        lines = {estimate: line for line, estimate in enumerate(estimates)}
        self._estimate = np.array([*(tape.estimate for tape in tapes), _NO_TAPE])
        self._line = np.array([*(lines[tape.estimate] for tape in tapes), 0], dtype=np.intp)
        self._overlong = np.array([*(gates[lines[tape.estimate]].overlong for tape in tapes), False])
        self._any_overlong = bool(self._overlong.any())
        self._following = np.stack([np.append(gate.following, gate.following[-1]) for gate in gates])
        self._minutes = np.concatenate((self._queue.minutes, np.zeros((1, self._scenarios)))).reshape(-1)
        self._ready = np.array([*(float(tape.ready) for tape in tapes), 0.0])
        self._anyone_waits = bool(self._ready.max() > float(self._lanes.free.min()))
        kinds = list(dict.fromkeys(tape.decks for tape in tapes)) or [()]
        self._kinds = kinds
        self._kind = np.array([*(kinds.index(tape.decks) for tape in tapes), 0], dtype=np.intp)
        none = self._count
        self._plays = np.array([[0 if deck in kind else none for deck in range(decks)] for kind in kinds])
        self._set_up_rows(decks)
        self._gone = np.zeros((self._scenarios, self._count + 1), dtype=bool)
        """One line a scenario: the tapes looked at together lie together."""
        self._any_fetched = False

    def _set_up_rows(self, decks: int) -> None:
        """The next tape of the same kind for each, and for each deck the tapes it can play."""
        none = self._count
        rows = [_where(self._kind[:-1] == kind) for kind in range(len(self._kinds))]
        self._kin = np.full(none + 1, none, dtype=np.intp)
        for row in rows:
            self._kin[row[:-1]] = row[1:]
        first = np.array([row[0] if len(row) else none for row in rows], dtype=np.intp)
        self._head = np.repeat(first[:, None], self._scenarios, axis=1)
        self._again = np.full((_WAITING, self._scenarios), none, dtype=np.intp)
        self._again_since = np.full((_WAITING, self._scenarios), RETIRED)
        windows = max(1, self._most)
        rows_of_decks = np.full((decks, self._count + windows), none, dtype=np.intp)
        self._own_place = np.zeros((decks, self._count + 1), dtype=np.intp)
        for deck in range(decks):
            mine = [row for kind, row in zip(self._kinds, rows, strict=True) if deck in kind]
            own = np.sort(np.concatenate(mine)) if mine else np.empty(0, dtype=np.intp)
            rows_of_decks[deck, : len(own)] = own
            self._own_place[deck] = np.searchsorted(own, np.arange(self._count + 1), side="right")
        self._near = np.lib.stride_tricks.sliding_window_view(rows_of_decks, windows, axis=1)
        """The next tapes each deck can play, from each place of its row on."""
        estimates = self._estimate.take(rows_of_decks)
        self._near_estimates = np.lib.stride_tricks.sliding_window_view(estimates, windows, axis=1)

    def _set_up_parts(self, others: Sequence[Part] = ()) -> None:
        parts = [*(tape.part for tape in self._queue.tapes), *others]
        self._parts = list({id(part): part for part in parts}.values())
        self._places = {id(part): place for place, part in enumerate(self._parts)}
        none = len(self._parts)
        self._part = np.array([*(self._place_of(tape.part) for tape in self._queue.tapes), none])
        self._ends = np.full((none + 1, self._scenarios), -np.inf)
        self._why = np.zeros((none + 1, self._scenarios), dtype=np.int8)

    def _place_of(self, part: Part) -> int:
        return self._places[id(part)]

    def _note_end(self, part: Places, ends: Minutes, why: Reasons, at: Places) -> None:
        """Parts (places among all) that end in the scenarios ``at``."""
        cell = part * self._scenarios + at
        last = _where(ends > self._ends.reshape(-1).take(cell))
        self._ends.reshape(-1)[cell[last]] = ends[last]
        self._why.reshape(-1)[cell[last]] = why[last]
