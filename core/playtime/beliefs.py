"""A belief about the play time of one tape: weighted points, and what is read off them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.model.ranges import Range, exactly

Points = NDArray[np.float64]
"""One row a point: value, probability; values rising, probabilities adding up to one. Never written to.

An array, because a belief of an unknown tape has more than a thousand points, and some thousand beliefs are
remembered: as pairs of Python's numbers each point took seven times as much.
"""

LOW, HIGH = 0.1, 0.9
"""Levels of a range's ends, four of five by definition, unless the shop's own tapes moved them (see
`interval_calibration`)."""
_LIKELY = 0.5
"""The median, by definition of a range's middle."""
_ROUNDING = 1e-9
"""Probability by which a sum may fall short of a level (our choice: far above 2⁻⁵²)."""


@dataclass(frozen=True, slots=True, eq=False)
class Belief:
    """What the shop believes about one tape."""

    points: Points
    """(minutes recorded, probability)."""
    range: Range
    """Minutes recorded at 10, 50 and 90 %, the ends moved to where the shop's own tapes lay."""
    full: float | Range
    """Minutes of the whole tape end to end; one figure when all that determines it is known."""
    metres: float | Range
    speed_mm_s: float | Range
    overrun: float
    """Share by which a tape may be longer than its marking says, 0 where its length is known."""
    longest: float
    """Minutes the tape may run at most: the longest case believed possible, overrun included."""
    sources: tuple[str, ...]

    def quantile(self, p: float) -> float:
        """The smallest play time, in minutes, that is not exceeded with probability ``p``."""
        return quantile(self.points, p)


def gathered(cases: Iterable[tuple[float, float]]) -> Points:
    """Points from (value, weight) in any order: sorted, equal values joined, weights scaled to one."""
    weights: dict[float, float] = {}
    for value, weight in cases:
        if weight > 0:
            weights[value] = weights.get(value, 0.0) + weight
    total = sum(weights.values())
    return _kept(np.array([(value, weights[value] / total) for value in sorted(weights)]))


def weighed(values: NDArray[np.float64], weights: NDArray[np.float64]) -> Points:
    """Like `gathered`, for many values: equal to a billionth is the same."""
    found, places = np.unique(values.round(9), return_inverse=True)
    sums = np.bincount(places, weights=weights)
    shares = sums / sums.sum()
    kept = shares > 0
    return _kept(np.column_stack((found[kept], shares[kept])))


def quantile(points: Points, p: float) -> float:
    """The smallest value whose cumulated probability reaches ``p``."""
    place = np.searchsorted(np.cumsum(points[:, 1]), p - _ROUNDING)
    return float(points[min(int(place), len(points) - 1), 0])


def quantile_of(ordered: NDArray[np.float64], p: float) -> float:
    """The same for values equally likely, in rising order."""
    return float(ordered[max(0, int(np.ceil(p * len(ordered) - _ROUNDING)) - 1)])


def spread(points: Points, low: float = LOW, high: float = HIGH) -> Range:
    """The points at 10, 50 and 90 %, or with the ends at other levels."""
    return Range(quantile(points, low), quantile(points, _LIKELY), quantile(points, high))


def settled(points: Points) -> float | Range:
    """One figure when there is only one point, else the range."""
    return float(points[0, 0]) if len(points) == 1 else spread(points)


def _kept(points: Points) -> Points:
    points.flags.writeable = False
    return points


def as_range(value: float | Range) -> Range:
    """A figure or a range as a range."""
    return value if isinstance(value, Range) else exactly(value)
