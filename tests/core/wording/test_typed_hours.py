"""Opening hours as people type them, understood in one way or not at all."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.wording import messages, typed_hours

NINE, NOON, SIX = 9 * 60, 12 * 60, 18 * 60


@pytest.fixture(autouse=True)
def _speak_american_again() -> Iterator[None]:
    yield
    messages.use("en")


@pytest.mark.parametrize(
    ("typed", "spans"),
    [
        ("9-18", [(NINE, SIX)]),
        ("9am-6pm", [(NINE, SIX)]),
        ("9 AM – 6 PM", [(NINE, SIX)]),
        ("9 a.m. to 6 p.m.", [(NINE, SIX)]),
        ("9-6pm", [(NINE, SIX)]),  # nine in the evening is later than six: one reading is left
        ("09.00-18.00 Uhr", [(NINE, SIX)]),
        ("9h-18h", [(NINE, SIX)]),
        ("9-12:30, 13:30-18", [(NINE, NOON + 30), (NOON + 90, SIX)]),
        ("13:30-18; 9-12:30", [(NINE, NOON + 30), (NOON + 90, SIX)]),
        ("10am-12", [(600, NOON)]),
        ("6pm-12am", [(SIX, 1440)]),
        ("18-24", [(SIX, 1440)]),
        ("closed", []),
        ("", []),
        ("-", []),
    ],
)
def test_hours_are_understood(typed: str, spans: list[tuple[int, int]]) -> None:
    assert typed_hours.spans_of(typed) == tuple(spans)


@pytest.mark.parametrize(
    "typed",
    ["9-6", "1-6pm", "9", "18-9", "9-25", "9:75-18", "13pm-6pm", "9-12, 11-15", "9-12,", "soon", "9-9"],
)
def test_what_is_no_time_or_reads_in_two_ways_is_not(typed: str) -> None:
    assert typed_hours.spans_of(typed) is None


@given(
    st.lists(st.integers(0, 1440), min_size=2, max_size=4, unique=True).filter(
        lambda found: len(found) % 2 == 0
    ),
    st.sampled_from(["en", "en-GB", "en-DE", "de", "fr", "es", "ja", "hi", "ar", "fi", "xx"]),
)
def test_what_is_shown_reads_back_in_every_locale(minutes: list[int], language: str) -> None:
    messages.use(language)
    in_order = sorted(minutes)
    spans = tuple(zip(in_order[::2], in_order[1::2], strict=True))
    assert typed_hours.spans_of(typed_hours.typed_spans(spans)) == spans
    assert typed_hours.spans_of(typed_hours.typed_spans(())) == ()


def test_hours_are_shown_as_the_locale_has_them() -> None:
    spans = ((NINE, NOON + 30),)
    assert typed_hours.typed_spans(spans) == "9:00 AM–12:30 PM"
    messages.use("en-GB")
    assert typed_hours.typed_spans(spans) == "09:00–12:30"
