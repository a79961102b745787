"""Arithmetic of spans of time."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.capture.time_spans import Span, both, longer, merged, total, without

spans = st.lists(
    st.tuples(st.integers(0, 50), st.integers(1, 20)).map(lambda two: (float(two[0]), float(sum(two)))),
    max_size=6,
).map(merged)


def test_spans_that_touch_become_one() -> None:
    assert merged([(4, 6), (0, 2), (2, 3)]) == [(0, 3), (4, 6)]
    assert merged([(0, 2), (2.4, 3)], gap=0.5) == [(0, 3)]


def test_a_short_span_inside_a_long_one_does_not_shorten_it() -> None:
    assert merged([(0, 10), (2, 3)]) == [(0, 10)]


def test_what_is_taken_away_leaves_the_pieces_beside_it() -> None:
    assert without([(0, 10)], [(2, 3), (8, 12)]) == [(0, 2), (3, 8)]


@given(spans, spans)
def test_what_meets_and_what_is_left_add_up_to_the_whole(one: list[Span], other: list[Span]) -> None:
    assert total(both(one, other)) + total(without(one, other)) == pytest.approx(total(one))


@given(spans, spans)
def test_meeting_is_the_same_both_ways(one: list[Span], other: list[Span]) -> None:
    assert both(one, other) == both(other, one)


def test_a_span_as_long_as_asked_counts() -> None:
    assert longer([(0, 2), (3, 4.9)], 2) == [(0, 2)]
