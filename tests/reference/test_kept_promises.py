"""Stated chances come true in years that were lived without the program.

A small version of the measurement `turnaround`: two short years a kind, some 150 promises. By luck alone the
share that is kept strays by two or three points, so six are allowed here; the measurement pools twelve
long years and allows one and a half. That six still tells right from wrong is shown by the last test.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.records import Expected
from tests.bench.turnaround_years import apart
from tests.support.kept_promises import ALL_TOGETHER, RIGHT, Given, World, year

ALLOWED = 6.0


def lived(world: World) -> list[list[Given]]:
    return [year(world, seed, days=130, every=3) for seed in (3, 4)]


@pytest.mark.parametrize("world", [RIGHT, ALL_TOGETHER], ids=["as believed", "all troubles together"])
def test_promises_are_kept_as_often_as_was_stated(world: World) -> None:
    given = lived(world)
    off, _ = apart(given)
    assert sum(len(each) for each in given) > 60
    assert abs(off) < ALLOWED


def test_whoever_reckons_with_no_trouble_promises_too_much() -> None:
    off, _ = apart(lived(replace(ALL_TOGETHER, expected=Expected())))
    assert off < -ALLOWED
