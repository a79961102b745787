"""Mean calibration: by how much tapes ran longer on average than their beliefs said, from earlier captures.

A posterior is pulled towards the starting beliefs, the more the less a shop has captured. The middle of a
tape hardly notices; the sum of many boxes does, by a percent or two, and a flat price stands or falls with
that sum. So each of the newest captures is set beside the mean of the posterior of the other boxes: the
ratio of their sums (a ratio estimator, Cochran 1977, from memory), shrunk to one; that of each format,
because each is priced in its own way, shrunk to the ratio of all.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import sqrt

import numpy as np

from core.model.frozen_mapping import FrozenMapping
from core.model.names import FormatName
from core.playtime.beliefs import Points

ENOUGH = 40
"""Fewer captures would say more of a few households than of the shop (an assumption)."""
SHRINKAGE = 20.0
"""Tapes that a ratio of one is worth (an assumption): a tenth of the captures looked back on."""
_STEEPEST, _STEPS = 20.0, 40
"""Tilts looked between, and halvings: e²⁰ outweighs any belief, 2⁻⁴⁰ of it is nothing (derived)."""
_BOUNDS = (0.5, 2.0)
"""A ratio beyond these speaks of wrong entries (an assumption)."""


@dataclass(frozen=True, slots=True, eq=False)
class CapturedTapes:
    """Tapes of one format with their belief by the other boxes, and the minutes they played."""

    name: FormatName
    points: Points
    minutes: Sequence[float]


@dataclass(frozen=True, slots=True)
class MeanCalibration:
    """What the means of beliefs are off."""

    ratio: float = 1.0
    """Minutes played for each minute believed."""
    of_formats: Mapping[FormatName, float] = field(default_factory=dict)
    """The same of each format that was captured."""
    spread: float = 0.0
    """Standard deviation of the beliefs it comes from, as a share of their means; 0 where there are none."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "of_formats", FrozenMapping(self.of_formats))

    def calibrated(self, name: FormatName, points: Points) -> Points:
        """The belief about a tape of a format with its mean moved by the ratio, possibilities as they were.

        By exponential tilting, which changes the belief least (Kullback and Leibler, from memory). In full
        where the belief is as unsure as those the ratio comes from, not at all where it is sure.
        """
        mean, share = _moments(points)
        if not self.spread or not share:
            return points
        ratio = self.of_formats.get(name, self.ratio)
        return _tilted(points, mean * (1 + (ratio - 1) * min(1.0, share / self.spread)))


UNTAUGHT = MeanCalibration()
"""Before any calibration."""


def calibrated(found: Sequence[CapturedTapes]) -> MeanCalibration:
    """The calibration from minutes played, each lot beside its belief by the other boxes."""
    count = sum(len(each.minutes) for each in found)
    if count < ENOUGH:
        return UNTAUGHT
    whole = _ratio(found, 1.0)
    names = dict.fromkeys(each.name for each in found)
    own = {name: _ratio([each for each in found if each.name == name], whole) for name in names}
    unsure = sum(_moments(each.points)[1] * len(each.minutes) for each in found)
    return MeanCalibration(whole, own, unsure / count)


def _ratio(found: Sequence[CapturedTapes], pulled_to: float) -> float:
    count = sum(len(each.minutes) for each in found)
    believed = sum(_moments(each.points)[0] * len(each.minutes) for each in found)
    weight = SHRINKAGE * believed / count
    ratio = (sum(sum(each.minutes) for each in found) + weight * pulled_to) / (believed + weight)
    return min(max(ratio, _BOUNDS[0]), _BOUNDS[1])


def _tilted(points: Points, mean: float) -> Points:
    """The points with weights tilted until their mean is this, by bisection; short of it at the ends."""
    values, shares = points.T
    scaled = values / values.max()
    low, high, weights = -_STEEPEST, _STEEPEST, shares
    for _ in range(_STEPS):
        middle = (low + high) / 2
        weights = shares * np.exp(middle * (scaled - 1))
        low, high = (middle, high) if float(values @ weights) < mean * weights.sum() else (low, middle)
    return np.column_stack((values, weights / weights.sum()))


def _moments(points: Points) -> tuple[float, float]:
    """The mean, and the standard deviation as a share of it."""
    values, shares = points.T
    mean = float(values @ shares)
    variance = max(0.0, float(((values - mean) ** 2) @ shares))
    return mean, sqrt(variance) / mean if mean else 0.0
