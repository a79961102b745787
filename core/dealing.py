"""A short row of tapes dealt out to decks, one after the other, in every scenario at once.

For the box on the counter, behind a queue that has been worked off already (`core.floor` does that, by
the same rules). Before a tape takes its turn, rush tapes that have come in by then go first. Where the
tape would not end before closing, the longest of the next ones that does is played on that deck instead.
These happen in some scenarios only: they go round again, the others are done. Where a deck has failed,
the tape is played again after all others of the row.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.breakdowns import repair_after
from core.hours import Minutes
from core.lanes import Gate, Lanes, Turn
from core.rush import Coming
from core.slots import Places, where

FILL = 20
"""Tapes looked at for the end of the day: five gave 11 % off the time to finish a long queue, twenty 16 %,
sixty no more than that (derived: measured on a prototype)."""

RUSH_BEFORE = 3
"""Rush tapes that go before one tape of the box; all the rest go before the last one of its kind. Rounds for
a handful of scenarios cost as much as for all, and the decks are as full in the end."""

DECK, BENCH, NIGHT = 0, 1, 2
"""What a tape waited for: a deck, the bench, or an opening although a deck was free."""

Decks = tuple[int, ...]
Reasons = NDArray[np.int8]
Ready = float | Minutes


@dataclass(slots=True, eq=False)
class Part:
    """Tapes of one box on the same decks: when the last of them ends, and what that one waited for."""

    ends: Minutes
    why: Reasons = field(init=False)

    def __post_init__(self) -> None:
        self.why = np.zeros(len(self.ends), dtype=np.int8)

    def end(self, ends: Minutes, why: Reasons, at: Places) -> None:
        """One more tape ends in the scenarios ``at``."""
        last = where(ends > self.ends[at])
        self.ends[at[last]] = ends[last]
        self.why[at[last]] = why[last]

    def end_all(self, ends: Minutes, why: Reasons) -> None:
        """One more tape ends, in every scenario."""
        last = ends > self.ends
        np.copyto(self.ends, ends, where=last)
        np.copyto(self.why, why, where=last)

    def share(self, why: int) -> float:
        """Share of the scenarios in which the last tape waited for that."""
        return float(np.count_nonzero(self.why == why)) / len(self.why)


@dataclass(frozen=True, slots=True, eq=False)
class Turnout:
    """One tape to deal out: where it may play, from when, planned with which minutes, and its part."""

    decks: Decks
    estimate: float
    ready: Ready
    part: Part


class Seen(NamedTuple):
    """What is played where: the place of a tape in its queue, the deck, the start."""

    tape: int
    deck: int
    start: float


@dataclass(frozen=True, slots=True, eq=False)
class Queue:
    """Tapes in their order, with what was drawn for them: one row a tape, one column a scenario."""

    tapes: Sequence[Turnout]
    minutes: Minutes
    fails_after: Minutes | None = None
    """Minutes of play after which the deck would fail; used up. None: decks do not fail."""
    repair: float = 0.0
    """Minutes on average."""
    seen: list[Seen] | None = None
    """Where `core.floor` writes down what it plays; None: nobody asks. For queues of one scenario."""


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """What tapes are played on. Playing fills ``lanes`` and uses up ``rush``."""

    lanes: Lanes
    handling: float
    now: float
    rush: Sequence[Coming] = ()
    fill: int = FILL
    overtaken_from: int = 0
    """Tapes before this place of the queue are rush themselves: nothing that comes in goes before them."""


def deal(ground: Ground, queue: Queue) -> None:
    """Deals every tape, first to last; what comes of it is in its part."""
    _Deal(ground, queue).all()


class _Deal:
    def __init__(self, ground: Ground, queue: Queue) -> None:
        self._ground = ground
        self._lanes = ground.lanes
        self._scenarios = ground.lanes.free.shape[1]
        self._queue = queue
        self._tapes = queue.tapes
        self._gates = [ground.lanes.gate(tape.estimate) for tape in queue.tapes]
        self._behind = _Behind(queue.tapes, ground.fill)
        self._fetched = np.zeros((len(queue.tapes), self._scenarios), dtype=bool)
        """Scenarios in which a tape was fetched forward."""
        self._any_fetched = False
        self._others_wait = True
        """Not when tapes are played again: by then all others have been played."""
        self._ends = np.full(self._fetched.shape, -np.inf)
        self._why = np.zeros(self._fetched.shape, dtype=np.int8)
        self._latest = [float(np.max(tape.ready)) for tape in queue.tapes]
        """When each tape is ready in every scenario."""
        self._rush = {tape.decks: _rush_for(tape.decks, ground.rush) for tape in queue.tapes}
        self._failed: dict[tuple[Decks, float], list[tuple[Places, Places, Minutes]]] = {}
        """Tapes to be played again, those planned alike together: which, in which scenarios, from when."""

    def all(self) -> None:
        everywhere = np.arange(self._scenarios, dtype=np.intp)
        for place, tape in enumerate(self._tapes):
            at = where(~self._fetched[place]) if self._any_fetched else everywhere
            self._take(np.full(len(at), place), at, _of(tape.ready, at))
        failed, self._failed = self._failed, {}
        self._others_wait = False
        order = {(tape.decks, tape.estimate): place for place, tape in enumerate(self._tapes)}
        for kind in sorted(failed, key=order.__getitem__):
            again, at, when = (np.concatenate(column) for column in zip(*failed[kind], strict=True))
            while len(at):
                first = np.unique(at, return_index=True)[1]
                self._take(again[first], at[first], when[first])
                rest = np.setdiff1d(np.arange(len(at)), first)
                again, at, when = again[rest], at[rest], when[rest]
        for place, tape in enumerate(self._tapes):
            tape.part.end_all(self._ends[place], self._why[place])

    def _take(self, tape: Places, at: Places, ready: Ready) -> None:
        """Plays one tape in each scenario of ``at``, all planned alike; first what goes before it."""
        if not len(at):
            return
        place = int(tape[0])
        decks, gate = self._tapes[place].decks, self._gates[place]
        is_last = self._behind.is_last(place)
        turn = self._turn(decks, ready, gate, at)
        waits = np.arange(len(at), dtype=np.intp)
        some, rounds = turn, 0
        while len(waits):
            lets_rush_by = is_last or rounds < RUSH_BEFORE
            before = self._rush_first(decks, some, at[waits]) if lets_rush_by else None
            before = self._fetch_forward(place, some, at[waits], before)
            if before is None:
                break
            waits, rounds = waits[before], rounds + 1
            some = self._turn(decks, _of(ready, waits), gate, at[waits])
            for known, new in ((turn.place, some.place), (turn.free, some.free), (turn.start, some.start)):
                known[waits] = new
        self._play(tape, turn, ready, at)

    def _turn(self, decks: Decks, ready: Ready, gate: Gate, at: Places) -> Turn:
        return self._lanes.turn(decks, ready, gate, None if len(at) == self._scenarios else at)

    def _play(self, tape: Places, turn: Turn, ready: Ready, at: Places) -> None:
        why = (turn.start > turn.free).astype(np.int8)
        why *= NIGHT
        if isinstance(ready, np.ndarray) or ready > self._ground.now:
            why[turn.free <= ready] = BENCH
        self._ends[tape, at] = self._busy(tape, turn.place, turn.start, at)
        self._why[tape, at] = why

    def _busy(self, tape: Places, deck: Places, start: Minutes, at: Places) -> Minutes:
        """Plays one tape in each scenario of ``at``; when it ends.

        A tape whose deck failed has not ended: minus infinity.
        """
        ends = start + self._queue.minutes[tape, at]
        fails = self._queue.fails_after
        if fails is None:
            self._lanes.occupy(deck, ends, self._ground.handling)
            return ends
        until = fails[tape, at]
        hit = where(start + until < ends)
        busy, when = ends.copy(), start[hit] + until[hit]
        busy[hit] = when + repair_after(until[hit], self._queue.repair)
        fails[tape[hit], at[hit]] = np.inf
        ends[hit] = -np.inf
        self._lanes.occupy(deck, busy, self._ground.handling)
        if len(hit):
            kinds = [(self._tapes[place].decks, self._tapes[place].estimate) for place in tape[hit]]
            for kind in dict.fromkeys(kinds):
                mine = np.array([n for n, each in enumerate(kinds) if each == kind])
                lot = (tape[hit[mine]], at[hit[mine]], when[mine])
                self._failed.setdefault(kind, []).append(lot)
        return ends

    # --- what goes before -----------------------------------------------------------------

    def _rush_first(self, decks: Decks, turn: Turn, at: Places) -> NDArray[np.bool_] | None:
        """Plays the next rush tape of every kind that has come in before this start; where that was so."""
        waits: NDArray[np.bool_] | None = None
        for coming in self._rush[decks]:
            next_one = coming.next.take(at)
            before = (next_one <= turn.start) & (next_one < np.inf)
            if before.any():
                self._play_rush(coming, at[before])
                waits = before if waits is None else waits | before
        return waits

    def _play_rush(self, coming: Coming, at: Places) -> None:
        arrives, minutes = coming.take(at)
        turn = self._lanes.turn(coming.kind.decks, arrives, coming.gate, at)
        self._lanes.occupy(turn.place, turn.start + minutes, self._ground.handling)

    def _fetch_forward(
        self, place: int, turn: Turn, at: Places, waits: NDArray[np.bool_] | None
    ) -> NDArray[np.bool_] | None:
        """Plays a shorter tape where this one would not end before closing; where one was found."""
        blocked = turn.start > turn.free
        held = where(blocked if waits is None else blocked & ~waits)
        behind = self._behind.of(place) if len(held) and self._others_wait else None
        if behind is None:
            return waits
        slots = self._lanes.slots
        moment = slots.rise(turn.free[held])
        inside = where((turn.start[held] > moment) & (moment < np.inf))
        held, moment = held[inside], moment[inside]
        best = self._best(behind, turn.place[held], moment, at[held])
        found = where(best >= 0)
        if not len(found):
            return waits
        held = held[found]
        self._fetch(best[found], turn.place[held], moment[found], at[held])
        waits = np.zeros(len(turn.start), dtype=bool) if waits is None else waits
        waits[held] = True
        return waits

    def _best(self, behind: _Candidates, spot: Places, moment: Minutes, at: Places) -> Places:
        """The longest tape that ends before closing on that deck in each scenario, or -1."""
        slots = self._lanes.slots
        room = slots.closes.take(slots.closing(moment)) + self._lanes.past_closing - moment
        fits = behind.estimates[:, None] <= room
        if self._any_fetched:
            fits &= ~self._fetched[behind.places[:, None], at]
        if not behind.all_play_alike:
            fits &= behind.plays_on[:, spot // self._scenarios]
        for line, candidate in enumerate(behind.places):
            if self._latest[candidate] > self._ground.now:
                fits[line] &= _of(self._tapes[candidate].ready, at) <= moment
        line = fits.argmax(axis=0)
        return np.where(fits[line, np.arange(len(at))], behind.places.take(line), -1)

    def _fetch(self, tape: Places, spot: Places, start: Minutes, at: Places) -> None:
        self._ends[tape, at] = self._busy(tape, spot, start, at)
        self._fetched[tape, at] = True
        self._any_fetched = True


@dataclass(frozen=True, slots=True, eq=False)
class _Candidates:
    """Tapes that may be fetched forward for one tape, the longest first, of equally long ones the next."""

    places: Places
    estimates: Minutes
    plays_on: NDArray[np.bool_]
    """One line a tape, one column a deck."""
    all_play_alike: bool
    """On the same decks as the one they are fetched for."""


class _Behind:
    """Which tapes stand behind another and may take its deck for the rest of the day.

    Only tapes that play on no other decks than its own: for those the deck that has become free is the
    first that could have taken them, so nothing is fetched that would have been playing elsewhere.
    """

    def __init__(self, tapes: Sequence[Turnout], most: int) -> None:
        self._tapes = tapes
        self._most = most
        self._decks = 1 + max((deck for tape in tapes for deck in tape.decks), default=0)
        self._last = {tape.decks: place for place, tape in enumerate(tapes)}
        self._rows: dict[Decks, list[int]] = {}
        self._found: dict[int, _Candidates | None] = {}

    def of(self, place: int) -> _Candidates | None:
        """The next tapes that are planned shorter than the one at ``place``; None when there are none."""
        if place not in self._found:
            self._found[place] = self._candidates(place)
        return self._found[place]

    def is_last(self, place: int) -> bool:
        """Whether no tape for the same decks stands behind."""
        return self._last[self._tapes[place].decks] == place

    def _candidates(self, place: int) -> _Candidates | None:
        tape = self._tapes[place]
        row = self._row(tape.decks)
        begin = bisect_right(row, place)
        near = row[begin : begin + self._most]
        shorter = [each for each in near if self._tapes[each].estimate < tape.estimate]
        if not shorter:
            return None
        shorter.sort(key=lambda each: -self._tapes[each].estimate)
        return _Candidates(
            np.array(shorter, dtype=np.intp),
            np.array([self._tapes[each].estimate for each in shorter]),
            np.array([[deck in self._tapes[each].decks for deck in range(self._decks)] for each in shorter]),
            all(self._tapes[each].decks == tape.decks for each in shorter),
        )

    def _row(self, decks: Decks) -> list[int]:
        if decks not in self._rows:
            own = set(decks)
            self._rows[decks] = [n for n, tape in enumerate(self._tapes) if own.issuperset(tape.decks)]
        return self._rows[decks]


def _rush_for(decks: Decks, rush: Sequence[Coming]) -> list[Coming]:
    """The rush tapes that may play on any of these decks."""
    return [coming for coming in rush if not set(coming.kind.decks).isdisjoint(decks)]


def _of(ready: Ready, at: Places) -> Ready:
    return ready.take(at) if isinstance(ready, np.ndarray) else ready
