"""Households that bring VHS tapes, and what each is billed: worked out here, by nothing of the program.

The habits are those a new shop starts from, written down again: speeds and fullness of the marking T-120, and
how alike the tapes of one household are. Lengths: SMPTE 32M table 1, a maker may add up to 3 m.
"""

from __future__ import annotations

from dataclasses import dataclass
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

Amounts = NDArray[np.float64]

_MM_S = np.array([33.35, 16.67, 11.12])
_SPEEDS = np.array([0.5, 0.05, 0.45])
"""Tapes at SP, LP and EP (invented, as the starting beliefs are)."""
_EDGES = np.array([0.0, 0.14, 0.28, 0.42, 0.58, 0.72, 0.86, 0.995, 1.0])
_FULLNESS = np.array([0.05, 0.08, 0.10, 0.13, 0.13, 0.14, 0.15, 0.22])
"""Tapes that end between these edges; the last are full."""
_SPEEDS_ALIKE, _FULLNESS_ALIKE = 0.49, 0.38
"""Correlation of two tapes of one household, that of households of one shop included (derived)."""
_METRES = 246.0, 249.0


@dataclass(frozen=True, slots=True)
class PlainTariff:
    """A price by started period, or by the minute where ``period`` is 0; tax on top, minor units."""

    price: float
    period: float = 0.0
    breaks: tuple[tuple[int, float], ...] = ()
    """(after so many tapes, percent off each)."""
    least: float = 0.0
    tax_percent: float = 0.0


def minutes(boxes: int, tapes: int, dice: np.random.Generator) -> Amounts:
    """Minutes that each tape (column) of each household (row) plays."""
    slow = 1 / _SPEEDS_ALIKE - 1
    habits = dice.dirichlet(slow * _SPEEDS, boxes)
    speed = (dice.random((boxes, tapes, 1)) > habits.cumsum(axis=1)[:, None, :-1]).sum(axis=2)
    bounds = [NormalDist().inv_cdf(share) for share in _FULLNESS.cumsum()[:-1]]
    shared, own = dice.normal(size=(boxes, 1)), dice.normal(size=(boxes, tapes))
    latent = np.sqrt(_FULLNESS_ALIKE) * shared + np.sqrt(1 - _FULLNESS_ALIKE) * own
    place = np.searchsorted(bounds, latent)
    within = np.where(place == len(bounds), 1.0, dice.random((boxes, tapes)))
    share = _EDGES[place] + (_EDGES[place + 1] - _EDGES[place]) * within
    return np.asarray(dice.uniform(*_METRES, (boxes, tapes)) * 1000 * share / _MM_S[speed] / 60)


def bills(played: Amounts, tariff: PlainTariff) -> Amounts:
    """What each household owes, minor units."""
    if tariff.period:
        each = tariff.price * np.maximum(1, np.ceil(played / tariff.period))
    else:
        each = np.floor(tariff.price * played / 60 + 0.5)
    dearest_first = -np.sort(-each, axis=1)
    percents = np.zeros(each.shape[1])
    for after, percent in tariff.breaks:
        percents[after:] = percent
    work = each.sum(axis=1) - np.floor(dearest_first @ percents / 100 + 0.5)
    net = np.maximum(work, tariff.least)
    return np.asarray(net + np.floor(net * tariff.tax_percent / 100 + 0.5))
