"""The axis of the deck week, with a pen whose letters are all ten pixels wide."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest

from gui.shop.deck_week_axis import AxisSegment, date_that_fits, hour_ticks

NINE = datetime(2026, 3, 3, 9, tzinfo=UTC)
FIVE = NINE + timedelta(hours=8)


def width_of(words: str) -> float:
    return 10.0 * len(words)


def opening(wide: float) -> AxisSegment:
    return AxisSegment(NINE, FIVE, FIVE, 100.0, wide)


@pytest.mark.parametrize(
    ("wide", "shown"), [(110.0, "Tue, Mar 3"), (60.0, "3 Tue"), (30.0, "Tue"), (9.0, "")]
)
def test_the_longest_form_of_the_date_that_fits_is_written_whole(wide: float, shown: str) -> None:
    assert date_that_fits(opening(wide), width_of) == shown


@pytest.mark.parametrize("wide", [60.0, 130.0, 400.0, 900.0])
def test_no_hour_is_written_over_another_or_past_the_opening(wide: float) -> None:
    ticks = hour_ticks(opening(wide), width_of, 6.0)
    assert len(ticks) == 9
    written = [tick for tick in ticks if tick.words]
    assert written[0].words == "9a"
    assert all(before.x + width_of(before.words) < after.x for before, after in pairwise(written))
    assert written[-1].x + width_of(written[-1].words) <= 100.0 + wide + 6.0


def test_every_hour_is_written_where_there_is_room() -> None:
    words = [tick.words for tick in hour_ticks(opening(900.0), width_of, 6.0)]
    assert words == ["9a", "10a", "11a", "12p", "1p", "2p", "3p", "4p", ""]
