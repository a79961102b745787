"""Twenty dots say what the chance says."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from core.model.promise_records import Chance, Promise
from core.papers.typesetting.date_dots import days
from core.papers.voice import voice
from tests.support import invented_job as records

MONDAY = date(2026, 3, 2)


def promise(*by: float, day: int) -> Promise:
    chances = tuple(Chance(MONDAY + timedelta(days=n), chance) for n, chance in enumerate(by))
    return replace(records.promise(), day=MONDAY + timedelta(days=day), stated=by[day], chances=chances)


def test_no_day_has_no_dots() -> None:
    undated = replace(records.promise(), day=None)
    assert days(undated, voice(records.FRONT), 200) is None


@pytest.mark.parametrize("by", [(1.0,), (0.0, 1.0), tuple(n / 60 for n in range(61))])
def test_short_and_long_waits_both_fit(by: tuple[float, ...]) -> None:
    drawn = days(promise(*by, day=len(by) - 1), voice(records.FRONT), 200)
    assert drawn is not None
    assert sum(dots for _, dots in drawn.days) == 20
    assert drawn.height < 90


@pytest.mark.parametrize("by", [(1.0,), (0.0, 0.93, 1.0), (0.3, 0.9), (0.0, 0.91)])
def test_as_many_full_dots_are_drawn_as_the_paper_says_times(by: tuple[float, ...]) -> None:
    made = promise(*by, day=min(1, len(by) - 1))
    said = voice(records.FRONT)
    drawn = days(made, said, 200)
    assert drawn is not None
    full = sum(dots for day, dots in drawn.days if day <= drawn.promised)
    assert said.chance(made).startswith(f"{full} chance")
