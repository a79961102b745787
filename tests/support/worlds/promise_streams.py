"""Streams of promises: what a plan said of each order, and what became of it, without any shop behind.

A year of orders whose true lead is that of the plan times an error that the plan does not know. Times are
shop minutes: a day is `DAY` of them, whose last hour is that of the night.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import exp, log2

import numpy as np
from numpy.typing import NDArray

Dice = np.random.Generator
Floats = NDArray[np.float64]
DAY, OPEN = 600.0, 540.0
ORDERS = 400
A_DAY = 2.5
_SHARES = (np.arange(200) + 0.5) / 200


@dataclass(frozen=True, slots=True, eq=False)
class Order:
    """One order. ``leads``: as the plan has them, rising, equally likely."""

    made: float
    leads: Floats
    lead: float
    """What it took."""
    tapes: int
    waiting: int
    rush: bool
    closings: Floats
    """Leads to the closings of the days to come, the day it is made on first."""


@dataclass(frozen=True, slots=True)
class Stream:
    """A kind of year. ``off``: logarithm of the true lead over the plan's, for an order made on a day."""

    name: str
    off: Callable[[Dice, float, int, int], float]
    is_right: bool = False

    def orders(self, seed: int, count: int = ORDERS) -> Iterator[Order]:
        dice, day, busy = np.random.default_rng(seed), 0.0, 0.0
        normal = np.sort(np.random.default_rng(0).standard_normal(100_000))
        z = np.quantile(normal, _SHARES)
        for _ in range(count):
            day += float(dice.exponential(1 / A_DAY))
            busy = 0.97 * busy + float(dice.normal(0, 0.15))
            tapes, rush = int(min(dice.geometric(1 / 6), 60)), bool(dice.random() < 0.1)
            waiting = int(25 * exp(busy))
            middle = 60.0 + 55.0 * tapes**0.8 + (5.0 if rush else 22.0) * waiting
            spread = 0.12 + 0.5 / np.sqrt(middle / 60)
            leads = middle * np.exp(spread * z)
            true = middle * exp(spread * float(dice.normal()) + self.off(dice, day, tapes, waiting))
            made = float(int(day)) * DAY + float(dice.uniform(0, OPEN))
            yield Order(made, leads, true, tapes, waiting, rush, _closings(made, float(leads[-1])))


def _closings(made: float, longest: float) -> Floats:
    return made // DAY * DAY + OPEN - made + DAY * np.arange(2 + int(4 * longest // DAY))


def _after(day: float, jump: float) -> float:
    return jump if day >= 140 else 0.0


def _in_bad_weeks(day: float, jump: float) -> float:
    return jump if int(day // 7) * 7919 % 10 == 0 else 0.0


STREAMS = (
    Stream("the plan is right", lambda dice, day, tapes, waiting: 0.0, is_right=True),
    Stream("a seventh slower", lambda dice, day, tapes, waiting: 0.14),
    Stream("a seventh faster", lambda dice, day, tapes, waiting: -0.14),
    Stream("big orders slower", lambda dice, day, tapes, waiting: 0.09 * log2(tapes)),
    Stream("long tails", lambda dice, day, tapes, waiting: 0.2 * abs(float(dice.standard_t(3)))),
    Stream("less sure than planned", lambda dice, day, tapes, waiting: float(dice.normal(0, 0.3))),
    Stream("slower from one day on", lambda dice, day, tapes, waiting: _after(day, 0.25)),
    Stream("slower and slower", lambda dice, day, tapes, waiting: 0.4 * day / 280),
    Stream("bad weeks", lambda dice, day, tapes, waiting: _in_bad_weeks(day, 0.5)),
    Stream("short queues slower", lambda dice, day, tapes, waiting: 0.25 - 0.04 * log2(1 + waiting)),
)
