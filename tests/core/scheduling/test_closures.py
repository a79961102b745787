"""Days unplanned shut are taken out of the row of openings, in each scenario others."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import pairwise

import numpy as np
import pytest

from core.scheduling import opening_hours
from core.scheduling.closures import Closures
from tests.support.shops import FRONT, fittings

UTC = replace(FRONT, timezone="UTC")
CALENDAR = opening_hours.calendar(fittings(front=UTC), date(2026, 3, 2), 60)


def test_today_is_never_shut() -> None:
    at = np.full(5_000, 600.0)
    assert (Closures(CALENDAR, 0, 0.5, 1, 5_000).told(at) == at).all()


def test_the_next_day_moves_as_often_as_shops_stay_shut() -> None:
    """Tuesday's work is Wednesday's in one of four scenarios, Thursday's in one of sixteen, and so on."""
    told = Closures(CALENDAR, 0, 0.25, 1, 40_000).told(np.full(40_000, 1440 + 600.0))
    days = (told - 600.0) / 1440
    assert np.mean(days == 1) == pytest.approx(0.75, abs=0.01)
    assert np.mean(days == 2) == pytest.approx(0.1875, abs=0.01)
    assert set(np.unique(days)) >= {1.0, 2.0, 3.0, 4.0, 7.0}


def test_the_hour_of_the_day_stays_and_order_is_kept() -> None:
    shut = Closures(CALENDAR, 0, 0.2, 1, 300)
    days = [shut.told(np.full(300, day * 1440 + 700.0)) for day in (1, 2, 3, 4, 7)]
    assert all(((at % 1440) == 700).all() for at in days)
    assert all((later > sooner).all() for sooner, later in pairwise(days))


def test_work_that_has_no_day_left_never_ends() -> None:
    last = float(CALENDAR.closes[-1])
    told = Closures(CALENDAR, 0, 0.3, 1, 500).told(np.full(500, last))
    assert np.isinf(told).mean() > 0.9
    assert (Closures(CALENDAR, 0, 0.3, 1, 3).told(np.full(3, np.inf)) == np.inf).all()
