"""Twenty dots say what the chance says."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.documents.dots import days, days_of_dots
from core.documents.voice import times_in_twenty, voice
from core.records import Chance, Promise
from tests.support import records

MONDAY = date(2026, 3, 2)


def promise(*by: float, day: int) -> Promise:
    chances = tuple(Chance(MONDAY + timedelta(days=n), chance) for n, chance in enumerate(by))
    return replace(records.promise(), day=MONDAY + timedelta(days=day), stated=by[day], chances=chances)


@given(st.lists(st.floats(0, 1), min_size=1, max_size=40).map(sorted), st.data())
def test_as_many_dots_stand_up_to_a_day_as_its_chance_rounded_down(
    by: list[float], data: st.DataObject
) -> None:
    day = data.draw(st.integers(0, len(by) - 1))
    promised = promise(*by, day=day)
    placed = days_of_dots(promised)
    assert len(placed) == 20
    assert list(placed) == sorted(placed)
    if day < len(by) - 1:
        kept = sum(shown <= promised.day for shown in placed if promised.day)
        assert kept == int(by[day] * 20 + 1e-9)


@pytest.mark.parametrize(("chance", "times"), [(0.95, 19), (0.9499, 18), (1.0, 19), (0.9, 18), (0.0, 0)])
def test_a_chance_is_rounded_down_and_never_certain(chance: float, times: int) -> None:
    assert times_in_twenty(chance) == times


def test_no_day_has_no_dots() -> None:
    undated = replace(records.promise(), day=None)
    assert days(undated, voice(records.FRONT), 200) is None


@pytest.mark.parametrize("by", [(1.0,), (0.0, 1.0), tuple(n / 60 for n in range(61))])
def test_short_and_long_waits_both_fit(by: tuple[float, ...]) -> None:
    drawn = days(promise(*by, day=len(by) - 1), voice(records.FRONT), 200)
    assert drawn is not None
    assert sum(dots for _, dots in drawn.days) == 20
    assert drawn.height < 90
