"""Rework: tapes whose deck has failed, or whose copy was in vain, wait to be played again from the start.

In each scenario others (`core.scheduling.breakdowns`, `core.scheduling.second_plays`).
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from core.scheduling.breakdowns import repair_after
from core.scheduling.opening_calendar import RETIRED, Minutes, Places, where
from core.scheduling.second_plays import BEFORE_THE_END

_WAITING = 4
"""Tapes of a group of decks that may wait at once to be played again: one deck in a dozen has failed,
rarely two (our choice)."""


class Rework:
    """``tape`` and ``since``: what waits and from which minute, a line a place and a column a scenario.

    ``plays`` says for each tape, and for no tape, whether each deck plays it; ``fails_after`` minutes of play
    (a row a tape, None: never) its deck would fail. ``times``: minutes a repair takes on average, and until
    a play that came to its end is known to have been in vain; its deck is free at once.
    """

    def __init__(
        self,
        plays: NDArray[np.bool_],
        fails_after: Minutes | None,
        times: tuple[float, float],
        scenarios: int,
    ) -> None:
        self._fails = None if fails_after is None else fails_after.reshape(-1)
        self._repair, self._checked_after = times
        self._plays, self._decks = plays.reshape(-1), plays.shape[1]
        self._scenarios = scenarios
        self.may_fail = fails_after is not None
        self._total = 0
        places = _WAITING if self.may_fail else 0
        self.tape = np.full((places, scenarios), len(plays) - 1, dtype=np.intp)
        self.since = np.full((places, scenarios), RETIRED)
        self._waiting = np.zeros(scenarios, dtype=np.intp)
        """How many wait in each scenario."""

    @property
    def is_any_waiting(self) -> bool:
        """Whether a tape waits in some scenario."""
        return self._total > 0

    def waiting(self, scenario: Places) -> Places:
        """Where in this row of scenarios something waits."""
        return where(self._waiting.take(scenario) > 0)

    def first(self, deck: Places, scenario: Places) -> tuple[Places, Minutes]:
        """The line of ``tape`` each deck, one a scenario, could take first, and since when that waits;
        `RETIRED`: none."""
        waiting = self.since.take(scenario, axis=1)
        allowed = self._plays.take(self.tape.take(scenario, axis=1) * self._decks + deck)
        since = np.where(allowed, waiting, RETIRED)
        line = since.argmin(axis=0)
        return line, since[line, np.arange(len(scenario))]

    def take(self, line: Places, scenario: Places) -> Places:
        """The tapes at these places, in these scenarios, wait no more; which they are."""
        self.since[line, scenario] = RETIRED
        self._waiting[scenario] -= 1
        self._total -= len(scenario)
        return np.asarray(self.tape[line, scenario], dtype=np.intp)

    def failing(
        self, cell: Places, start: Minutes, ends: Minutes, scenario: Places
    ) -> tuple[Minutes, Places]:
        """Until when the decks are busy, and which tapes must be played again.

        ``cell`` is the place of each tape and scenario among all (flat). With `_WAITING` tapes waiting
        already, the next plays on after the repair: its end is changed.
        """
        fails = self._fails
        if fails is None:
            return ends, cell[:0]
        until = fails.take(cell)
        hit = where(start + until < ends)
        if not len(hit):
            return ends, hit
        in_vain = start[hit] + until[hit] >= ends[hit] - 2 * BEFORE_THE_END
        repair = np.where(in_vain, 0.0, repair_after(until[hit], self._repair))
        fails[cell[hit]] = np.inf
        line = self.since[:, scenario[hit]].argmax(axis=0)
        is_place = self.since[line, scenario[hit]] >= RETIRED
        ends[hit[~is_place]] += np.where(in_vain, until[hit], repair)[~is_place]
        busy = ends.copy()
        hit, line, repair, in_vain = hit[is_place], line[is_place], repair[is_place], in_vain[is_place]
        failed = start[hit] + until[hit]
        busy[hit] = failed + repair
        failed += np.where(in_vain, self._checked_after, 0.0)
        self._waiting[scenario[hit]] += 1
        self._total += len(hit)
        self.since[line, scenario[hit]] = failed
        self.tape[line, scenario[hit]] = cell[hit] // self._scenarios
        return busy, hit
