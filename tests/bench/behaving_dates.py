"""Dates of many random shops with one thing changed: how often a date, or the chance of a day, moves wrongly.

Anomalies of list scheduling (Graham 1969) are the rule's own: they are counted, told and bounded. A date that
moves the wrong way more often than in one shop of a hundred, or a chance that falls from day to day, is a
fault.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from hypothesis import HealthCheck, Phase, given, seed, settings

from tests.bench.ratio import Ratio
from tests.support.worlds import random_shops
from tests.support.worlds.random_shops import CHANGES, Asked

SHOPS = 300
SEED = 20261130
AT_MOST = 0.01
NOTICED = 0.01
"""A chance that moved by less is the noise of a few scenarios of a thousand."""


def measure() -> Iterator[Ratio]:
    wrong, moved, falling = counted(SHOPS, SEED)
    yield Ratio("chances that fall from one day to the next", falling, "shops", SHOPS, "", 0.0)
    for change in CHANGES:
        off = moved[change.words]
        often = sum(each > NOTICED for each in off)
        told = (
            f"{change.words}: dates moved the wrong way; chances of {often} shops, by {max(off):.3f} at most"
        )
        yield Ratio(told, wrong[change.words], "shops", SHOPS, "", AT_MOST)


def counted(shops: int, dice: int) -> tuple[dict[str, int], dict[str, list[float]], int]:
    """By change how many dates moved wrongly and by how much chances did; how many curves fall."""
    wrong: dict[str, int] = defaultdict(int)
    moved: dict[str, list[float]] = defaultdict(list)
    falling = [0]

    @seed(dice)
    @settings(
        max_examples=shops,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(random_shops.asked())
    def look(one: Asked) -> None:
        made = one.answer()
        falling[0] += bool(list(random_shops.falls(made)))
        for change in CHANGES:
            other = change.make(one).answer()
            wrong[change.words] += not change.behaves(made, other)
            moved[change.words].append(change.anomaly(made, other))

    look()
    return wrong, moved, falling[0]
