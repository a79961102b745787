"""Time as a shop spends it: minutes of opening, and a little for each time it closes.

Leads are compared and stretched on this scale, so that a weekend between two days is no lateness. A closing
counts for what goes on without anybody (tapes play on), and keeps what is done first thing in the morning
apart from what was done the evening before: without it a factor a hair below 1 would move all of it a day.
"""

from __future__ import annotations

import numpy as np

from core.scheduling.opening_calendar import Calendar, Minutes

CLOSING = 60.0
"""Minutes that stand for one time the shop is closed (an assumption: many let tapes play so long past it)."""


def passed(calendar: Calendar, moments: Minutes) -> Minutes:
    """Shop minutes from the start of the calendar to each moment, which lies there or later."""
    slot = np.searchsorted(calendar.closes, moments, side="left")
    inside = np.minimum(slot, len(calendar.opens) - 1)
    begun = calendar.worked_before[inside] + CLOSING * inside
    gone = begun + np.maximum(0.0, moments - calendar.opens[inside])
    return np.where(slot < len(calendar.opens), gone, np.inf)


def closed_by(calendar: Calendar, moment: float) -> float:
    """Shop minutes at the last closing up to a moment; those of its start before the first one."""
    slot = int(np.searchsorted(calendar.closes, moment, side="right")) - 1
    return float(calendar.worked_through[slot] + CLOSING * slot) if slot >= 0 else 0.0


def when_passed(calendar: Calendar, minutes: Minutes) -> Minutes:
    """The moment at which so many shop minutes have passed: of a closing, when the shop opens again.

    Infinity beyond the calendar.
    """
    slots = np.arange(len(calendar.opens))
    slot = np.searchsorted(calendar.worked_through + CLOSING * slots, minutes, side="left")
    inside = np.minimum(slot, len(calendar.opens) - 1)
    begun = calendar.worked_before[inside] + CLOSING * inside
    moment = calendar.opens[inside] + np.maximum(0.0, minutes - begun)
    return np.where(slot < len(calendar.opens), moment, np.inf)
