"""The openings of a calendar in figures that may be added to: beyond the last one lies `NEVER`, not infinity.

Working a queue off adds minutes to moments in a thousand scenarios at once; some have run past the end of the
calendar, and infinity less infinity would warn.
"""

from __future__ import annotations

import numpy as np

from core.scheduling.deck_timelines import Lanes
from core.scheduling.opening_hours import Minutes
from core.scheduling.slot_lookup import Places, where

NEVER = 1e12
"""Minutes that stand for beyond the calendar."""
RETIRED = 1e15
"""A deck with nothing left to do is due at this moment."""


class Openings:
    """Minutes of each slot, one more for beyond the calendar: ``opens``, ``closes``, and ``ends_by``, by when
    a tape must have ended."""

    def __init__(self, lanes: Lanes) -> None:
        slots = lanes.slots
        self.closing = slots.closing
        """The first slot that closes at or after each moment."""
        self.opens = np.append(np.where(np.isinf(slots.opens), NEVER, slots.opens), NEVER)
        self.closes = np.append(np.where(np.isinf(slots.closes), NEVER + 1e6, slots.closes), NEVER + 1e6)
        self.ends_by = self.closes + lanes.past_closing
        self.fills_to = np.where(self.opens < NEVER, self.ends_by, -np.inf)
        """The same for what fills the end of a day: beyond the calendar there is none to fill."""

    def rise(self, moments: Minutes) -> Minutes:
        """Each moment itself while the shop is open, else the next opening."""
        rising = np.maximum(moments, self.opens.take(self.closing(moments)))
        return np.asarray(rising, dtype=np.float64)

    def advanced(self, begin: Minutes, work: Minutes) -> Minutes:
        """When so many minutes of work begun in an opening are done; it rests overnight."""
        slot = self.closing(begin)
        done: Minutes = np.maximum(begin, self.opens.take(slot)) + work
        while True:
            late = where(done > self.closes.take(slot))
            late = late[done[late] < NEVER]
            if not len(late):
                return done
            done[late] = self.opens.take(slot[late] + 1) + (done[late] - self.closes.take(slot[late]))
            slot[late] += 1

    def handled(self, ends: Minutes, slot: Places, handling: float) -> tuple[Minutes, Places]:
        """When somebody has spent ``handling`` minutes of opening on tapes that end then, and in which slot.

        ``slot`` is none too late for each end.
        """
        slot = slot + (ends > self.closes.take(slot))
        closes = self.closes.take(slot)
        beyond = where(ends > closes)
        if len(beyond):
            slot[beyond] = self.closing(ends.take(beyond))
            closes[beyond] = self.closes.take(slot.take(beyond))
        if handling:
            ends = np.maximum(ends, self.opens.take(slot)) + handling
            late = where(ends > closes)
            while len(late):
                over = ends.take(late) - closes.take(late)
                slot[late] += 1
                closes[late] = self.closes.take(slot.take(late))
                ends[late] = self.opens.take(slot.take(late)) + over
                late = late[ends.take(late) > closes.take(late)]
            np.minimum(ends, NEVER, out=ends)
        return ends, slot
