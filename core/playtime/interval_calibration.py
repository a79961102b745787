"""Interval calibration: the levels at which ranges begin and end, from the coverage of earlier ranges.

A posterior learned from some thirty boxes is too narrow. So each of the newest captures gets a conformity
score against the posterior of the other boxes, and the ends of ranges move to the quantiles of the scores.

Split conformal prediction (Vovk, Gammerman and Shafer 2005; Lei et al. 2018; both from memory), weighted
because tapes of one box are not exchangeable, and shrunk to the nominal levels because few boxes make the
quantiles unstable.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

import numpy as np

from core.playtime.beliefs import HIGH, LOW, Points, spread

NEWEST = 200
"""Captures that get a conformity score (an assumption)."""
ENOUGH = 40
"""With fewer captures each tail holds fewer than four tapes, too few to move it (an assumption)."""
ENOUGH_BOXES = 10
"""A few households are no crowd, however many tapes they brought (an assumption)."""
BOX_CONCENTRATION = 2.0
"""Concentration parameter of the weights: each of n tapes of one box counts (1 + 2) / (2 + n) of a tape alone
in its box. A round figure near what simulated shops learn of fullness (an assumption)."""
SHRINKAGE = 100.0
"""Effective tapes that the nominal levels are worth. Some thirty boxes are worth seventy, which leave a tenth
uncertain by four points; of simulated shops 80 served one kind best and 120 the other (derived)."""
_LOW_BOUNDS, _HIGH_BOUNDS = (0.01, 0.25), (0.75, 0.99)
"""Ends beyond these say nothing: an outer one would stand at the last point of the belief, an inner one would
make a range of less than half of the belief (an assumption)."""
_ROUNDING = 1e-9
"""Sums of probabilities that differ by less are the same (our choice: far above 2⁻⁵²)."""


@dataclass(frozen=True, slots=True)
class Conformity:
    """The conformity scores of one tape in its predictive distribution, for a low and for a high end."""

    box: str
    low: float
    """The highest level of a low end that is not above the tape; 0 when the belief begins above it."""
    high: float
    """The level of the first point that is not below the tape; 2 when the belief ends below it."""
    is_inside: bool
    """Whether 10 to 90 % held it."""


@dataclass(frozen=True, slots=True)
class IntervalLevels:
    """The levels at which ranges begin and end, and the tapes they were calibrated on."""

    low: float = LOW
    high: float = HIGH
    tapes: int = 0
    """Tapes with a conformity score; 0 where there were too few."""
    outside: int = 0
    """Those of them that fell outside 10 to 90 %."""


NOMINAL = IntervalLevels()
"""The levels before any calibration."""


def conformities(points: Points, tapes: Sequence[tuple[str, float]]) -> list[Conformity]:
    """The conformity of tapes (name of the box, minutes played) in one predictive distribution, in order."""
    values, weights = points.T
    reached = np.concatenate(([0.0], np.cumsum(weights), [2.0]))
    minutes, usual = np.array([played for _, played in tapes]), spread(points)
    lows = reached[np.searchsorted(values, minutes, side="right")]
    highs = reached[np.searchsorted(values, minutes, side="left") + 1]
    held = (usual.low <= minutes) & (minutes <= usual.high)
    boxes = [box for box, _ in tapes]
    return [Conformity(*one) for one in zip(boxes, lows.tolist(), highs.tolist(), held.tolist(), strict=True)]


def calibrated(found: Sequence[Conformity]) -> IntervalLevels:
    """The levels that would have covered these tapes, and one more, at the nominal rate; shrunk.

    Where every tape is alone in its box the level is the ⌊(n + 1) / 10⌋-th from outside before it is shrunk.
    """
    sizes = Counter(score.box for score in found)
    if len(found) < ENOUGH or len(sizes) < ENOUGH_BOXES:
        return NOMINAL
    weights = [(1 + BOX_CONCENTRATION) / (BOX_CONCENTRATION + sizes[score.box]) for score in found]
    low = _level(sorted(zip((score.low for score in found), weights, strict=True)), LOW)
    high = _level(sorted(zip((score.high for score in found), weights, strict=True), reverse=True), HIGH)
    outside = sum(not score.is_inside for score in found)
    return IntervalLevels(_within(low, _LOW_BOUNDS), _within(high, _HIGH_BOUNDS), len(found), outside)


def _level(from_outside: Sequence[tuple[float, float]], nominal: float) -> float:
    """The weighted quantile that leaves a tenth outside, one tape more among it; shrunk."""
    worth = sum(each for _, each in from_outside)
    spare = LOW * (worth + 1) - 1 + _ROUNDING
    reached = accumulate(each for _, each in from_outside)
    found = next(
        level for (level, _), left_out in zip(from_outside, reached, strict=True) if left_out > spare
    )
    return nominal + worth / (worth + SHRINKAGE) * (found - nominal)


def _within(level: float, bounds: tuple[float, float]) -> float:
    return min(max(level, bounds[0]), bounds[1])
