"""Stated chances against what came of them in simulated years, pooled, the year being the unit of luck.

Promises of neighbouring days share a queue and so their luck: a single year says little, and the standard
error is that of the years and not of the promises.

Where troubles come, the loss of the 90 % lead stays above a third of that of the work-ahead rule, in a quiet
shop and in a busy one. Beside it stands the loss of the same program told how long every tape plays: not even
that is a third, for most of what is left are rush boxes, repairs and shut days to come. A program that knew
the law by which households record, and not the lengths, would lose about 5 % less (derived: five years each).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from core.promise.reliability import pinball
from tests.bench.ratio import Ratio
from tests.support.worlds.kept_promises import (
    ALL_TOGETHER,
    BUSY,
    RIGHT,
    Came,
    Given,
    Lived,
    Way,
    World,
    lived,
)

YEARS = 12
EVERY = 5
"""Of so many boxes one is asked for, to save time."""
SEED = 1_000
LEVEL = 0.9
KNOWN = 20
"""Boxes that must have come to an end before a rule of thumb can be read off them."""
NEWEST = 120
Rule = Callable[[Given, Sequence[Came]], float]


def years(count: int = YEARS) -> Iterator[Ratio]:
    """Calibration and sharpness in three kinds of year, each lived ``count`` times."""
    yield from _of(RIGHT, "model right", 1.5, (Way.AS_IT_IS, Way.TOLD), count)
    troubles, ways = "rush, breakdowns, closures and slow boxes", (Way.AS_IT_IS, Way.COUNTING, Way.TOLD)
    yield from _of(ALL_TOGETHER, f"{troubles}, quiet", 2.5, ways, count)
    yield from _of(BUSY, f"{troubles}, busy", 2.5, ways, count)


def apart(years: Sequence[Sequence[Given]]) -> tuple[float, float]:
    """Kept less stated in points over all years, and its standard error by years."""
    weights = np.array([len(given) for given in years], dtype=float)
    by_year = np.array([100 * np.mean([one.kept - one.stated for one in given]) for given in years])
    pooled = float(np.average(by_year, weights=weights))
    spread = weights * (by_year - pooled) / weights.sum()
    return pooled, float(np.sqrt((spread**2).sum() * len(years) / max(1, len(years) - 1)))


def _of(world: World, words: str, allowed: float, ways: Sequence[Way], count: int) -> Iterator[Ratio]:
    found = [lived(world, SEED + n, ways, every=EVERY) for n in range(count)]
    used = f"decks {100 * np.mean([each.used for each in found]):.0f} % used"
    for way in ways:
        if way is not Way.TOLD:
            yield _calibration(_given(found, way), f"{words}, {used}, {way.value}", count, allowed)
    yield from _sharpness(found, f"{words}, {used}", ways)


def _given(found: Sequence[Lived], way: Way) -> list[list[Given]]:
    return [each.given[way] for each in found if each.given[way]]


def _calibration(years: Sequence[Sequence[Given]], words: str, count: int, allowed: float) -> Ratio:
    off, error = apart(years)
    promises = sum(len(given) for given in years)
    what = f"kept less stated {off:+.2f} ± {error:.2f} points, {promises} promises of {count} years, {words}"
    return Ratio(what, abs(off), "allowed", allowed, "points", 1.0)


def _sharpness(found: Sequence[Lived], words: str, ways: Sequence[Way]) -> Iterator[Ratio]:
    """The 90 % lead of each program against 90 % of the last leads, and of leads per hour of work ahead."""
    by_work, constant = (_loss(found, Way.AS_IT_IS, rule) for rule in (_by_work, _same_for_all))
    for way in ways:
        loss, target = _loss(found, way, _by_program), 1 / 3 if way is Way.AS_IT_IS else None
        what = f"pinball of the 90 % lead, {words}, {way.value}"
        yield Ratio(what, loss, "work ahead", by_work, "d", target)
        if way is Way.AS_IT_IS:
            yield Ratio(what, loss, "same lead for all", constant, "d")


def _loss(found: Sequence[Lived], way: Way, rule: Rule) -> float:
    """Mean pinball loss in days, of the promises that a rule of thumb could have given too."""
    losses = []
    for year in found:
        for one in year.given[way]:
            known = [box for box in year.boxes if box.came + box.lead <= one.came][-NEWEST:]
            if len(known) >= KNOWN:
                losses.append(pinball(LEVEL, rule(one, known), one.lead))
    return float(np.mean(losses))


def _by_program(one: Given, known: Sequence[Came]) -> float:
    return one.p90


def _by_work(one: Given, known: Sequence[Came]) -> float:
    return one.ahead * float(np.quantile([box.lead / box.ahead for box in known], LEVEL))


def _same_for_all(one: Given, known: Sequence[Came]) -> float:
    return float(np.quantile([box.lead for box in known], LEVEL))
