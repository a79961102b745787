"""When decks are free: tapes are taken in order, and nobody looks at a length before it has played."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from core.model.own_shop.opening_records import OpeningHours
from core.scheduling import opening_hours
from core.scheduling.play_hours import Gate, PlayHours
from core.scheduling.simulated_shop import DeckTimelines
from tests.support.shops import fittings
from tests.support.worlds import plain_decks
from tests.support.worlds.plain_decks import finishes

MONDAY = date(2026, 3, 2)
NINE, SIX = 540.0, 1080.0
TOMORROW = 1440.0


def timelines(
    decks: int = 1, scenarios: int = 1, past_closing: float = 60.0, free: float = NINE
) -> DeckTimelines:
    calendar = opening_hours.calendar(fittings(), MONDAY, 14)
    return DeckTimelines(PlayHours(calendar, past_closing), np.full((decks, scenarios), free))


def play(
    on: DeckTimelines, minutes: float, *, estimate: float | None = None, decks: tuple[int, ...] = (0,)
) -> float:
    length = np.full(on.free.shape[1], minutes)
    planned = minutes if estimate is None else estimate
    ends = plain_decks.play(on, decks, length, estimate=planned, handling=5.0)
    return float(ends[0])


def test_a_tape_ends_its_own_length_after_its_start() -> None:
    assert play(timelines(), 62.0) == NINE + 62.0


def test_the_deck_is_free_again_when_somebody_has_changed_the_tape() -> None:
    decks = timelines()
    play(decks, 62.0)
    assert decks.free[0, 0] == NINE + 67.0


def test_a_tape_that_runs_on_after_closing_is_changed_the_next_morning() -> None:
    decks = timelines(free=SIX - 60)
    assert play(decks, 120.0) == SIX + 60
    assert decks.free[0, 0] == TOMORROW + NINE + 5.0


def test_a_tape_that_would_run_too_long_after_closing_waits_for_the_morning() -> None:
    assert play(timelines(free=SIX - 60), 121.0) == TOMORROW + NINE + 121.0


def test_nobody_starts_a_tape_after_closing_however_short_it_is() -> None:
    assert play(timelines(free=SIX + 1), 10.0) == TOMORROW + NINE + 10.0


def test_a_start_is_chosen_by_the_estimate_and_never_by_the_length_drawn() -> None:
    decks = timelines(scenarios=2, free=SIX - 90)
    lengths = np.array([20.0, 700.0])
    ends = plain_decks.play(decks, (0,), lengths, estimate=100.0)
    assert (ends - lengths).tolist() == [SIX - 90, SIX - 90]


def test_a_tape_longer_than_any_opening_starts_at_opening() -> None:
    decks = timelines(free=600.0)
    assert decks.hours.gate(700.0).overlong
    assert play(decks, 700.0) == TOMORROW + NINE + 700.0


def test_a_tape_that_fits_the_long_days_only_waits_for_one() -> None:
    short_and_long = (OpeningHours(0, 540, 600), OpeningHours(2, 540, 1080))
    calendar = opening_hours.calendar(fittings(openings=short_and_long), MONDAY, 7)
    found = Gate(calendar, 300.0, 0.0)
    assert not found.overlong
    assert found.start(np.array([540.0])).tolist() == [2 * 1440 + 540.0]


def test_the_deck_that_can_start_first_is_taken_and_the_first_in_order_when_equal() -> None:
    decks = timelines(decks=3)
    decks.free[:, 0] = [700.0, 600.0, 600.0]
    play(decks, 60.0, decks=(0, 2, 1))
    assert decks.free[:, 0].tolist() == [700.0, 665.0, 600.0]


def test_decks_whose_tapes_ended_at_different_hours_of_the_night_are_equal_in_the_morning() -> None:
    decks = timelines(decks=2, free=SIX - 60)
    play(decks, 90.0, decks=(0, 1))
    play(decks, 120.0, decks=(1,))
    play(decks, 60.0, decks=(0, 1))
    assert decks.free[:, 0].tolist() == [TOMORROW + NINE + 70.0, TOMORROW + NINE + 5.0]


def test_of_decks_that_must_wait_for_the_morning_the_one_free_first_is_taken() -> None:
    decks = timelines(decks=2)
    decks.free[:, 0] = [SIX - 10, SIX - 20]
    play(decks, 120.0, decks=(0, 1))
    assert decks.free[:, 0].tolist() == [SIX - 10, TOMORROW + NINE + 125.0]


def test_beyond_the_calendar_nothing_ends() -> None:
    decks = timelines(free=14 * 1440.0)
    assert play(decks, 60.0) == np.inf
    assert play(decks, 60.0) == np.inf
    assert (
        Gate(opening_hours.calendar(fittings(openings=()), MONDAY, 14), 60.0, 0.0).start(np.zeros(1))[0]
        == np.inf
    )


def test_a_copy_fills_up_without_touching_the_first() -> None:
    decks = timelines()
    play(decks.copy(), 60.0)
    assert decks.free[0, 0] == NINE


def test_each_scenario_goes_its_own_way() -> None:
    decks = timelines(decks=2, scenarios=2)
    plain_decks.play(decks, (0, 1), np.array([10.0, 400.0]), estimate=60.0)
    plain_decks.play(decks, (0, 1), np.array([10.0, 10.0]), estimate=60.0)
    ends = plain_decks.play(decks, (0, 1), np.array([10.0, 10.0]), estimate=60.0)
    assert ends.tolist() == [NINE + 20, NINE + 20]


def test_plain_list_scheduling_without_a_clock() -> None:
    assert finishes([3, 2, 2], [(0, 1)] * 3, 2) == pytest.approx((3, 2, 4))
