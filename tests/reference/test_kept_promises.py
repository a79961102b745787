"""Stated chances come true in years that were lived without the program.

A small version of the measurement `turnaround`: two short years a kind, some 150 promises. By luck alone the
share that is kept strays by two or three points, so six are allowed here; the measurement pools twelve
long years and allows one and a half. That six still tells right from wrong is shown by the last test.
"""

from __future__ import annotations

import pytest

from tests.bench.turnaround_years import apart
from tests.support.kept_promises import ALL_TOGETHER, BUSY, RIGHT, Given, Way, World, lived

ALLOWED = 6.0


def promised(world: World, way: Way) -> list[list[Given]]:
    return [lived(world, seed, (way,), days=130, every=3).given[way] for seed in (3, 4)]


@pytest.mark.parametrize(
    ("world", "way"),
    [(RIGHT, Way.AS_IT_IS), (ALL_TOGETHER, Way.COUNTING), (BUSY, Way.AS_IT_IS)],
    ids=["as believed", "all troubles, and nobody stated them", "all troubles in a busy shop"],
)
def test_promises_are_kept_as_often_as_was_stated(world: World, way: Way) -> None:
    given = promised(world, way)
    off, _ = apart(given)
    assert sum(len(each) for each in given) > 60
    assert abs(off) < ALLOWED


def test_whoever_reckons_with_no_trouble_promises_too_much() -> None:
    off, _ = apart(promised(BUSY, Way.HEEDLESS))
    assert off < -ALLOWED
