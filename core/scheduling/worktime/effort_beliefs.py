"""How many times as long as planned a step takes: what is believed before, and after intervals were seen.

An interval is work or not only work. Work is gamma around the mean sought, with the shape that fits best;
what is more (somebody called, or had nothing to do) or less (the step was recorded late) may be anything:
even over the logarithm, `OUTLIER` a unit of it. The share of the intervals that are work is learned as well.
So a tape left standing tells next to nothing, however many there are.

All is worked out on a grid of means, shapes and shares, so that the posterior is the product of prior and
likelihood and nothing else. The prior of the mean is log-normal around what was planned.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from math import lgamma, log

import numpy as np
from numpy.typing import NDArray

Grid = NDArray[np.float64]

FIGURE_OFF = log(2) / 1.96
"""Standard deviation of the logarithm of a planned figure: one from memory is within a factor of two in 19 of
20 shops (an assumption). Worth as much as two intervals, whose own deviation is about a half."""
PERSON_OFF = log(1.5) / 1.96
"""The same of a person beside the others: within one and a half times in 19 of 20 (an assumption)."""
ENOUGH = 10.0
"""Fewer intervals that are work say nothing yet (an assumption)."""
MOST_OFF = 4.0
"""Further off than so many times no figure is believed to be (an assumption)."""
OUTLIER = 0.1
"""Chance per unit of the logarithm, of `_WIDTH` units, that an interval which is not only work is there."""
_WIDTH = 10.0
_SHAPES = (4.0, 9.0, 25.0, 100.0)
"""Of the gamma law: coefficients of variation of 0.5, 0.33, 0.2 and 0.1; a wider one would take interruptions
for work (an assumption)."""
_SHARES = (0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95)
_BINS = np.linspace(-_WIDTH / 2, _WIDTH / 2, 201)
_MIDDLES = (_BINS[1:] + _BINS[:-1]) / 2
_MEANS = np.linspace(-log(MOST_OFF), log(MOST_OFF), 89)


@dataclass(frozen=True, slots=True)
class Effort:
    """How many times as long as planned, with the tenth and the ninetieth percentile of the belief."""

    factor: float = 1.0
    low: float = 1.0
    high: float = 1.0
    seen: float = 0.0
    """Intervals."""
    told: float = 0.0
    """Of these as many as are likely to be work."""


def counted(ratios: Iterable[tuple[float, float]]) -> Grid:
    """Intervals (how many times as long as planned, weight) by their logarithm."""
    found = list(ratios)
    if not found:
        return np.zeros(len(_MIDDLES))
    values, weights = zip(*found, strict=True)
    logs = np.clip(np.log(np.maximum(values, 1e-9)), _BINS[0], _BINS[-1])
    return np.histogram(logs, _BINS, weights=weights)[0]


def believed(seen: Grid, off: float = FIGURE_OFF) -> Effort:
    """The belief after these intervals; ``off``: deviation of its prior. As planned while too few."""
    likely = (seen @ _table()).reshape(len(_MEANS), -1)
    weights = likely - 0.5 * (_MEANS[:, None] / off) ** 2
    best = np.unravel_index(int(weights.argmax()), weights.shape)
    told = float(seen @ _work_shares(int(best[0]), int(best[1])))
    if told < ENOUGH:
        return Effort(seen=float(seen.sum()), told=told)
    chances = np.exp(weights - weights[best]).sum(axis=1)
    chances /= chances.sum()
    low, high = np.interp((0.1, 0.9), np.cumsum(chances), _MEANS)
    factor = float(np.exp(chances @ _MEANS))
    return Effort(factor, float(np.exp(low)), float(np.exp(high)), float(seen.sum()), told)


@cache
def _table() -> Grid:
    """Log likelihood of an interval (row) for each mean, shape and share of work (columns)."""
    shapes, shares = np.array(_SHAPES)[:, None], np.array(_SHARES)
    work = shares * _gamma(_MIDDLES[:, None, None, None] - _MEANS[:, None, None], shapes)
    return np.asarray(np.log(work + (1 - shares) * OUTLIER).reshape(len(_MIDDLES), -1), dtype=np.float64)


def _work_shares(mean: int, law: int) -> Grid:
    """The chance that each interval is work, at one place of the grid."""
    shape, share = _SHAPES[law // len(_SHARES)], _SHARES[law % len(_SHARES)]
    work = share * _gamma(_MIDDLES - _MEANS[mean], np.array(shape))
    return np.asarray(work / (work + (1 - share) * OUTLIER), dtype=np.float64)


def _gamma(beside: Grid, shape: Grid) -> Grid:
    """Density of the logarithm of a gamma law of mean 1: (k e^u)^k e^(−k e^u) ÷ Γ(k)."""
    normal = np.vectorize(lgamma)(shape)
    return np.asarray(np.exp(shape * (np.log(shape) + beside) - shape * np.exp(beside) - normal))
