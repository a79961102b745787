"""Ways to learn from kept promises, side by side on the same streams of orders.

Each way says the first day that is good enough and its chance, is told of each order when its day is over,
and is scored on what it said: kept less stated after a hundred promises and in the worst third of order
sizes, and the pinball loss of the 90 % lead beside that of the way before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

import numpy as np

from core.promise.reliability import pinball
from tests.bench.ratio import Ratio
from tests.support.worlds.promise_streams import ORDERS, STREAMS, Order, Stream
from tests.support.worlds.recalibrators import (
    AdaptiveLevel,
    AggregatedLevel,
    AlarmAndFactor,
    AsPlanned,
    ForgettingPit,
    Judged,
    Pooled,
    QuantileAndIntegral,
    RatiosOfLate,
    Recalibrator,
)

LEVEL = 0.9
YEARS = 8
FIRST = 100
GRID = np.geomspace(0.1, 4.0, 300)
WAYS: tuple[Callable[[], Recalibrator], ...] = (
    AsPlanned,
    AlarmAndFactor,
    AdaptiveLevel,
    AggregatedLevel,
    QuantileAndIntegral,
    ForgettingPit,
    RatiosOfLate,
    Pooled,
)
KEPT = Pooled.name


@dataclass(frozen=True, slots=True)
class Told:
    """One promise and how it did."""

    stated: float
    kept: bool
    tapes: int
    loss: float


@dataclass(frozen=True, slots=True)
class Scored:
    """One way over all years of a stream. Points."""

    first: float
    after: float
    error: float
    worst_third: float
    loss: float


def measure() -> Iterator[Ratio]:
    for stream in STREAMS:
        scores = {way().name: scored(stream, way) for way in WAYS}
        usual = scores[AlarmAndFactor.name].loss
        for name, one in scores.items():
            print(f"   {stream.name:24} {words(name, one, usual)}", flush=True)
        kept = scores[KEPT]
        yield Ratio(
            f"kept less stated after {FIRST}, {stream.name}", abs(kept.after), "allowed", 2, "points", 1
        )
        yield Ratio(f"worst third of sizes, {stream.name}", kept.worst_third, "allowed", 4, "points", 1)
        if stream.is_right:
            yield Ratio(f"pinball of the 90 % lead, {stream.name}", kept.loss, "before", usual, "min", 1.05)


def words(name: str, one: Scored, usual: float) -> str:
    figures = (
        f"first {one.first:+5.1f}  after {one.after:+5.1f} ± {one.error:3.1f}  third {one.worst_third:4.1f}"
    )
    return f"{name:38} {figures}  pinball {one.loss / usual:4.2f}"


def scored(
    stream: Stream, way: Callable[[], Recalibrator], years: int = YEARS, count: int = ORDERS
) -> Scored:
    lived = [list(told(stream.orders(seed, count), way())) for seed in range(years)]
    first = [one for year in lived for one in year[:FIRST]]
    after = [year[FIRST:] for year in lived]
    by_year = np.array([_off(year) for year in after])
    every = [one for year in after for one in year]
    ends = np.quantile([one.tapes for one in every], (1 / 3, 2 / 3))
    thirds = [[one for one in every if np.searchsorted(ends, one.tapes) == third] for third in range(3)]
    return Scored(
        first=_off(first),
        after=_off(every),
        error=float(by_year.std(ddof=1) / np.sqrt(years)),
        worst_third=max(abs(_off(third)) for third in thirds),
        loss=float(np.mean([one.loss for one in every])),
    )


def told(orders: Iterator[Order], way: Recalibrator) -> Iterator[Told]:
    """What a way says of each order, told of the others as their days are over."""
    due: list[tuple[float, int, Judged]] = []
    past: list[Judged] = []
    for number, order in enumerate(orders):
        if any(_tell(due, past, way, order.made)):
            way.renew([one.seen_at(order.made) for one in past])
        judged = _promise(order, way)
        heappush(due, (order.made + judged.allowed, number, judged))
        p90 = GRID[min(int(np.searchsorted(way.chances(order, GRID * order.leads[-1]), LEVEL)), 299)]
        loss = pinball(LEVEL, float(p90 * order.leads[-1]), order.lead)
        yield Told(judged.stated, not judged.is_late, order.tapes, loss)


def _tell(
    due: list[tuple[float, int, Judged]], past: list[Judged], way: Recalibrator, now: float
) -> list[bool]:
    told = []
    while due and due[0][0] <= now:
        judged = heappop(due)[2].seen_at(now)
        past.append(judged)
        way.learn(judged)
        told.append(True)
    return told


def _promise(order: Order, way: Recalibrator) -> Judged:
    """The first day that is good enough, or the last that is looked at."""
    ends = order.closings
    by = way.chances(order, ends)
    place, even = (
        min(int(np.argmax(by >= level)) if by.max() >= level else len(by) - 1, len(by) - 1)
        for level in (LEVEL, 0.5)
    )
    even_day = float(ends[even]), float(by[even])
    return Judged(order, float(by[place]), float(ends[place]), even_day, way.about(order))


def _off(some: Sequence[Told]) -> float:
    return 100 * float(np.mean([one.kept - one.stated for one in some])) if some else 0.0
