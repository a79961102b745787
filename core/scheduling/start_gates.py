"""When the tapes of a queue may start: the gates of all their estimates in one table, looked up by rank.

In one event every scenario has a tape of its own, planned with other minutes; one look tells all of them.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from core.scheduling.deck_timelines import OVERLONG_WITHIN, Lanes
from core.scheduling.opening_hours import Minutes
from core.scheduling.opening_table import Openings
from core.scheduling.ready_lists import Ranks, Trays
from core.scheduling.slot_lookup import Places, where
from core.scheduling.waiting_tapes import Turnout

_NO_TAPE = 1e9
"""Minutes that fit no opening."""


class Starts:
    """Which moments are too late for a tape, and when it may start instead; places of tapes, one for none."""

    def __init__(self, lanes: Lanes, openings: Openings, trays: Trays, tapes: Sequence[Turnout]) -> None:
        self._openings = openings
        self._estimate_of = trays.estimate_of
        self.estimate = np.array([*(tape.estimate for tape in tapes), _NO_TAPE])
        """Minutes each tape is planned with."""
        self._rank = np.append(np.searchsorted(trays.estimates, self.estimate[:-1]) + 1, trays.bare)
        gates = [lanes.gate(estimate) for estimate in trays.estimates.tolist()]
        none = lanes.gate(0.0)
        self._overlong = np.array([False, *(gate.overlong for gate in gates), False])
        self._any_overlong = bool(self._overlong.any())
        lines = [gate.following for gate in (none, *gates, none)]
        self._following = np.stack([np.append(line, line[-1]) for line in lines])

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
        following = self._following[rank.take(late), slot.take(late) + 1]
        slot[late] = following
        start[late] = np.maximum(start.take(late), self._openings.opens.take(following))
        return late

    def _late(self, rank: Ranks, start: Minutes, slot: Places, room: Minutes) -> NDArray[np.bool_]:
        late = self._estimate_of.take(rank) > room
        if self._any_overlong:
            tardy = start > self._openings.opens.take(slot) + OVERLONG_WITHIN
            late = np.where(self._overlong.take(rank), tardy, late)
        return np.asarray(late)
