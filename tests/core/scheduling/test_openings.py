"""Work is added to moments of a calendar, rests overnight, and never passes beyond the last day."""

from __future__ import annotations

from datetime import date

import numpy as np

from core.scheduling import opening_hours
from core.scheduling.opening_calendar import NEVER, Openings
from tests.support.shops import fittings

CALENDAR = opening_hours.calendar(fittings(), date(2026, 3, 2), 2)
OPENINGS = Openings(CALENDAR, 60.0)
NINE, SIX, TOMORROW = 540.0, 1080.0, 1440.0


def handled(end: float, handling: float) -> float:
    moment = np.array([end])
    return float(OPENINGS.handled(moment, OPENINGS.closing(np.zeros(1)), handling)[0][0])


def test_a_tape_that_ends_in_an_opening_is_handled_at_once() -> None:
    assert handled(NINE + 10, 5.0) == NINE + 15


def test_a_tape_that_ends_at_night_is_handled_in_the_morning() -> None:
    assert handled(SIX + 30, 5.0) == TOMORROW + NINE + 5


def test_what_is_left_at_closing_is_done_on_the_next_day() -> None:
    assert handled(SIX - 3, 5.0) == TOMORROW + NINE + 2
    assert float(OPENINGS.advanced(np.array([SIX - 3]), np.array([5.0]))[0]) == TOMORROW + NINE + 2


def test_nothing_is_later_than_never() -> None:
    assert handled(10 * TOMORROW, 5.0) == NEVER
    assert handled(NEVER, 5.0) == NEVER
    assert float(OPENINGS.rise(np.array([10 * TOMORROW]))[0]) == NEVER
