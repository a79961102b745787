"""The openings of a shop as minutes that numpy can search.

A `Calendar` counts real (elapsed) minutes from the midnight that begins its first day, so that the
day the clocks go forward has 23 hours and the day they go back has 25.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from core.model.errors import WrongInput
from core.wording.messages import say

Minutes = NDArray[np.float64]
Places = NDArray[np.intp]

NEVER = 1e12
"""Minutes that stand for beyond the calendar (our choice: two million years)."""
RETIRED = 1e15
"""A deck with nothing left to do is due at this moment (our choice: after `NEVER`)."""
_STEP = 16.0
"""Minutes one line of the table stands for; a power of two, so that dividing by it is exact."""
_LONGEST = 10 * 366 * 1440.0
"""Minutes of a calendar beyond which there is no table: ten years (our choice: it changes the time only)."""


def where(claims: NDArray[np.bool_]) -> Places:
    """The places of what is true; numpy's own is twice as slow on a thousand, for the sake of its checks."""
    return claims.nonzero()[0]


@dataclass(frozen=True, eq=False)
class Calendar:
    """Opening slots in order, without overlaps. ``opens[k] < closes[k]``, minutes since `start`."""

    start: datetime
    zone: ZoneInfo
    opens: Minutes
    closes: Minutes
    days: tuple[date, ...]
    """Days with at least one opening."""
    day_ends: Minutes
    """The last closing of each of these days."""
    shut: Mapping[date, str]
    """Days the shop would be open by its weekdays but is not, and why."""
    worked_before: Minutes = field(repr=False)
    """Minutes of opening before each slot."""
    worked_through: Minutes = field(repr=False)
    """Minutes of opening up to the end of each slot."""

    def at(self, moment: datetime) -> float:
        """A moment (with a timezone) as minutes since the start of the calendar."""
        if moment.tzinfo is None:
            accepted = say("dates", "moment_accepted")
            raise WrongInput(say("dates", "moment"), moment.isoformat(), accepted)
        return (moment - self.start).total_seconds() / 60

    def midnight(self, day: date) -> datetime:
        """The moment ``day`` begins on the shop's clock."""
        return datetime.combine(day, time(), self.zone)

    def span(self, first: date, last: date) -> tuple[float, float]:
        """From the midnight that begins ``first`` to the midnight that ends ``last``, on the shop's clock."""
        return self.at(self.midnight(first)), self.at(self.midnight(last + timedelta(days=1)))

    def moment(self, minutes: float) -> datetime:
        """The moment on the shop's clock."""
        return (self.start + timedelta(minutes=minutes)).astimezone(self.zone)

    def day_of(self, minutes: float) -> date:
        """The date on the shop's clock."""
        return self.moment(minutes).date()

    def close_of(self, day: date) -> float | None:
        """The last closing on ``day``; None when the shop is shut or the calendar does not reach it."""
        index = bisect_left(self.days, day)
        found = index < len(self.days) and self.days[index] == day
        return float(self.day_ends[index]) if found else None

    def worked(self, minutes: Minutes) -> Minutes:
        """Minutes of opening that have passed by each moment."""
        slot = np.searchsorted(self.closes, minutes, side="left")
        inside = np.minimum(slot, len(self.opens) - 1)
        gone = self.worked_before[inside] + np.maximum(0.0, minutes - self.opens[inside])
        return np.where(slot < len(self.opens), gone, np.where(np.isinf(minutes), np.inf, self._all_worked))

    def when_worked(self, worked: Minutes) -> Minutes:
        """The moment at which so many minutes of opening have passed; infinity beyond the calendar."""
        slot = np.searchsorted(self.worked_through, worked, side="left")
        inside = np.minimum(slot, len(self.opens) - 1)
        moment = self.opens[inside] + (worked - self.worked_before[inside])
        return np.where(slot < len(self.opens), moment, np.inf)

    def advanced(self, minutes: Minutes, work: float) -> Minutes:
        """When work that can rest overnight is done, begun at each moment; work in minutes of opening."""
        if not len(self.opens):
            return np.full_like(minutes, np.inf)
        return self.when_worked(self.worked(minutes) + work)

    @cached_property
    def slots(self) -> Slots:
        """The same openings, looked up in a table."""
        return Slots(self)

    @property
    def _all_worked(self) -> float:
        return float(self.worked_through[-1])


class Slots:
    """The openings of one calendar; after the last one comes a slot that never opens.

    A table says for every quarter of an hour which slot is the next to close; one comparison sets right
    what the table is too coarse for. It answers as a search does, about three times sooner.
    """

    def __init__(self, calendar: Calendar) -> None:
        self.calendar = calendar
        self.opens = np.append(calendar.opens, np.inf)
        self.closes = np.append(calendar.closes, np.inf)
        end = float(calendar.closes[-1]) if len(calendar.closes) else 0.0
        is_short = end <= _LONGEST
        lines = np.arange(0.0, (end if is_short else 0.0) + 2 * _STEP, _STEP)
        self._first = np.searchsorted(calendar.closes, lines, side="left").astype(np.intp)
        self._end = float(lines[-1])
        self._opening_at_least = float(np.min(calendar.closes - calendar.opens, initial=np.inf))
        pause_at_least = float(np.min(calendar.opens[1:] - calendar.closes[:-1], initial=np.inf))
        self.is_coarse = is_short and min(self._opening_at_least, pause_at_least) >= _STEP
        """Whether the table and one comparison are enough: no opening and no pause is shorter than a line of
        it. Else there is a search."""

    def closing_from(self, moments: Minutes) -> Places:
        """The first slot that closes at or after each moment, or the one before it: see `is_coarse`."""
        if not self.is_coarse:
            return np.searchsorted(self.calendar.closes, moments, side="left")
        return self._first.take((np.minimum(moments, self._end) * (1 / _STEP)).astype(np.intp))

    def closing(self, moments: Minutes) -> Places:
        """The first slot that closes at or after each moment."""
        slots = self.closing_from(moments)
        return np.asarray(slots + (moments > self.closes.take(slots)), dtype=np.intp)

    def advanced(self, moments: Minutes, work: float) -> Minutes:
        """When ``work`` minutes of opening have passed from each moment on; work may rest overnight."""
        if not self.is_coarse or work > self._opening_at_least:
            return self.calendar.advanced(moments, work)
        slots = self.closing(moments)
        done: Minutes = np.maximum(moments, self.opens.take(slots)) + work
        closes = self.closes.take(slots)
        late = where(done > closes)
        if len(late):
            done[late] = self.opens.take(slots.take(late) + 1) + (done.take(late) - closes.take(late))
        return done


class Openings:
    """Minutes of each slot, one more for beyond the calendar: ``opens``, ``closes``, and ``ends_by``, by when
    a tape must have ended.

    Figures that may be added to: beyond the last one lies `NEVER`, and infinity less infinity would warn.
    """

    def __init__(self, calendar: Calendar, past_closing: float) -> None:
        slots = calendar.slots
        self.closing = slots.closing
        """The first slot that closes at or after each moment."""
        self.opens = np.append(np.where(np.isinf(slots.opens), NEVER, slots.opens), NEVER)
        self.closes = np.append(np.where(np.isinf(slots.closes), NEVER + 1e6, slots.closes), NEVER + 1e6)
        self.ends_by = self.closes + past_closing
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

        ``slot`` is none too late for each end, and has opened by then.
        """
        done, closes = ends + handling, self.closes.take(slot)
        late = where(done > closes)
        if len(late):
            some = ends.take(late), slot.take(late), closes.take(late)
            slot = slot.copy()
            done[late], slot[late] = self._handled_next(*some, handling)
        if handling:
            np.minimum(done, NEVER, out=done)
        return done, slot

    def _handled_next(
        self, ends: Minutes, slot: Places, closes: Minutes, handling: float
    ) -> tuple[Minutes, Places]:
        """The same where it is not done before ``closes``, when the slot does: mostly it is in the next."""
        following = slot + 1
        opens = self.opens.take(following)
        begun_before: Minutes = opens + (ends + handling - closes)
        begun_then: Minutes = np.maximum(ends, opens) + handling if handling else ends
        done = np.where(ends > closes, begun_then, begun_before)
        late = where(done > self.closes.take(following))
        if len(late):
            done[late], following[late] = self._handled_later(ends.take(late), slot.take(late), handling)
        return done, following

    def _handled_later(self, ends: Minutes, slot: Places, handling: float) -> tuple[Minutes, Places]:
        """The same for any slot."""
        slot = np.maximum(slot, self.closing(ends))
        if not handling:
            return ends, slot
        ends, closes = np.maximum(ends, self.opens.take(slot)) + handling, self.closes.take(slot)
        late = where(ends > closes)
        while len(late):
            over = ends.take(late) - closes.take(late)
            slot[late] += 1
            closes[late] = self.closes.take(slot.take(late))
            ends[late] = self.opens.take(slot.take(late)) + over
            late = late[ends.take(late) > closes.take(late)]
        return ends, slot
