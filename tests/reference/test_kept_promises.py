"""Stated chances come true in years that were lived without the program.

A small version of the measurement `turnaround`: four short years a kind, some 100 promises. By luck alone the
share that is kept strays by two to four points, so six are allowed here; the measurement pools twelve
long years and allows one and a half. That this tells right from wrong is shown by the last test: asked in the
same years, which have their luck in common, a program that reckons with nothing falls behind by half of that.
"""

from __future__ import annotations

import pytest

from tests.bench.turnaround_years import apart
from tests.support.kept_promises import ALL_TOGETHER, BUSY, RIGHT, Given, Way, World, lived

ALLOWED = 6.0


def promised(world: World, *ways: Way) -> list[list[list[Given]]]:
    """By program and year."""
    years = [lived(world, seed, ways, days=130, every=6) for seed in (3, 4, 5, 6)]
    return [[year.given[way] for year in years] for way in ways]


@pytest.mark.parametrize(
    ("world", "way"),
    [(RIGHT, Way.AS_IT_IS), (ALL_TOGETHER, Way.COUNTING), (BUSY, Way.AS_IT_IS)],
    ids=["as believed", "all troubles, and nobody stated them", "all troubles in a busy shop"],
)
def test_promises_are_kept_as_often_as_was_stated(world: World, way: Way) -> None:
    (given,) = promised(world, way)
    off, _ = apart(given)
    assert sum(len(each) for each in given) > 60
    assert abs(off) < ALLOWED


def test_whoever_reckons_with_no_trouble_promises_too_much() -> None:
    heedless, wary = (apart(given)[0] for given in promised(BUSY, Way.HEEDLESS, Way.AS_IT_IS))
    assert heedless < wary - ALLOWED / 2
    assert heedless < 0
