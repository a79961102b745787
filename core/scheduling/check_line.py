"""The recordings that wait to be checked in each scenario, in the order in which decks were unloaded."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from core.scheduling.opening_calendar import NEVER, RETIRED, Calendar, Minutes, Places, where
from core.scheduling.simulated_shop import Reasons


class CheckLine:
    """A first-in-first-out line a scenario: since when each recording waits, its part, what its tape waited
    for, and when it is checked. Cells are flat: a row a place in the line, a column a scenario."""

    def __init__(self, places: int, scenarios: int, no_part: int) -> None:
        self._scenarios = scenarios
        cells = (places + 1) * scenarios
        self._since = np.full(cells, RETIRED)
        self._part = np.full(cells, no_part, dtype=np.intp)
        self._why = np.zeros(cells, dtype=np.int8)
        self._work = np.zeros(cells)
        """Minutes that each check takes."""
        self._checked_at = np.full(cells, RETIRED)
        self._next = np.arange(scenarios, dtype=np.intp)
        """The cell of the first that waits in each scenario, and behind the last."""
        self._behind = self._next.copy()

    def since(self) -> Minutes:
        """Since when the first waits in each scenario; `RETIRED`: none does."""
        return self._since.take(self._next)

    def is_any_left(self) -> bool:
        """Whether a recording waits in some scenario."""
        return bool((self._next < self._behind).any())

    def work(self, at: Places) -> Minutes:
        """Minutes that the check of the first takes in each of these scenarios."""
        return self._work.take(self._next.take(at))

    def add(
        self,
        at: Places,
        since: Minutes | float,
        part: Places | int,
        work: Minutes | float,
        why: Reasons | int = 0,
    ) -> None:
        """One more recording in each of the scenarios ``at``, with ``work`` minutes to check it."""
        cell = self._behind.take(at)
        self._work[cell] = work
        self._since[cell], self._part[cell], self._why[cell] = since, part, why
        self._behind[at] = cell + self._scenarios

    def check(self, at: Places, ends: Minutes) -> tuple[Places, Reasons]:
        """The first of these scenarios are checked at these moments: their parts and what they waited for."""
        cell = self._next.take(at)
        self._checked_at[cell] = ends
        self._next[at] = cell + self._scenarios
        return self._part.take(cell), self._why.take(cell)

    def left(self) -> Iterator[tuple[Places, Places]]:
        """The parts of recordings that nobody has checked, with the scenarios."""
        for row in range(
            int(self._next.min()) // self._scenarios, int(self._behind.max()) // self._scenarios
        ):
            cell = row * self._scenarios + np.arange(self._scenarios)
            at = where((cell >= self._next) & (cell < self._behind))
            yield self._part.take(cell.take(at)), at

    def minutes(self, calendar: Calendar, least: float) -> float | None:
        """Minutes of opening from the deck until checked, on average, had every check taken the ``least``;
        None: nothing was checked."""
        done = where(self._checked_at < NEVER)
        if not len(done):
            return None
        waited = calendar.worked(self._checked_at.take(done)) - calendar.worked(self._since.take(done))
        return float(np.mean(waited - (self._work.take(done) - least)))
