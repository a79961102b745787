"""When people are here, one by one: the openings of all of them in one table, searched at once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from core.scheduling.opening_calendar import NEVER, Minutes, Openings, Places, where

_STEP = 16.0
"""Minutes one line of the table stands for; a power of two, so that dividing by it is exact."""
_LINES = 400_000
"""Lines of one person at most: of a longer calendar, each stands for more minutes (our choice)."""


class RosterHours:
    """Answers for each person as `Openings` does, to the bit. People are told by their places."""

    def __init__(self, here: Sequence[Openings]) -> None:
        ends = [each.closes[:-2] for each in here]
        """When somebody goes, beyond the calendar left out."""
        end = max((float(each[-1]) for each in ends if len(each)), default=0.0)
        step = _STEP
        while end / step > _LINES:
            step *= 2
        lines = np.arange(0.0, end + 2 * step, step)
        self._per_minute, self._end, self._width = 1 / step, float(lines[-1]), len(lines)
        begins = np.cumsum([0, *(len(each.opens) for each in here)])
        first = [np.searchsorted(each, lines, side="left") for each in ends]
        self._corrections = max((int(np.diff(each).max(initial=0)) for each in first), default=0)
        """Times somebody goes within one line, at most: so often the place looked up is set right."""
        self._first = np.concatenate([each + at for each, at in zip(first, begins, strict=False)])
        self._opens = np.concatenate([each.opens for each in here])
        self._closes = np.concatenate([each.closes for each in here])
        self._until = np.where(self._closes < NEVER, self._closes, np.inf)
        self.lines = np.arange(len(here), dtype=np.intp)[:, None] * self._width
        """Where the lines of each person begin; a row a person."""

    def rise(self, moments: Minutes, lines: Places) -> Minutes:
        """Each moment itself while the person is here, else when they come next; ``lines``: whose."""
        rising: Minutes = np.maximum(moments, self._opens.take(self._closing(moments, lines)))
        return rising

    def advanced(self, person: Places, begin: Minutes, work: Minutes) -> Minutes:
        """When each has done so much work, begun while they are here; it rests while they are away."""
        slot = self._closing(begin, person * self._width)
        done: Minutes = np.maximum(begin, self._opens.take(slot)) + work
        late = where(done > self._closes.take(slot))
        late = late[done.take(late) < NEVER]
        while len(late):
            over, slot[late] = done.take(late) - self._closes.take(slot.take(late)), slot.take(late) + 1
            done[late] = self._opens.take(slot.take(late)) + over
            late = late[(done.take(late) > self._closes.take(slot.take(late))) & (done.take(late) < NEVER)]
        return done

    def _closing(self, moments: Minutes, lines: Places) -> Places:
        """The first opening of each person that ends at or after each moment."""
        line = (np.minimum(moments, self._end) * self._per_minute).astype(np.intp)
        slot = self._first.take(line + lines)
        for _ in range(self._corrections):
            slot += moments > self._until.take(slot)
        return slot
