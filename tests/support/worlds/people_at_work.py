"""People of invented shops: when they are at the bench, and how long each step takes them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp

import numpy as np

DAY = 24 * 60.0
Dice = np.random.Generator
Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Efforts:
    """Minutes of a person's time, on average."""

    load: float = 4.0
    unload: float = 1.5
    look_over: float = 4.0
    check: float = 6.0
    check_share: float = 0.0
    """Of its play time that is watched again in checking a tape."""
    splice: float = 25.0
    clean: float = 6.0
    """Before a tape is played again."""
    copies: float = 0.0
    """Of a box, once all its tapes are checked."""
    copies_each: float = 0.0
    counter: float = 8.0
    """With the customer who brings a box."""
    spread: float = 0.3
    """Standard deviation of the logarithm of each."""

    def drawn(self, mean: float, pace: float, dice: Dice) -> float:
        """Minutes that it takes this time somebody who takes ``pace`` times as long as others."""
        return (
            mean * pace * exp(self.spread * dice.normal() - self.spread**2 / 2)
            if self.spread
            else mean * pace
        )


USUAL = Efforts()
PLAIN = Efforts(3.0, 2.0, 5.0, 8.0, splice=20.0, clean=0.0, counter=0.0, spread=0.0)
"""Of a shop that works like a machine."""


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody at the bench. Minutes."""

    pace: float = 1.0
    late: float = 0.0
    """After opening, on average, an exponential number each day."""
    lunch: Span | None = None
    """Of the day when it begins, and how long it takes."""
    leaves: float = 0.0
    """Before closing."""
    ill: float = 0.0
    """Share of days away."""

    def spans(self, opens: float, closes: float, dice: Dice) -> list[Span]:
        """When this person works on a day that is open so long."""
        if self.ill and dice.random() < self.ill:
            return []
        begins = opens + (float(dice.exponential(self.late)) if self.late else 0.0)
        ends = closes - self.leaves
        if self.lunch is None:
            return [(begins, ends)] if begins < ends else []
        noon = opens // DAY * DAY + self.lunch[0]
        parts = [(begins, min(noon, ends)), (max(begins, noon + self.lunch[1]), ends)]
        return [(start, end) for start, end in parts if start < end]


class Presence:
    """When one person is there, day after day."""

    def __init__(self, spans: Sequence[Span]) -> None:
        self.spans = spans
        self._place = 0

    def until(self, now: float) -> float | None:
        """When this person goes away next; None: is away now. Asked in order of time."""
        while self._place < len(self.spans) and self.spans[self._place][1] <= now:
            self._place += 1
        if self._place == len(self.spans) or self.spans[self._place][0] > now:
            return None
        return self.spans[self._place][1]

    def worked(self, now: float, minutes: float) -> float:
        """When work begun now is done; it rests while this person is away."""
        for place in range(self._place, len(self.spans)):
            begins, ends = self.spans[place]
            now = max(now, begins)
            if now + minutes <= ends:
                return now + minutes
            minutes -= max(0.0, ends - now)
        raise AssertionError("the year is too short for this work")
