"""When a deck is due."""

from __future__ import annotations

import pytest

from core.catalogue import deck_service


def test_a_deck_at_six_hours_a_day_is_cleaned_four_times_a_year() -> None:
    """Every 500 h: PALsite maintenance (trade)."""
    assert deck_service.years_until(deck_service.CLEAN.hours, 6) == pytest.approx(0.228, abs=0.001)


def test_twice_the_running_halves_the_time() -> None:
    assert deck_service.years_until(1000, 2) == deck_service.years_until(1000, 1) / 2
