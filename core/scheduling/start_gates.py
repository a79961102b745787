"""When the tapes of a queue may start: the gates of all their estimates in one table, looked up by rank.

In one event every scenario has a tape of its own, planned with other minutes; one look tells all of them.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from core.scheduling.opening_calendar import OVERLONG_WITHIN, Minutes, Places, PlayHours, where

Ranks = NDArray[np.uint16]
_NO_TAPE = 1e9
"""Minutes that fit no opening."""


class StartGates:
    """Which moments are too late for a tape, and when it may start instead; places of tapes, one for none."""

    def __init__(self, hours: PlayHours, estimates: Minutes, tapes: Sequence[float]) -> None:
        """``estimates``: all there are, ascending, the first of rank one; ``tapes``: that of each tape."""
        self._openings = hours.openings
        self._estimate_of = np.array([np.nan, *estimates, -np.inf])
        """The estimate of each rank; a tape that is not there would fit anywhere."""
        self.estimate = np.array([*tapes, _NO_TAPE])
        """Minutes each tape is planned with."""
        self._rank = np.append(np.searchsorted(estimates, tapes) + 1, len(estimates) + 1)
        overlong = [hours.gate(estimate).overlong for estimate in estimates.tolist()]
        self._overlong = np.array([False, *overlong, False])
        self._any_overlong = any(overlong)
        following = hours.following_of(tuple(estimates.tolist()))
        self._following, self._width = following.reshape(-1), following.shape[1]

    def of(self, tape: Places, wish: Minutes) -> tuple[Minutes, Places]:
        """The first allowed start of each tape at or after a moment, and its slot."""
        openings = self._openings
        slot = openings.closing(wish)
        start: Minutes = np.maximum(wish, openings.opens.take(slot))
        rank = self._rank.take(tape)
        self.put_off(rank, start, slot, openings.ends_by.take(slot) - start)
        return start, slot

    def put_off(self, rank: Ranks, start: Minutes, slot: Places, room: Minutes) -> Places:
        """Changes the starts, and their slots, of tapes that may not start in a slot with so much room left.

        They go to the first opening after it in which they may; returns which they are.
        """
        late = where(self._late(rank, start, slot, room))
        line = rank.take(late).astype(np.intp) * self._width
        following = self._following.take(line + slot.take(late) + 1)
        slot[late] = following
        start[late] = np.maximum(start.take(late), self._openings.opens.take(following))
        return late

    def _late(self, rank: Ranks, start: Minutes, slot: Places, room: Minutes) -> NDArray[np.bool_]:
        late = self._estimate_of.take(rank) > room
        if self._any_overlong:
            tardy = start > self._openings.opens.take(slot) + OVERLONG_WITHIN
            late = np.where(self._overlong.take(rank), tardy, late)
        return np.asarray(late)
