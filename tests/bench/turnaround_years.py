"""Stated chances against what came of them in simulated years, pooled, the year being the unit of luck.

Promises of neighbouring days share a queue and so their luck: a single year says little, and the standard
error is that of the years and not of the promises.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from core.reliability import pinball
from tests.bench.ratio import Ratio
from tests.support.kept_promises import ALL_TOGETHER, RIGHT, Given, year

YEARS = 12
EVERY = 3
"""Of so many boxes one is asked for, to save time."""
SEED = 1_000
LEVEL = 0.9


def years(count: int = YEARS) -> Iterator[Ratio]:
    for world, words, allowed in (
        (RIGHT, "model right", 1.5),
        (ALL_TOGETHER, "rush, breakdowns, closures and slow boxes", 2.5),
    ):
        lived = [given for given in (year(world, SEED + n, every=EVERY) for n in range(count)) if given]
        off, error = apart(lived)
        promises = sum(len(given) for given in lived)
        what = (
            f"kept less stated {off:+.2f} ± {error:.2f} points, {promises} promises of {count} years, {words}"
        )
        yield Ratio(what, abs(off), "allowed", allowed, "points", 1.0)
        yield from _sharpness(lived, words)


def apart(lived: Sequence[Sequence[Given]]) -> tuple[float, float]:
    """Kept less stated in points over all years, and its standard error by years."""
    weights = np.array([len(given) for given in lived], dtype=float)
    by_year = np.array([100 * np.mean([one.kept - one.stated for one in given]) for given in lived])
    pooled = float(np.average(by_year, weights=weights))
    spread = weights * (by_year - pooled) / weights.sum()
    return pooled, float(np.sqrt((spread**2).sum() * len(lived) / max(1, len(lived) - 1)))


def _sharpness(lived: Sequence[Sequence[Given]], words: str) -> Iterator[Ratio]:
    """The 90 % lead of the program against 90 % of the last leads, and of leads per hour of work ahead."""
    ours, by_work, constant = [], [], []
    for given in lived:
        finished: list[Given] = []
        for one in given:
            known = [each for each in finished if each.came + each.lead <= one.came][-120:]
            if len(known) >= 20 and one.p90 is not None:
                share = np.quantile([each.lead / each.ahead for each in known], LEVEL)
                lead = np.quantile([each.lead for each in known], LEVEL)
                ours.append(pinball(LEVEL, one.p90, one.lead))
                by_work.append(pinball(LEVEL, float(share) * one.ahead, one.lead))
                constant.append(pinball(LEVEL, float(lead), one.lead))
            finished.append(one)
    mean = float(np.mean(ours))
    yield Ratio(f"pinball of the 90 % lead, {words}", mean, "work ahead", float(np.mean(by_work)), "d", 1 / 3)
    yield Ratio(
        f"pinball of the 90 % lead, {words}", mean, "same lead for all", float(np.mean(constant)), "d"
    )
