"""When a play may start in the openings of a shop.

A tape plays in real time and cannot rest overnight. Its length is not known before it has played, so
the choice of its start looks at an estimate only, never at the length drawn for a scenario: a
scheduler that peeks promises dates no shop can keep.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from core.scheduling.opening_calendar import Calendar, Minutes, Openings, Places

OVERLONG_WITHIN = 30.0
"""Minutes after an opening in which a tape longer than any opening is begun (an assumption)."""
TO_BE_LOADED = 15.0
"""Minutes until a tape is loaded on a deck that has played overnight, with one person in the shop
(an assumption)."""


class Gate:
    """When a play of one estimated length may start: from ``opens[k]`` to ``latest[k]`` of each slot.

    It must end before closing plus ``past_closing``, and somebody must still be there to start it.
    """

    def __init__(self, calendar: Calendar, estimate: float, past_closing: float) -> None:
        self.estimate = estimate
        self._slots = calendar.slots
        self._closes = self._slots.closes
        latest = np.minimum(calendar.closes, calendar.closes + past_closing - estimate)
        fits = latest >= calendar.opens
        self.overlong = bool(len(fits)) and not bool((latest >= calendar.opens + TO_BE_LOADED).any())
        """It fits no opening once it has been loaded; it starts soon after an opening all the same."""
        if self.overlong:
            latest = np.minimum(calendar.closes, calendar.opens + OVERLONG_WITHIN)
            fits = np.ones(len(fits), dtype=bool)
        self.latest = np.append(np.where(fits, latest, -np.inf), np.inf)
        places = np.arange(len(fits) + 1)
        fitting = np.where(np.append(fits, True), places, len(fits))
        following = np.minimum.accumulate(fitting[::-1])[::-1]
        self.following = np.append(following, [len(fits), len(fits)]).astype(np.intp)
        """For each slot, the first that fits from there on; two more beyond the calendar."""

    def start(self, ready: Minutes) -> Minutes:
        """The first allowed start at or after each moment; infinity when there is none any more."""
        slot = self._slots.closing_from(ready)
        slot = self.following.take(slot + (ready > self.latest.take(slot)))
        return np.asarray(np.maximum(ready, self._slots.opens.take(slot)), dtype=np.float64)

    def start_of(self, ready: float) -> float:
        """The same for one moment."""
        slot = bisect_left(self._closes, ready)
        slot = int(self.following[slot + (ready > self.latest[slot])])
        return max(ready, float(self._slots.opens[slot]))


@dataclass(frozen=True, slots=True, eq=False)
class Gates:
    """Gates in a table: a line an estimate, with one before and one behind for none."""

    estimate: Minutes
    overlong: NDArray[np.bool_] | None
    """Which of them fit no opening; None: all fit one."""
    following: Places
    """For each slot, the first that fits from there on."""


class PlayHours:
    """When tapes may start and must have ended: the openings, and minutes that may be played past closing."""

    def __init__(self, calendar: Calendar, past_closing: float) -> None:
        self.calendar = calendar
        self.openings = Openings(calendar, past_closing)
        self._past_closing = past_closing
        self._made: dict[float, Gate] = {}
        self.gates = lru_cache(maxsize=256)(self._gates_of)
        """The gates of so many estimates in one table, made once."""

    def _gates_of(self, estimates: tuple[float, ...]) -> Gates:
        none, made = self.gate(0.0).following, [self.gate(estimate) for estimate in estimates]
        overlong = np.array([False, *(gate.overlong for gate in made), False])
        return Gates(
            np.array([np.nan, *estimates, -np.inf]),
            overlong if overlong.any() else None,
            np.stack([none, *(gate.following for gate in made), none]),
        )

    def gate(self, estimate: float) -> Gate:
        """The gate for a play that is estimated to take so many minutes, made once."""
        found = self._made.get(estimate)
        if found is None:
            found = self._made[estimate] = Gate(self.calendar, estimate, self._past_closing)
        return found
