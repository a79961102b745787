"""Stated chances come true in years that were lived without the program.

A small version of the measurement `turnaround`: four short years a kind, some 100 promises. By luck alone the
share that is kept strays by two to four points, so six are allowed here; the measurement pools twelve
long years and allows one and a half. That this tells right from wrong is shown by the last test: asked in the
same years, which have their luck in common, a program that reckons with nothing falls behind by half of that.
"""

from __future__ import annotations

import pytest

from tests.bench.turnaround_years import apart
from tests.support.worlds.kept_promises import ALL_TOGETHER, BUSY, RIGHT, Given, Way, World, lived

ALLOWED = 6.0


def promised(world: World, *ways: Way) -> list[list[list[Given]]]:
    """By program and year."""
    years = [lived(world, seed, ways, days=130, every=6) for seed in (3, 4, 5, 6)]
    return [[year.given[way] for year in years] for way in ways]


@pytest.fixture(scope="module")
def busy() -> dict[Way, list[list[Given]]]:
    """All troubles in a busy shop, asked of a program that reckons with them and of one that does not."""
    ways = (Way.AS_IT_IS, Way.HEEDLESS)
    return dict(zip(ways, promised(BUSY, *ways), strict=True))


@pytest.mark.parametrize(
    ("world", "way"),
    [(RIGHT, Way.AS_IT_IS), (ALL_TOGETHER, Way.COUNTING)],
    ids=["as believed", "all troubles, and nobody stated them"],
)
def test_promises_are_kept_as_often_as_was_stated(world: World, way: Way) -> None:
    (given,) = promised(world, way)
    expect_kept_as_stated(given)


def test_promises_are_kept_as_often_as_was_stated_in_a_busy_shop(
    busy: dict[Way, list[list[Given]]],
) -> None:
    expect_kept_as_stated(busy[Way.AS_IT_IS])


def expect_kept_as_stated(given: list[list[Given]]) -> None:
    off, _ = apart(given)
    assert sum(len(each) for each in given) > 60
    assert abs(off) < ALLOWED


def test_whoever_reckons_with_no_trouble_promises_too_much(busy: dict[Way, list[list[Given]]]) -> None:
    heedless, wary = (apart(busy[way])[0] for way in (Way.HEEDLESS, Way.AS_IT_IS))
    assert heedless < wary - ALLOWED / 2
    assert heedless < 0
