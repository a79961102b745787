"""How good promises were: scores that cannot be bettered by saying something else than what one believes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Values = NDArray[np.float64]


def pinball(level: float, happened: ArrayLike, said: ArrayLike) -> float:
    """Mean loss of a quantile: too low costs ``level`` a unit, too high the rest."""
    short = np.asarray(happened, dtype=np.float64) - np.asarray(said, dtype=np.float64)
    return float(np.mean(np.maximum(level * short, (level - 1) * short)))


def crps(drawn: ArrayLike, happened: float) -> float:
    """Continuous ranked probability score of equally likely values: E|X - y| - E|X - X'| / 2."""
    values: Values = np.sort(np.asarray(drawn, dtype=np.float64))
    count = len(values)
    apart = 2 * float(np.sum(values * (2 * np.arange(1, count + 1) - count - 1))) / count**2
    return float(np.mean(np.abs(values - happened))) - apart / 2


def pit(drawn: ArrayLike, happened: float) -> float:
    """Where what happened lies among the values that were thought possible: 0 below all, 1 above all."""
    values = np.asarray(drawn, dtype=np.float64)
    below, same = np.count_nonzero(values < happened), np.count_nonzero(values == happened)
    return (below + same / 2) / len(values)


@dataclass(frozen=True, slots=True)
class Bin:
    """Promises of about the same chance, and how many were kept."""

    stated: float
    """Mean chance."""
    kept: int
    count: int
    low: int
    """So many at least are kept in 19 of 20 shops whose chances are right (one by one; a year's promises
    hang together, so a real shop strays further)."""
    high: int


def reliability(stated: Sequence[float], kept: Sequence[bool], edges: Sequence[float]) -> tuple[Bin, ...]:
    """Kept promises by stated chance, with bars of what luck does (after Bröcker and Smith 2007)."""
    chances, outcomes = np.asarray(stated, dtype=np.float64), np.asarray(kept, dtype=bool)
    places = np.digitize(chances, edges)
    found = []
    for place in np.unique(places):
        mine = places == place
        low, high = consistency(chances[mine])
        found.append(Bin(float(chances[mine].mean()), int(outcomes[mine].sum()), int(mine.sum()), low, high))
    return tuple(found)


def consistency(chances: ArrayLike, inside: float = 0.95) -> tuple[int, int]:
    """The fewest and the most that are kept with probability ``inside`` when all chances are right."""
    ways: Values = np.ones(1)
    for chance in np.asarray(chances, dtype=np.float64):
        ways = np.convolve(ways, [1 - chance, chance])
    reached = np.cumsum(ways)
    low = int(np.searchsorted(reached, (1 - inside) / 2))
    return low, int(np.searchsorted(reached, 1 - (1 - inside) / 2))
