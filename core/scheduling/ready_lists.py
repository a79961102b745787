"""The tapes not yet played, as the decks see them in every scenario: decks that play the same share a list.

A ready list holds its tapes in the order of the queue, each as the rank of its estimate among all estimates.
So one look along a list says which tapes are left and how long they are planned to play. Behind its last
tape lies `ReadyLists.bare`: nothing left. Tapes on several lists leave all of them at once.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from core.scheduling.opening_calendar import Minutes, Places, where

Need = tuple[tuple[int, ...], float]
"""The decks a tape may play on, and the minutes it is planned with."""
Ranks = NDArray[np.uint16]

_GLANCE = 16
"""Places looked over at once for the next tape that is left (our choice: it changes the time only)."""


class ReadyLists:
    """The ready lists of some decks, end to end: a place names the list and the tape, in each scenario."""

    def __init__(self, tapes: Sequence[Need], decks: int, scenarios: int, near: int) -> None:
        self._scenarios = scenarios
        self.estimates = np.array(sorted({estimate for _, estimate in tapes}), dtype=np.float64)
        """Ascending; the first has rank one."""
        self.bare = len(self.estimates) + 1
        """The rank of the place behind a list."""
        self._width_near, self._glance = max(1, near), min(_GLANCE, len(tapes) + 1)
        self._lay_out(tapes, decks, max(self._width_near, self._glance) + 1)
        self._rows = np.arange(scenarios, dtype=np.intp)
        """The scenarios that are asked for, by their places among these."""
        self._lines = self._rows * len(self.tape_at)
        """Where the lists of each scenario that is asked for begin in ``left``."""

    def _lay_out(self, tapes: Sequence[Need], decks: int, behind: int) -> None:
        plays = [tuple(n for n, (able, _) in enumerate(tapes) if deck in able) for deck in range(decks)]
        lists = list(dict.fromkeys(plays))
        begins: list[int] = []
        tape_at: list[int] = []
        for ready_list in lists:
            begins.append(len(tape_at))
            tape_at += [*ready_list, *[len(tapes)] * behind]
        self.tape_at = np.array(tape_at, dtype=np.intp)
        """The tape at each place; the count of all tapes behind a list."""
        rank_of = {estimate: rank for rank, estimate in enumerate(self.estimates.tolist(), 1)}
        self.ranks = np.array([*(rank_of[estimate] for _, estimate in tapes), self.bare], dtype=np.uint16)
        """The rank of each tape, and for no tape."""
        self.estimate_at = np.array([*self.estimates, -np.inf]).take(self.ranks.take(self.tape_at) - 1)
        """Minutes the tape at each place is planned with; minus infinity behind a list."""
        self._list_of_deck = np.array([lists.index(ready_list) for ready_list in plays], dtype=np.intp)
        self._begins = np.array(begins, dtype=np.intp)
        self._count = len(lists)
        self.shortest = min(map(len, lists))
        """Tapes on the shortest list."""
        self.first = self._begins.repeat(self._scenarios)
        """Places before which nothing is left: one line a list, one column a scenario."""
        twins = ((by, self._twin(lists, begins, by)) for by in range(1, len(lists)))
        self._twins = [(by, twin) for by, twin in twins if twin.min() < len(tape_at) - 1]
        """For each list so many farther that shares a tape: its place there."""
        self._has_gaps = bool(self._twins)
        """Whether a tape behind the first of its list may have gone."""

    @cached_property
    def left(self) -> Ranks:
        """The rank of the tape at each place, one line a scenario; none once it has gone before its turn."""
        left = np.empty((self._scenarios, len(self.tape_at)), dtype=np.uint16)
        left[:] = self.ranks.take(self.tape_at)
        return left.reshape(-1)

    @cached_property
    def _near(self) -> Ranks:
        return _windows(self.left, self._width_near)

    @cached_property
    def _farther(self) -> Ranks:
        return _windows(self.left, self._glance)

    def _twin(self, lists: Sequence[tuple[int, ...]], begins: Sequence[int], by: int) -> Places:
        """The place of each tape so many lists farther; where it lies on one list less, the very last place
        of all, at which nobody looks."""
        twin = np.full(len(self.tape_at), len(self.tape_at) - 1, dtype=np.intp)
        for line, ready_list in enumerate(lists):
            other = (line + by) % len(lists)
            places = {tape: begins[other] + n for n, tape in enumerate(lists[other])}
            for n, tape in enumerate(ready_list):
                twin[begins[line] + n] = places.get(tape, twin[-1])
        return twin

    def only(self, row: Places) -> None:
        """From now on only these of the scenarios are asked for, by their places among those so far."""
        self.first = self.first.reshape(self._count, -1).take(row, axis=1).reshape(-1)
        self._lines = self._lines.take(row)
        self._rows = self._rows[: len(row)]

    def of(self, deck: Places) -> Places:
        """The ready list of a deck in each scenario: its cell in ``first``."""
        if self._count == 1:
            return self._rows
        return np.asarray(self._list_of_deck.take(deck) * len(self._rows) + self._rows, dtype=np.intp)

    def next_on(self, ready_list: Places) -> Places:
        """The place of the first tape left on a list of each scenario; behind the list if none."""
        place = self.first.take(ready_list)
        if self._has_gaps:
            gone = where(self.left.take(place + self._lines) == 0)
            while len(gone):
                farther, lines = place.take(gone), self._lines.take(gone)
                step = (self._farther[farther + lines] != 0).argmax(axis=1)
                step[step == 0] = self._glance  # none is left so near: the first has gone
                farther += step
                place[gone] = farther
                gone = gone[self.left.take(farther + lines) == 0]
        return place

    def near(self, place: Places, at: Places) -> Ranks:
        """The next places from each on, in the rows ``at``: a line each, to be changed at will."""
        return np.asarray(self._near[place + self._lines.take(at)])

    def tapes_near(self, place: Places) -> Places:
        """The tapes from each place on, a line each, as `near` lists them."""
        return self.tape_at.take(place[:, None] + np.arange(self._width_near))

    def longest_within(self, room: Minutes) -> Ranks:
        """The rank of the longest estimate that fits in so many minutes."""
        return self.estimates.searchsorted(room, side="right").astype(np.uint16)

    def take(self, ready_list: Places, head: Places, place: Places, at: Places | None) -> None:
        """The tapes at ``place`` go, each in its row of ``at`` (None: all); ``head`` is the first there."""
        lines = self._lines if at is None else self._lines.take(at)
        beyond = head + 1
        if place is not head:
            beyond -= place != head
            self._leave_gaps(where(place != head), place, lines)
        if self._count == 1 and at is None:
            self.first = beyond
        else:
            self.first[ready_list] = beyond
        for by, twin in self._twins:
            there = twin.take(place)
            other = (ready_list + by * len(self._rows)) % len(self.first)
            self.left[there + lines] = 0
            first = self.first.take(other)
            self.first[other] = first + (first == there)

    def _leave_gaps(self, fetched: Places, place: Places, lines: Places) -> None:
        if len(fetched):
            self.left[place.take(fetched) + lines.take(fetched)] = 0
            self._has_gaps = True

    def never_taken(self, row: Places, scenario: Places) -> Iterator[tuple[np.intp, Places]]:
        """Tapes still there in these rows, which are those of ``scenario`` (of all), with the scenarios."""
        list_at = self._begins.searchsorted(np.arange(len(self.tape_at)), side="right") - 1
        first = self.first.reshape(self._count, -1).take(row, axis=1).take(list_at, axis=0)
        left = self.left.reshape(self._scenarios, -1).take(scenario, axis=0) > 0
        left &= (self.tape_at < self.tape_at[-1]) & (np.arange(len(self.tape_at))[:, None] >= first).T
        for place in np.flatnonzero(left.any(axis=0)):
            yield self.tape_at[place], scenario[left[:, place]]


def _windows(row: Ranks, width: int) -> Ranks:
    """A line from each place on, so many places wide, that shows the row itself; numpy's own
    `sliding_window_view` takes ten times as long to be made."""
    lines = max(0, len(row) - width + 1)
    return np.ndarray((lines, width), row.dtype, row.data, 0, (row.itemsize, row.itemsize))
