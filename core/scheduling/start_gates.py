"""When the tapes of a queue may start: the gates of all their estimates in one table, looked up by rank.

In one event every scenario has a tape of its own, planned with other minutes; one look tells all of them.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from core.scheduling.opening_calendar import Minutes, Places, where
from core.scheduling.play_hours import OVERLONG_WITHIN, PlayHours

Ranks = NDArray[np.uint16]


class StartGates:
    """Which moments are too late for a tape, and when it may start instead; places of tapes, one for none."""

    def __init__(self, hours: PlayHours, estimates: Minutes, ranks: Ranks) -> None:
        """``estimates``: all there are, ascending, the first of rank one; ``ranks``: that of each tape, and
        one more than there are for none."""
        self._openings = hours.openings
        self._rank = ranks
        gates = hours.gates(tuple(estimates.tolist()))
        self._estimate_of, self._overlong = gates.estimate, gates.overlong
        self._following, self._width = gates.following.reshape(-1), gates.following.shape[1]

    def estimate(self, tape: Places) -> Minutes:
        """Minutes each tape is planned with; minus infinity for none, which would fit anywhere."""
        return self._estimate_of.take(self._rank.take(tape))

    def of(self, tape: Places, wish: Minutes) -> tuple[Minutes, Places]:
        """The first allowed start of each tape at or after a moment, and its slot."""
        openings = self._openings
        slot = openings.closing(wish)
        start: Minutes = np.maximum(wish, openings.opens.take(slot))
        rank = self._rank.take(tape)
        late = self.late(tape, self._estimate_of.take(rank), start, slot, openings.ends_by.take(slot) - start)
        self.put_off(tape, start, slot, late)
        return start, slot

    def late(self, tape: Places, estimate: Minutes, start: Minutes, slot: Places, room: Minutes) -> Places:
        """Which of the tapes may not start in their slot with so much room left."""
        late = estimate > room
        if self._overlong is not None:
            tardy = start > self._openings.opens.take(slot) + OVERLONG_WITHIN
            late = np.where(self._overlong.take(self._rank.take(tape)), tardy, late)
        return where(late)

    def put_off(self, tape: Places, start: Minutes, slot: Places, late: Places) -> None:
        """Changes the starts and slots of those ``late`` to the first opening in which they may start."""
        line = self._rank.take(tape.take(late)).astype(np.intp) * self._width
        following = self._following.take(line + slot.take(late) + 1)
        slot[late] = following
        start[late] = np.maximum(start.take(late), self._openings.opens.take(following))
