"""When each deck of an event simulation takes its next tape, in every scenario that still goes on.

A place among all decks of all scenarios is flat: a line a scenario, the decks in it side by side, so that
those of one scenario are compared with each other.
"""

from __future__ import annotations

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from core.scheduling.opening_calendar import NEVER, RETIRED, Minutes, Openings, Places

T = TypeVar("T", bound=np.generic)


class DeckStates:
    """``due``: when each deck takes its next tape; ``slot``: the first that closes at or after that."""

    def __init__(self, free: Minutes, openings: Openings) -> None:
        """``free``: a line a deck, a column a scenario."""
        self.count, scenarios = free.shape
        self._openings = openings
        self.due: Minutes = np.minimum(free, NEVER).T.reshape(-1)
        self.slot = openings.closing(self.due)
        self._free: Minutes | None = None
        """When each is free, where some were put off; None: they are free when they are due."""
        self._lines = np.arange(scenarios, dtype=np.intp) * self.count
        self._first = np.zeros(scenarios, dtype=np.intp)
        self._at_the_end: Minutes | None = None
        """When each deck was free, a line a scenario, in those that are through; None: all go on."""
        self.is_any_idle = False
        """Whether some deck may have found nothing to do."""

    @property
    def free(self) -> Minutes:
        """When each deck is free, whether or not it has something to do then."""
        return self.due if self._free is None else self._free

    def soonest(self) -> tuple[Places, Places]:
        """The deck that is due first in every scenario, and its place among all."""
        if self.count == 1:
            return self._first, self._lines
        if self.count == 2:  # three times as quick as to look for the least
            deck = (self.due[1::2] < self.due[::2]).astype(np.intp)
        else:
            deck = self.due.reshape(-1, self.count).argmin(axis=1)
        return deck, deck + self._lines

    def occupy(self, spot: Places, until: Minutes, slot: Places) -> None:
        """Decks are free and due at these moments."""
        if spot is self._lines and self.count == 1:
            self.due, self.slot = until, slot
            if self._free is not None:
                self._free = until.copy()
            return
        self.set_due(spot, until)
        self.slot[spot] = slot

    def set_due(self, spot: Places, until: Minutes) -> None:
        """The same where nobody asks for the slot."""
        self.due[spot] = until
        if self._free is not None:
            self._free[spot] = until

    def put_off(self, spot: Places, moment: Minutes) -> None:
        """Decks have nothing to do before these moments, though they are free."""
        self.free_apart()
        self.due[spot] = moment
        self.slot[spot] = self._openings.closing(moment)

    def retire(self, spot: Places) -> None:
        """Decks have found nothing to do."""
        self.free_apart()
        self.due[spot] = RETIRED
        self.is_any_idle = True

    def free_apart(self) -> Minutes:
        """When each deck is free, kept apart from now on from when it is due."""
        if self._free is None:
            self._free = self.due.copy()
        return self._free

    def idle(self, row: Places) -> NDArray[np.bool_]:
        """Whether the decks of these rows have nothing to do: a line a row, a column a deck."""
        return np.asarray(self._in_rows(self.due, row) >= RETIRED)

    def first_free(self, row: Places) -> Minutes:
        """When the first deck of each of these rows is free."""
        return np.asarray(self._in_rows(self.free, row).min(axis=1))

    def only(self, scenario: Places, row: Places) -> None:
        """These rows go on; ``scenario`` are all that went on so far."""
        if self._at_the_end is None:
            self._at_the_end = self.free.reshape(-1, self.count)
        else:
            self._at_the_end[scenario] = self.free.reshape(-1, self.count)
        self.due, self.slot = (
            self._in_rows(self.due, row).reshape(-1),
            self._in_rows(self.slot, row).reshape(-1),
        )
        if self._free is not None:
            self._free = self._in_rows(self._free, row).reshape(-1)
        self._lines, self._first = self._lines[: len(row)], self._first[: len(row)]

    def at_the_end(self, scenario: Places) -> Minutes:
        """When each is free in the end, infinity for never: a line a deck, a column a scenario."""
        free = self.free.reshape(-1, self.count)
        if self._at_the_end is not None:
            self._at_the_end[scenario] = free
            free = self._at_the_end
        return np.where(free >= NEVER, np.inf, free).T

    def _in_rows(self, table: NDArray[T], row: Places) -> NDArray[T]:
        return table.reshape(-1, self.count).take(row, axis=0)
