"""A belief shown as three numbers."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Range:
    """The 10th, 50th and 90th percentile of what the shop believes about one quantity."""

    low: float
    likely: float
    high: float

    def __add__(self, other: Range) -> Range:
        return Range(self.low + other.low, self.likely + other.likely, self.high + other.high)

    def times(self, factor: float) -> Range:
        """Every column multiplied by ``factor`` (not negative)."""
        return Range(self.low * factor, self.likely * factor, self.high * factor)


ZERO = Range(0.0, 0.0, 0.0)


def exactly(value: float) -> Range:
    """A quantity known to be ``value``."""
    return Range(value, value, value)
