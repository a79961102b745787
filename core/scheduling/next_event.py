"""What each scenario of an event simulation does next."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.scheduling.opening_calendar import Minutes, Places


@dataclass(slots=True, eq=False)
class NextEvent:
    """One row a scenario that is not through yet; changed in place as something else goes before."""

    ready_list: Places
    """Whose tapes the deck takes from: its cell in `ReadyLists.first`."""
    head: Places
    """Where on that list the first tape left lies."""
    place: Places
    """Where on that list the tape lies that goes next."""
    tape: Places
    """That tape; the count of all tapes stands for none."""
    begin: Minutes
    """When the deck could begin anything at all."""
    start: Minutes
    slot: Places
    """The first slot that closes at or after the start."""
    why: NDArray[np.int8]
    is_busy: NDArray[np.bool_]
    """Whether the deck has been given something that is not of the queue."""
    is_again: NDArray[np.bool_]
    """Whether the tape has been played before, on a deck that failed."""

    def only(self, at: Places) -> NextEvent:
        """The same in some scenarios only."""
        return NextEvent(
            self.ready_list.take(at),
            self.head.take(at),
            self.place.take(at),
            self.tape.take(at),
            self.begin.take(at),
            self.start.take(at),
            self.slot.take(at),
            self.why.take(at),
            self.is_busy.take(at),
            self.is_again.take(at),
        )
