"""A chance is said the same way everywhere, and nothing is ever certain."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.model.promise_records import Chance
from core.papers.voice import voice
from core.promise import chances
from gui.toolkit import text
from tests.support import invented_job as records


@pytest.mark.parametrize(
    ("chance", "times"), [(0.95, 19), (0.9499, 18), (1.0, 19), (0.9, 18), (0.049, 0), (0.0, 0), (-1e-12, 0)]
)
def test_a_chance_is_rounded_down_and_never_certain(chance: float, times: int) -> None:
    assert chances.times_in_twenty(chance) == times


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (1.0, "19 chances in 20"),
        (0.93, "18 chances in 20"),
        (0.5, "10 chances in 20"),
        (0.05, "1 chance in 20"),
        (0.02, "less than 1 chance in 20"),
        (0.0, "less than 1 chance in 20"),
    ],
)
def test_a_chance_in_words(chance: float, words: str) -> None:
    assert chances.words(chance) == words


@pytest.mark.parametrize("chance", [0.9, 0.93, 0.949, 0.95, 0.9999, 1.0])
def test_screen_and_paper_say_the_same(chance: float) -> None:
    paper = voice(records.FRONT).chance(replace(records.promise(), stated=chance))
    assert text.times_in_twenty(chance) in paper


@given(st.lists(st.floats(0, 1), min_size=1, max_size=40).map(sorted), st.data())
def test_as_many_dots_stand_up_to_the_promised_day_as_are_said(by: list[float], data: st.DataObject) -> None:
    place = data.draw(st.integers(0, len(by) - 1))
    begin = records.promise().made_at.date()
    curve = tuple(Chance(begin + timedelta(days=n), chance) for n, chance in enumerate(by))
    made = replace(records.promise(), day=curve[place].day, stated=by[place], chances=curve)
    dots = chances.days_of_dots(made)
    dated = [day for day in dots if day is not None]
    assert len(dots) == 20
    assert list(dots) == sorted(dated) + [None] * (20 - len(dated))
    assert sum(day <= curve[place].day for day in dated) == chances.times_in_twenty(by[place])
