"""Discrete-event simulation of the decks: works the whole queue off in every scenario at once.

Each scenario takes its own next event in every round: the deck that is free first gets its next tape. So
the rounds are about as many as the tapes, whatever happens in between: rush tapes that come in, tapes
fetched forward for the end of the day, decks that fail. Decks that share no tape know nothing of each
other: each group of them (`deck_groups`) is worked off by itself.

The rules, written down so that another program with the same draws gives the same plan to the minute:
- of all decks with tapes left, the one free first takes its turn; of two equal ones, the first in order;
- it takes the first tape of the queue that it can play, and waits for the bench or an opening with it;
- unless a rush tape for it has come in before that start: that one goes first;
- unless the tape would have to wait for another opening, or for the bench: then the longest of the next
  `FILL` tapes it can play that is ready and ends before closing (by estimates) goes first, of equally long
  ones the first in the queue;
- a deck that fails is free again when it is repaired; its tape stands before all others of the queue again,
  and behind all others of a box that stands on the counter.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from core.scheduling.next_event import NextEvent
from core.scheduling.opening_calendar import NEVER, RETIRED, Minutes, Places, where
from core.scheduling.ready_lists import Ranks, ReadyLists
from core.scheduling.rework import Rework
from core.scheduling.simulated_shop import (
    BENCH,
    DECK,
    NIGHT,
    InitialState,
    Queue,
    Reasons,
    SeenStart,
    deck_groups,
)
from core.scheduling.start_gates import StartGates

_WORTH_LEAVING_OUT = 0.9
"""Scenarios that are through are left out once no more than this share goes on (an assumption)."""


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


class EventSimulation:
    """One go through a queue. Changes ``timelines``, ``rush``, the minutes and the parts of the tapes."""

    _anyone_waits: bool
    """Whether some tape may still come from the bench later than its deck is free."""

    def __init__(self, initial: InitialState, queue: Queue) -> None:
        timelines = self._timelines = initial.timelines
        self._queue = queue
        self._handling = initial.handling
        self._rush = initial.rush
        self._most = min(initial.fill, len(queue.tapes))
        self._overtaken_from = initial.overtaken_from
        self._decks, self._scenarios = timelines.free.shape
        self._columns = np.arange(self._scenarios, dtype=np.intp)
        """The scenarios that are not through yet; everything of one event is a row as long."""
        self._lines = self._columns * self._decks
        """Where the decks of each of these begin."""
        self._count = len(queue.tapes)
        self._to_play = np.full(self._scenarios, self._count, dtype=np.intp)
        """Tapes of each of these not played to their end yet; none where no deck will play them."""
        self._is_any_idle = False
        """Whether some deck may have found nothing to do."""
        self._is_stranded = False
        """Whether there was a scenario of which no deck played the last tapes."""
        self._openings = timelines.hours.openings
        self._set_up_decks()
        self._set_up_tapes()

    def run(self) -> None:
        """Works everything off."""
        while len(self._columns) and not self._has_seen_enough():
            self._round()
            self._leave_out()
        self._hand_over()

    def _has_seen_enough(self) -> bool:
        return self._queue.until < NEVER and bool(self._due.min() >= self._queue.until)

    def _hand_over(self) -> None:
        """What came of it; tapes that found no opening any more never end."""
        ends = self._minutes.reshape(self._count, self._scenarios)
        for left, at in self._never_played() if self._is_stranded or len(self._columns) else ():
            ends[left, at] = NEVER
        ends[ends >= NEVER] = np.inf
        why = self._why.reshape(ends.shape)
        for place, tape in enumerate(self._queue.tapes):
            tape.part.end(ends[place], why[place])
        self._hand_over_decks()

    def _hand_over_decks(self) -> None:
        self._free[self._free >= NEVER] = np.inf
        self._timelines.free[:] = self._free.T

    def _never_played(self) -> Iterator[tuple[Places | np.intp, Places]]:
        """Tapes with the scenarios in which they are still there, and those that wait to be played again."""
        yield from self._ready_lists.never_taken()
        for tapes, since in zip(self._rework.tape, self._rework.since, strict=True):
            at = where(since < RETIRED)
            yield tapes[at], at

    def _round(self) -> None:
        """The next event of every scenario with something left to do."""
        deck, spot = self._soonest()
        moment = self._due.reshape(-1).take(spot)
        slot = self._slot.reshape(-1).take(spot)
        if self._is_any_idle:
            self._give_up(where(moment >= RETIRED))
        self._anyone_waits = self._anyone_waits and bool(moment.min() < self._last_ready)
        event = self._next_tape(deck, moment, slot)
        held = self._held_by_plan(deck, spot, event)
        self._rush_first(deck, spot, moment, slot, event)
        if self._queue.fails_after is not None:
            self._again_first(deck, moment, event)
        self._fetch_forward(deck, slot, event)
        none = self._play(spot, event)
        if len(none):
            idle = none[~event.is_busy.take(none) & ~held.take(none)]
            self._due.reshape(-1)[spot.take(idle)] = RETIRED  # decks that found nothing to do
            self._is_any_idle = True

    def _give_up(self, at: Places) -> None:
        """Where no deck has anything to do the tapes that are left never play."""
        if len(at):
            self._is_stranded |= bool(self._to_play.take(at).any())
            self._to_play[at] = 0

    def _leave_out(self) -> None:
        """Scenarios that are through are left out from now on, when they are many."""
        left = np.count_nonzero(self._to_play)
        if left <= _WORTH_LEAVING_OUT * len(self._to_play):
            goes_on = where(self._to_play > 0)
            self._columns, self._to_play = self._columns.take(goes_on), self._to_play.take(goes_on)
            self._lines = self._columns * self._decks
            self._ready_lists.only(self._columns)

    def _soonest(self) -> tuple[Places, Places]:
        """The deck that is free first in every scenario, and its place among all."""
        if self._decks == 1:
            return self._columns * 0, self._columns
        is_all = len(self._columns) == self._scenarios
        due = self._due if is_all else self._due.take(self._columns, axis=0)
        deck = due.argmin(axis=1)
        return deck, deck + self._lines

    def _next_tape(self, deck: Places, moment: Minutes, slot: Places) -> NextEvent:
        """The first tape of the queue for each deck and the start it could have.

        ``slot`` is the first that closes at or after the moment.
        """
        ready_list = self._ready_lists.of(deck, self._columns)
        head, rank = self._ready_lists.next_on(ready_list)
        tape = self._ready_lists.tape_at.take(head)
        begin = np.maximum(moment, self._openings.opens.take(slot))
        why = np.zeros(len(tape), dtype=np.int8)  # for nothing but the deck
        no, no_again = np.zeros((2, len(tape)), dtype=bool)
        event = NextEvent(
            ready_list, head, head.copy(), tape, begin, begin.copy(), slot.copy(), why, no, no_again
        )
        if self._anyone_waits:
            self._wait_for_the_bench(moment, event)
        room = self._openings.ends_by.take(event.slot) - event.start
        self._shorten(deck, event.start, room)
        late = self._starts.put_off(rank, event.start, event.slot, room)
        event.why[late] = NIGHT
        return event

    def _wait_for_the_bench(self, moment: Minutes, event: NextEvent) -> None:
        """A tape that comes from the bench after its deck is free starts when both let it go."""
        ready = self._ready_of(event.tape, self._columns)
        waits = where(ready > moment)
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

    def _held_by_plan(self, deck: Places, spot: Places, event: NextEvent) -> NDArray[np.bool_]:
        """Decks that would play while they are out by plan wait until they are back."""
        held = np.zeros(len(spot), dtype=bool)
        if not self._timelines.out:
            return held
        for out, spans in self._timelines.out.items():
            mine = where((deck == out) & (event.tape < self._count))
            for begins, ends in spans:
                start = event.start[mine]
                inside = mine[(start + self._starts.estimate(event.tape[mine]) > begins) & (start < ends)]
                held[inside] = True
                self._put_off(spot[inside], np.maximum(event.start[inside], ends))
                mine = mine[~held[mine]]
        event.tape[held] = self._count
        return held

    def _rush_first(
        self, deck: Places, spot: Places, moment: Minutes, slot: Places, event: NextEvent
    ) -> None:
        """Where a rush tape for this deck has come in before the start, it plays instead."""
        for coming, allowed in zip(self._rush, self._rush_on, strict=True):
            at = where(coming.next.take(self._columns) <= event.start)
            if len(at):
                at = at[allowed.take(deck.take(at)) & self._overtaken(event.tape.take(at))]
                at = at[coming.next.take(self._columns.take(at)) < np.inf]
            if len(at):
                arrives, minutes = coming.take(self._columns.take(at))
                start = coming.gate.start(np.maximum(moment.take(at), arrives))
                self._occupy(spot.take(at), np.minimum(start + minutes, NEVER), slot.take(at))
                event.tape[at] = self._count
                event.is_busy[at] = True

    def _overtaken(self, tape: Places) -> NDArray[np.bool_]:
        """Whether a tape lets rush tapes go before it."""
        return (tape >= self._overtaken_from) & (tape < self._count)

    def _fetch_forward(self, deck: Places, slot: Places, event: NextEvent) -> None:
        """Where the tape would wait, the longest of the next ones that can play and end now goes first."""
        waits = event.start > event.begin
        if not self._most or not waits.any():
            return
        waits &= event.tape < self._count
        at = where(waits & ~event.is_again if self._queue.fails_after is not None else waits)
        begin, slot, behind = event.begin.take(at), slot.take(at), event.head.take(at) + 1
        room = self._openings.fills_to.take(slot) - begin
        if self._timelines.out:
            self._shorten(deck[at], begin, room)
        near = self._ready_lists.near(behind, at)
        near *= near <= self._ready_lists.longest_within(room)[:, None]
        self._leave_on_the_bench(near, behind, begin, at)
        best = near.argmax(axis=1)
        found = where(near[np.arange(len(at)), best])
        at, place = at.take(found), (behind + best).take(found)
        event.place[at] = place
        event.tape[at] = self._ready_lists.tape_at.take(place)
        event.start[at] = begin.take(found)
        event.slot[at] = slot.take(found)
        event.why[at] = DECK

    def _leave_on_the_bench(self, near: Ranks, behind: Places, begin: Minutes, at: Places) -> None:
        """Strikes out the tapes that are not ready at these moments."""
        if self._anyone_waits:
            scenario = self._columns.take(at)[:, None]
            near *= self._ready_of(self._ready_lists.tapes_near(behind), scenario) <= begin[:, None]

    def _play(self, spot: Places, event: NextEvent) -> Places:
        """Plays the tapes that were chosen; which of the scenarios have none."""
        scenario, none = self._columns, where(event.tape == self._count)
        self._to_play -= 1
        at = None
        if len(none):
            self._to_play[none] += 1
            at = where(event.tape < self._count)
            spot, event, scenario = spot.take(at), event.only(at), scenario.take(at)
        self._write_down(spot, event)
        cell = event.tape * self._scenarios + scenario
        ends = event.start + self._minutes.take(cell)
        np.minimum(ends, NEVER, out=ends)
        until, hit = self._rework.failing(cell, event.start, ends, scenario)
        self._occupy(spot, until, event.slot)
        self._take_away(event, scenario)
        self._note(cell, ends, event.why, hit)
        if len(hit):
            self._to_play[hit if at is None else at.take(hit)] += 1
            self._has_failed(spot.take(hit), event.tape.take(hit), scenario.take(hit))
        return none

    def _write_down(self, spot: Places, event: NextEvent) -> None:
        if self._queue.seen is not None:
            rows = zip(event.tape.tolist(), (spot % self._decks).tolist(), event.start.tolist(), strict=True)
            self._queue.seen.extend(SeenStart(*row) for row in rows)

    def _take_away(self, event: NextEvent, scenario: Places) -> None:
        """What is played is on no ready list any more; what is played again has been taken away before."""
        if self._queue.fails_after is not None and event.is_again.any():
            fresh = where(~event.is_again)
            lists = event.ready_list.take(fresh), event.head.take(fresh), event.place.take(fresh)
            self._ready_lists.take(*lists, scenario.take(fresh))
        else:
            self._ready_lists.take(event.ready_list, event.head, event.place, scenario)

    def _note(self, cell: Places, ends: Minutes, why: Reasons, hit: Places) -> None:
        """The ends take the place of the minutes, but for tapes whose deck failed."""
        if len(hit):
            ends[hit] = self._minutes.take(cell.take(hit))
        self._minutes[cell] = ends
        self._why[cell] = why

    def _occupy(self, spot: Places, ends: Minutes, slot: Places) -> None:
        """Decks are busy to these ends and until somebody has handled them; ``slot`` is none too late."""
        ends, slot = self._openings.handled(ends, slot, self._handling)
        self._free.reshape(-1)[spot] = ends
        self._due.reshape(-1)[spot] = ends
        self._slot.reshape(-1)[spot] = slot

    def _put_off(self, spot: Places, moment: Minutes) -> None:
        """Decks have nothing to do before these moments."""
        self._due.reshape(-1)[spot] = moment
        self._slot.reshape(-1)[spot] = self._openings.closing(moment)

    # --- decks that fail ------------------------------------------------------------------

    def _again_first(self, deck: Places, moment: Minutes, event: NextEvent) -> None:
        """A tape whose deck has failed before this start goes first; an idle deck waits for it."""
        at = self._rework.waiting(self._columns)
        at = at[~event.is_busy.take(at)]
        idle = event.tape.take(at) == self._count
        if self._queue.is_one_box:
            at, idle = at[idle], idle[idle]
        if not len(at):
            return
        line, first = self._rework.first(deck.take(at), self._columns.take(at))
        goes = where((first < NEVER) & (idle | (first <= event.start.take(at))))
        at, line, first = at.take(goes), line.take(goes), first.take(goes)
        tape = self._rework.take(line, self._columns.take(at))
        event.tape[at] = tape
        event.start[at], event.slot[at] = self._starts.of(tape, np.maximum(moment.take(at), first))
        event.why[at] = DECK
        event.is_again[at] = True

    def _has_failed(self, spot: Places, tape: Places, scenario: Places) -> None:
        """Decks have failed under these tapes: others may have something to play again."""
        self._wake(tape, scenario, self._free.take(scenario, axis=0).min(axis=1))

    def _wake(self, tape: Places, scenario: Places, since: Minutes) -> None:
        """Decks that had nothing left to do have something again."""
        idle = self._due.take(scenario, axis=0) >= RETIRED
        idle &= self._plays.take(tape, axis=0)
        line, deck = idle.nonzero()
        if len(line):
            spot = scenario.take(line) * self._decks + deck
            self._put_off(spot, np.maximum(self._free.reshape(-1).take(spot), since.take(line)))

    # --- setting up -----------------------------------------------------------------------

    def _set_up_decks(self) -> None:
        """One line a scenario: the decks of one are compared with each other."""
        self._free = np.minimum(self._timelines.free, NEVER).T.copy()
        self._due = self._free.copy()
        self._slot = self._openings.closing(self._due)
        self._rush_on = [np.isin(np.arange(self._decks), coming.kind.decks) for coming in self._rush]

    def _set_up_tapes(self) -> None:
        """Tables with one more line, for no tape at all."""
        tapes = self._queue.tapes
        needs = [(tape.decks, tape.estimate) for tape in tapes]
        self._ready_lists = ReadyLists(needs, self._decks, self._scenarios, self._most)
        self._starts = StartGates(self._timelines.hours, self._ready_lists.estimates, self._ready_lists.ranks)
        self._ready = self._ready_table()
        self._last_ready = float(self._ready.max())
        self._anyone_waits = self._last_ready > float(self._free.min())
        plays = [[deck in tape.decks for deck in range(self._decks)] for tape in tapes]
        self._plays = np.array([*plays, [False] * self._decks])
        fails, repair = self._queue.fails_after, self._queue.repair
        self._rework = Rework(self._plays, fails, repair, self._scenarios)
        self._minutes = self._queue.minutes.reshape(-1)
        self._why = np.zeros(self._minutes.shape, dtype=np.int8)

    def _ready_table(self) -> Minutes:
        """When the bench lets each tape go, 0 for no tape; with a column a scenario where these differ."""
        ready = [*(tape.ready for tape in self._queue.tapes), 0.0]
        if any(isinstance(each, np.ndarray) for each in ready):
            return np.stack([np.broadcast_to(each, self._scenarios) for each in ready])
        return np.array(ready, dtype=np.float64)
