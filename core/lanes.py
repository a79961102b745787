"""The list scheduler: tapes in order, each to the deck where it can start first, in many scenarios at once.

A tape plays in real time and cannot rest overnight. Its length is not known before it has played, so
the choice of its start looks at an estimate only, never at the length drawn for a scenario: a
scheduler that peeks promises dates no shop can keep.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from core.hours import Calendar, Minutes, always_open


@dataclass(frozen=True, slots=True, eq=False)
class Gate:
    """When a play of one estimated length may start: from ``opens[k]`` to ``latest[k]``."""

    opens: Minutes
    latest: Minutes
    overlong: bool
    """It fits no opening, however early it starts; it starts at an opening all the same."""

    def start(self, ready: Minutes) -> Minutes:
        """The first allowed start at or after each moment; infinity when there is none any more."""
        slot = np.searchsorted(self.latest, ready, side="left")
        if not len(self.latest):
            return np.full_like(ready, np.inf)
        inside = np.minimum(slot, len(self.latest) - 1)
        return np.where(slot < len(self.latest), np.maximum(ready, self.opens[inside]), np.inf)


def gate(calendar: Calendar, estimate: float, past_closing: float) -> Gate:
    """The gate for a play that is estimated to take ``estimate`` minutes.

    It must end before closing plus ``past_closing``, and somebody must still be there to start it.
    """
    latest = np.minimum(calendar.closes, calendar.closes + past_closing - estimate)
    fits = latest >= calendar.opens
    if fits.any() or not len(latest):
        return Gate(calendar.opens[fits], latest[fits], overlong=False)
    return Gate(calendar.opens, calendar.opens, overlong=True)


@dataclass(slots=True, eq=False)
class Lanes:
    """Decks side by side; ``free[deck, scenario]`` is when each is free again."""

    calendar: Calendar
    past_closing: float
    free: NDArray[np.float64]
    _gates: dict[float, Gate] = field(default_factory=dict)

    def copy(self) -> Lanes:
        """The same decks, to be filled without touching these."""
        return Lanes(self.calendar, self.past_closing, self.free.copy(), self._gates)

    def gate(self, estimate: float) -> Gate:
        """The gate for an estimate, remembered."""
        found = self._gates.get(estimate)
        if found is None:
            found = self._gates[estimate] = gate(self.calendar, estimate, self.past_closing)
        return found

    def play(
        self, decks: Sequence[int], ready: float, minutes: Minutes, *, estimate: float, handling: float
    ) -> Minutes:
        """Play one tape and return when it ends in each scenario.

        ``ready`` is when the bench lets it go; the deck is free again once somebody, in opening
        hours, has spent ``handling`` minutes on it. Ties go to the deck named first.
        """
        earliest = np.maximum(self.free[list(decks)], ready)
        starts = self.gate(estimate).start(earliest)
        if len(decks) == 1:
            ends = starts[0] + minutes
            self.free[decks[0]] = self._handled(ends, handling)
            return np.asarray(ends, dtype=np.float64)
        chosen = starts.argmin(axis=0)
        scenarios = np.arange(self.free.shape[1])
        ends = starts[chosen, scenarios] + minutes
        self.free[np.asarray(decks)[chosen], scenarios] = self._handled(ends, handling)
        return np.asarray(ends, dtype=np.float64)

    def _handled(self, ends: Minutes, handling: float) -> Minutes:
        return self.calendar.advanced(ends, handling) if handling else ends


def finishes(minutes: Sequence[float], eligible: Sequence[Sequence[int]], decks: int) -> tuple[float, ...]:
    """Plain list scheduling on decks that never close: when each job ends, taken in this order.

    For arithmetic that can be checked by hand; ``eligible`` names the decks each job may run on.
    """
    lanes = Lanes(always_open(sum(minutes) + 1), 0.0, np.zeros((decks, 1)))
    return tuple(
        float(lanes.play(allowed, 0.0, np.array([length]), estimate=0.0, handling=0.0)[0])
        for length, allowed in zip(minutes, eligible, strict=True)
    )
