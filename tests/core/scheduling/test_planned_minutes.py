"""The minutes a tape is planned with, against what is drawn of it."""

from __future__ import annotations

import numpy as np
import pytest

from core.model import common_random_numbers
from core.model.ranges import Range, exactly
from core.scheduling.plan_records import estimate


@pytest.mark.parametrize("minutes", [Range(60, 100, 180), Range(20, 115, 240), Range(31, 32, 120)])
def test_seven_plays_of_ten_are_over_by_the_minutes_they_are_planned_with(minutes: Range) -> None:
    """A quantile holds its share of what is drawn; a minute is all that rounding up may add."""
    evenly = ((np.arange(1000) + 0.5) / 1000).reshape(1, -1)
    drawn = common_random_numbers.minutes([minutes], evenly)

    assert np.mean(drawn <= estimate(minutes)) >= 0.70
    assert np.mean(drawn <= estimate(minutes) - 1) < 0.70


def test_the_planned_minutes_are_whole_and_those_of_a_known_tape_its_own() -> None:
    """Between the 50th (100) and the 90th percentile (180) a straight line: 140 at the 70th."""
    assert estimate(Range(60, 100, 180)) == 140
    assert estimate(exactly(90)) == 90
    assert estimate(exactly(90.2)) == 91
