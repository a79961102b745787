"""Days the shop stays shut without having planned to: illness, a burst pipe, a power cut.

Such a day is taken out of the row of openings, in each scenario others: a plan is made as if every
planned opening took place, and then told on the days that remain. Where all days are equally long that
is exact; a short Saturday that takes the place of a weekday makes it a little late.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from core.model import common_random_numbers
from core.scheduling.opening_calendar import Calendar, Minutes


@lru_cache(maxsize=8)
def closures(calendar: Calendar, today: int, share: float, seed: int, scenarios: int) -> Closures:
    """The closures of a day, drawn once: they are the same all day long."""
    return Closures(calendar, today, share, seed, scenarios)


class Closures:
    """The days that remain in each scenario. ``today``, a place in the calendar's days, is one of them:
    somebody is there to ask for a date."""

    def __init__(self, calendar: Calendar, today: int, share: float, seed: int, scenarios: int) -> None:
        self._calendar = calendar
        self._day_of_slot = np.searchsorted(calendar.day_ends, calendar.closes, side="left")
        midnights = [calendar.at(calendar.midnight(day)) for day in calendar.days]
        self._begins = np.append(np.array(midnights, dtype=np.float64), np.inf)
        self._moved = self._remaining(today, share, seed, scenarios)

    def told(self, at: Minutes) -> Minutes:
        """When work that ends at ``at`` by plan really ends; one moment a scenario."""
        slot = self._calendar.slots.closing(at)
        inside = np.flatnonzero(slot < len(self._day_of_slot))
        day = self._day_of_slot[slot[inside]]
        moved = self._moved[day, inside]
        real = at.copy()
        real[inside] += self._begins[moved] - self._begins[day]
        return real

    def _remaining(self, today: int, share: float, seed: int, scenarios: int) -> NDArray[np.int16]:
        """The place of the first, second … day that remains, one column a scenario.

        In two bytes each: some two years of days by 1,000 scenarios are kept for every calendar.
        """
        days = self._calendar.days
        keys = [common_random_numbers.key("shut", day) for day in days]
        shut = common_random_numbers.uniforms(seed, keys, scenarios) < share
        shut[: today + 1] = False
        order = np.argsort(shut, axis=0, kind="stable")
        left = len(days) - shut.sum(axis=0)
        beyond = np.arange(len(days))[:, None] >= left[None, :]
        return np.asarray(np.where(beyond, len(days), order), dtype=np.int16)
