"""The tapes not yet played, as the decks see them in every scenario: decks that play the same share a list.

A ready list holds its tapes in the order of the queue, each as the rank of its estimate among all estimates.
So one look along a list says which tapes are left and how long they are planned to play. Behind its last
tape lies `ReadyLists.bare`: nothing left. Tapes on several lists leave all of them at once.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from core.scheduling.opening_calendar import Minutes, Places

Need = tuple[tuple[int, ...], float]
"""The decks a tape may play on, and the minutes it is planned with."""
Ranks = NDArray[np.uint16]

_GLANCE = 16
"""Places looked over at once for the next tape that is left."""


class ReadyLists:
    """The ready lists of some decks, end to end: a place names the list and the tape, in each scenario."""

    def __init__(self, tapes: Sequence[Need], decks: int, scenarios: int, near: int) -> None:
        self._scenarios = scenarios
        self.estimates = np.array(sorted({estimate for _, estimate in tapes}), dtype=np.float64)
        """Ascending; the first has rank one."""
        self.bare = len(self.estimates) + 1
        """The rank of the place behind a list."""
        near, self._glance = max(1, near), min(_GLANCE, len(tapes) + 1)
        self._lay_out(tapes, decks, max(near, self._glance) + 1)
        self._width = len(self.tape_at)
        self._lines = np.arange(scenarios, dtype=np.intp) * self._width
        """Where the lists of each scenario that is asked for begin in ``left``."""
        self._near = _windows(self.left, near)
        self._farther = _windows(self.left, self._glance)

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
        left = np.empty((self._scenarios, len(tape_at)), dtype=np.uint16)
        left[:] = self.ranks.take(self.tape_at)
        self.left: Ranks = left.reshape(-1)
        """The rank of the tape at each place, one line a scenario; none once it has gone."""
        self._list_of_deck = np.array([lists.index(ready_list) for ready_list in plays], dtype=np.intp)
        self._count = len(lists)
        self.first = np.repeat(np.array(begins, dtype=np.intp), self._scenarios)
        """Places before which nothing is left: one line a list, one column a scenario."""
        self._twins: list[tuple[Places, Places]] = []
        """For each list so many farther that shares a tape: its place there, and its cell in ``first``."""
        if len(lists) == 1:
            return
        cells = np.arange(len(self.first), dtype=np.intp)
        twins = ((by, self._twin(lists, begins, by)) for by in range(1, len(lists)))
        self._twins = [
            (twin, np.roll(cells, -by * self._scenarios))
            for by, twin in twins
            if twin.min() < len(self.tape_at) - 1
        ]

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

    def only(self, columns: Places) -> None:
        """From now on only these scenarios are asked for, by their places here."""
        self._lines = columns * self._width

    def of(self, deck: Places, columns: Places) -> Places:
        """The ready list of a deck in each scenario: its cell in ``first``."""
        if self._count == 1:
            return columns
        return np.asarray(self._list_of_deck.take(deck) * self._scenarios + columns, dtype=np.intp)

    def next_on(self, ready_list: Places) -> tuple[Places, Ranks]:
        """The place of the first tape left on a list of each scenario, and its rank; `bare` if none."""
        place = self.first.take(ready_list)
        rank = self.left.take(place + self._lines)
        gone = (rank == 0).nonzero()[0]
        while len(gone):
            farther, lines = place.take(gone), self._lines.take(gone)
            step = (self._farther[farther + lines] != 0).argmax(axis=1)
            step[step == 0] = self._glance  # none is left so near: the first has gone
            farther += step
            found = self.left.take(farther + lines)
            place[gone], rank[gone] = farther, found
            gone = gone[found == 0]
        return place, rank

    def near(self, place: Places, at: Places) -> Ranks:
        """The next places from each on, in the scenarios ``at``: a line each, to be changed at will."""
        return np.asarray(self._near[place + self._lines.take(at)])

    def tapes_near(self, place: Places) -> Places:
        """The tapes from each place on, a line each, as `near` lists them."""
        return self.tape_at.take(place[:, None] + np.arange(self._near.shape[1]))

    def longest_within(self, room: Minutes) -> Ranks:
        """The rank of the longest estimate that fits in so many minutes."""
        return self.estimates.searchsorted(room, side="right").astype(np.uint16)

    def take(self, ready_list: Places, head: Places, place: Places, scenario: Places) -> None:
        """The tapes at ``place`` go, each in its scenario (of all); ``head`` is the first that lay there."""
        lines = scenario * self._width
        self.left[place + lines] = 0
        self.first[ready_list] = head + (place == head)
        for twin, beside in self._twins:
            there, other = twin.take(place), beside.take(ready_list)
            self.left[there + lines] = 0
            first = self.first.take(other)
            self.first[other] = first + (first == there)

    def never_taken(self) -> list[tuple[np.intp, Places]]:
        """Tapes still there, with the scenarios."""
        left = self.left.reshape(self._scenarios, self._width)
        left = np.where(self.tape_at < self.tape_at[-1], left, 0)
        places = np.flatnonzero(left.sum(axis=0))
        return [(self.tape_at[place], np.flatnonzero(left[:, place])) for place in places]


def _windows(row: Ranks, width: int) -> Ranks:
    """A line from each place on, so many places wide, that shows the row itself; numpy's own
    `sliding_window_view` takes ten times as long to be made."""
    lines = max(0, len(row) - width + 1)
    return np.ndarray((lines, width), row.dtype, row.data, 0, (row.itemsize, row.itemsize))
