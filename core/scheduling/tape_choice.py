"""The dispatching rule of the event simulation: which tape goes next on the deck that is due, and when.

Written down so that another program with the same draws gives the same plan to the minute:
- of all decks with tapes left, the one free first takes its turn; of two equal ones, the first in order;
- it takes the first tape of the queue that it can play, and waits for the bench or an opening with it;
- unless a rush tape for it has come in before that start: that one goes first, but none that a planned
  outage of the deck would stop;
- unless the tape would have to wait for another opening, or for the bench: then the longest of the next
  `FILL` tapes it can play that is ready and ends before closing (by estimates) goes first, of equally long
  ones the first in the queue;
- a deck that fails is free again when it is repaired; its tape stands before all others of the queue again,
  and behind all others of a box that stands on the counter.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from core.scheduling.next_event import BENCH, NIGHT, NextEvent
from core.scheduling.opening_calendar import NEVER, Minutes, Openings, Places, where

if TYPE_CHECKING:  # what the simulation made of its queue, to be read here
    from core.scheduling.deck_states import DeckStates
    from core.scheduling.ready_lists import Ranks, ReadyLists
    from core.scheduling.rework import Rework
    from core.scheduling.simulated_shop import DeckTimelines, Queue, RushToCome
    from core.scheduling.start_gates import StartGates


class TapeChoice(ABC):
    """The choices of a simulation, which sets up what they read; a row for each scenario not through yet."""

    _queue: Queue
    _timelines: DeckTimelines
    _openings: Openings
    _decks: DeckStates
    _rush: Sequence[RushToCome]
    _rush_on: Sequence[NDArray[np.bool_] | None]
    """For each kind of rush tape which decks may play it; None: all there are."""
    _overtaken: NDArray[np.bool_]
    """Whether each tape, the last stands for none, lets rush tapes go before it."""
    _ready_lists: ReadyLists
    _starts: StartGates
    _rework: Rework
    _ready: Minutes
    """When the bench lets each tape go."""
    _anyone_waits: bool
    """Whether some tape may still come from the bench later than its deck is free."""
    _most: int
    """Tapes looked at to fill the end of the day."""
    _count: int
    """Tapes of the queue; stands for no tape."""
    _scenarios: int
    _columns: Places
    """The scenario of each row."""

    @abstractmethod
    def _occupy(self, spot: Places, ends: Minutes, slot: Places) -> None:
        """Decks are busy to these ends and until somebody has handled them; ``slot`` is none too late."""

    def _next_tape(self, deck: Places, spot: Places, moment: Minutes, slot: Places) -> NextEvent:
        """The first tape of the queue for each deck and the start it could have.

        ``slot`` is the first that closes at or after the moment.
        """
        lists = self._ready_lists
        ready_list = lists.of(deck)
        head = lists.next_on(ready_list)
        tape = lists.tape_at.take(head)
        begin = np.maximum(moment, self._openings.opens.take(slot))
        why = np.zeros(len(tape), dtype=np.int8)  # for nothing but the deck
        no, held, never = (np.zeros(len(tape), dtype=bool) for _ in range(3))
        event = NextEvent(
            deck, spot, moment, slot, ready_list, head, head, tape, begin, begin, slot, why, held, no, never
        )
        if self._anyone_waits:
            self._wait_for_the_bench(event)
        room = self._openings.ends_by.take(event.slot) - event.start
        if self._timelines.out:
            self._shorten(deck, event.start, room)
        late = self._starts.late(tape, lists.estimate_at.take(head), event.start, event.slot, room)
        if len(late):
            event.may_start_later()
            self._starts.put_off(tape, event.start, event.slot, late)
            event.why[late] = NIGHT
        return event

    def _wait_for_the_bench(self, event: NextEvent) -> None:
        """A tape that comes from the bench after its deck is free starts when both let it go."""
        ready = self._ready_of(event.tape, self._columns)
        waits = where(ready > event.moment)
        if len(waits):
            event.may_start_later()
            ready = ready.take(waits)
            event.slot[waits] = slot = self._openings.closing(ready)
            event.start[waits] = np.maximum(ready, self._openings.opens.take(slot))
            event.why[waits] = BENCH

    def _ready_of(self, tape: Places, scenario: Places) -> Minutes:
        """When the bench lets tapes go, each in its scenario."""
        if self._ready.ndim == 1:
            return self._ready.take(tape)
        return np.asarray(self._ready.reshape(-1).take(tape * self._scenarios + scenario), dtype=np.float64)

    def _shorten(self, deck: Places, start: Minutes, room: Minutes) -> None:
        """Leaves less room on a deck that will be out by plan."""
        for out, spans in self._timelines.out.items():
            mine = where(deck == out)
            for begins, _ in spans:
                before = mine[start[mine] < begins]
                room[before] = np.minimum(room[before], begins - start[before])

    def _hold_by_plan(self, event: NextEvent) -> None:
        """Decks that would play while they are out by plan wait until they are back."""
        back = self._back_at(event.deck, event.tape, event.start)
        held = where(back > event.start)
        if len(held):
            self._hold(event, held, back.take(held))

    def _hold(self, event: NextEvent, at: Places, until: Minutes) -> None:
        event.is_held[at] = True
        event.tape[at] = self._count
        self._decks.put_off(event.spot.take(at), until)

    def _back_at(self, deck: Places, tape: Places, start: Minutes) -> Minutes:
        """When decks are back that would be out of service by plan while they play these tapes; minus
        infinity: they would not."""
        return self._back_from(deck, start, self._starts.estimate(tape))

    def _back_from(self, deck: Places, start: Minutes, estimate: Minutes) -> Minutes:
        """The same for anything that is planned with so many minutes."""
        back = np.full(len(deck), -np.inf)
        for out, spans in self._timelines.out.items():
            mine = where(deck == out)
            begin = start.take(mine)
            ends = begin + estimate.take(mine)
            for begins, until in reversed(spans):  # the first it would run into
                back[mine[(ends > begins) & (begin < until)]] = until
        return back

    def _rush_starts(
        self, coming: RushToCome, at: Places, event: NextEvent
    ) -> tuple[Minutes, NDArray[np.bool_]]:
        """When the rush tape that came in may start on these decks, and where only after an outage."""
        start = coming.gate.start(np.maximum(event.moment.take(at), coming.next.take(self._columns.take(at))))
        is_put_off = np.zeros(len(at), dtype=bool)
        estimate, deck = np.full(len(at), coming.gate.estimate), event.deck.take(at)
        while self._timelines.out:
            back = self._back_from(deck, start, estimate)
            stopped = where(back > start)
            if not len(stopped):
                break
            is_put_off[stopped] = True
            start[stopped] = coming.gate.start(back.take(stopped))
        return start, is_put_off

    def _rush_first(self, event: NextEvent) -> bool:
        """Where a rush tape for this deck is here before the start, it plays instead; whether everywhere."""
        for coming, allowed in zip(self._rush, self._rush_on, strict=True):
            at = where(coming.next.take(self._columns) <= event.start)
            if len(at):
                at = at[self._overtaken.take(event.tape.take(at))]
            if allowed is not None:
                at = at[allowed.take(event.deck.take(at))]
            if not len(at):
                continue
            at, start = self._rush_before(coming, at, event)
            if len(at):
                _, minutes = coming.take(self._columns.take(at))
                ends = np.minimum(start + minutes, NEVER)
                self._occupy(event.spot.take(at), ends, event.first_slot.take(at))
                event.give(at, self._count)
        return event.are_all_busy

    def _rush_before(self, coming: RushToCome, at: Places, event: NextEvent) -> tuple[Places, Minutes]:
        """Which of these decks the rush tape goes on, and when: not where an outage puts it off for long."""
        start, is_put_off = self._rush_starts(coming, at, event)
        if not self._timelines.out:
            return at, start
        goes = where(~is_put_off | (start <= event.start.take(at)))
        return at.take(goes), start.take(goes)

    def _again_first(self, event: NextEvent) -> None:
        """A tape whose deck has failed before this start goes first; an idle deck waits for it."""
        at = self._rework.waiting(self._columns)
        at = at[~event.is_busy.take(at)]
        idle = event.tape.take(at) == self._count
        if self._queue.is_one_box:
            at, idle = at[idle], idle[idle]
        if not len(at):
            return
        line, first = self._rework.first(event.deck.take(at), self._columns.take(at))
        goes = where((first < NEVER) & (idle | (first <= event.start.take(at))))
        at, line, first = at.take(goes), line.take(goes), first.take(goes)
        tape = self._rework.tape[line, self._columns.take(at)]
        start, slot = self._starts.of(tape, np.maximum(event.moment.take(at), first))
        if self._timelines.out:
            plays = self._in_service(event, at, tape, start)
            at, line, start, slot = at.take(plays), line.take(plays), start.take(plays), slot.take(plays)
        event.again(at, self._rework.take(line, self._columns.take(at)), start, slot)

    def _in_service(self, event: NextEvent, at: Places, tape: Places, start: Minutes) -> Places:
        """Which of these tapes, to be played again, no outage keeps; a deck with nothing else to do waits."""
        back = self._back_at(event.deck.take(at), tape, start)
        out = back > start
        idle = where(out & ((event.tape == self._count) & ~event.is_held).take(at))
        if len(idle):
            self._hold(event, at.take(idle), back.take(idle))
        return where(~out)

    def _fetch_forward(self, event: NextEvent) -> None:
        """Where the tape would wait, the longest of the next ones that can play and end now goes first."""
        if not self._most or event.start is event.begin:
            return
        waits = event.start > event.begin
        waits &= event.tape < self._count
        at = where(waits & ~event.is_again if self._rework.may_fail else waits)
        if not len(at):
            return
        begin, slot = event.begin.take(at), event.first_slot.take(at)
        behind = event.head.take(at) + 1
        room = self._openings.fills_to.take(slot) - begin
        if self._timelines.out:
            self._shorten(event.deck[at], begin, room)
        near = self._ready_lists.near(behind, at)
        near *= near <= self._ready_lists.longest_within(room)[:, None]
        if self._anyone_waits:
            self._leave_on_the_bench(near, behind, begin, at)
        best = near.argmax(axis=1)
        found = where(near[np.arange(len(at)), best])
        if len(found):
            at, place = at.take(found), (behind + best).take(found)
            tape = self._ready_lists.tape_at.take(place)
            event.fetch(at, place, tape, begin.take(found), slot.take(found))

    def _leave_on_the_bench(self, near: Ranks, behind: Places, begin: Minutes, at: Places) -> None:
        """Strikes out the tapes that are not ready at these moments."""
        scenario = self._columns.take(at)[:, None]
        near *= self._ready_of(self._ready_lists.tapes_near(behind), scenario) <= begin[:, None]
