"""Rules of a plan that rest on a number, each by an example reckoned by hand."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from core.model.errors import WrongInput
from core.model.names import FormatName
from core.model.own_shop.handling_minutes import HandlingMinutes
from core.model.own_shop.settings_records import Expected
from core.model.ranges import exactly
from core.model.stations import Station
from core.playtime import possibilities
from core.scheduling import deck_choice, deck_week, initial_state, opening_hours, queued_tapes
from core.scheduling.capacity_bounds import binding
from core.scheduling.deck_choice import Suited
from core.scheduling.plan_records import Step, handling
from core.scheduling.play_hours import Gate
from tests.support.shops import TUESDAY, deck, fittings, queued

MONDAY = date(2026, 3, 2)
NINE, TOMORROW = 540.0, 1440.0
CALENDAR = opening_hours.calendar(fittings(), MONDAY, 5)
"""Open from nine to six: 540 minutes a day."""


def step(n: int, likely: float, bench: float = 0.0) -> Step:
    return Step(n, 1, Suited((0,), "VHS"), exactly(likely), bench)


# --- tapes longer than an opening --------------------------------------------------------


def test_a_tape_longer_than_any_opening_is_begun_in_the_half_hour_after_one() -> None:
    gate = Gate(CALENDAR, 900.0, 0.0)

    assert gate.overlong
    assert gate.start_of(NINE + 30) == NINE + 30
    assert gate.start_of(NINE + 31) == TOMORROW + NINE


@pytest.mark.parametrize(("minutes", "is_overlong"), [(525.0, False), (526.0, True)])
def test_a_quarter_of_an_hour_of_an_opening_goes_into_loading(minutes: float, is_overlong: bool) -> None:
    """540 minutes less 15."""
    assert Gate(CALENDAR, minutes, 0.0).overlong is is_overlong


def test_a_tape_that_should_be_over_has_five_minutes_and_then_a_person_comes() -> None:
    """Five until it ends, two to take it out, three to put the next one in: ten past nine."""
    playing = queued(1, station=Station.PLAYING, since=TUESDAY - timedelta(hours=5))
    shop = fittings(deck("VHS 1", "vhs"), people=1)

    runs = deck_week.week(shop, [playing, queued(2)], TUESDAY).timelines[0].runs

    assert runs[1].start == TUESDAY + timedelta(minutes=10)


# --- people ------------------------------------------------------------------------------


@pytest.mark.parametrize(("likely", "follows"), [(21.0, True), (22.0, False)])
def test_two_people_are_followed_where_they_are_busy_for_three_tenths(likely: float, follows: bool) -> None:
    """A tape takes 3 + 2 + 8 minutes by hand; three tenths of two people's time on one deck are 0.6 of what
    it plays: 12.6 of 21 minutes, 13.2 of 22."""
    shop = fittings(deck("VHS 1", "vhs"), people=2)

    assert queued_tapes.follows_people(shop, [], [step(n, likely) for n in range(4)]) is follows


@pytest.mark.parametrize(("count", "follows"), [(300, True), (301, False)])
def test_people_are_followed_up_to_three_hundred_tapes(count: int, follows: bool) -> None:
    shop = fittings(deck("VHS 1", "vhs"), people=1)

    assert queued_tapes.follows_people(shop, [queued(1)] * count, [step(1, 60)]) is follows


def test_in_a_longer_queue_a_deck_waits_nine_minutes_for_one_person_and_three_for_two() -> None:
    """Beside five minutes to unload and load; the waits were derived on a prototype."""
    assert [handling(HandlingMinutes(load=3, unload=2), people) for people in (1, 2, 3)] == [14, 8, 5]


def test_a_tape_is_looked_over_in_five_minutes_and_cleared_in_one_at_least() -> None:
    """Common practice, no source; and an assumption."""
    waiting = {station: queued(1, station=station) for station in Station if station.needs_the_bench}

    found = {
        station: queued_tapes.queued_step(tape, fittings(deck("VHS 1", "vhs")), CALENDAR).bench
        for station, tape in waiting.items()
    }

    assert found == {station: 5.0 if station is Station.BOOKED_IN else 1.0 for station in waiting}


# --- decks in demand, rush boxes ---------------------------------------------------------


@pytest.mark.parametrize(("kinds", "each"), [(10, 2000 / 3), (11, 500.0)])
def test_two_kinds_together_bind_among_ten_and_are_not_looked_for_among_more(kinds: int, each: float) -> None:
    """Decks 0, 1 and 2 have 2,000 minutes of their own; either kind by itself 1,000 on two decks."""
    scarce = {(0, 1): 1000.0, (0, 2): 1000.0}
    others = {(0, place): 1e-6 for place in range(3, 3 + kinds - len(scarce))}

    bound = binding({**scarce, **others}, (0,))

    assert bound is not None
    assert bound.each == pytest.approx(each)


def test_a_rush_tape_of_no_known_kind_plays_half_an_hour_to_two_hours() -> None:
    """30, 75 and 120 minutes at the 10th, 50th and 90th percentile (an assumption)."""
    shop = fittings(deck("VHS 1", "vhs"), expected=Expected(rush_boxes_a_week=8.0, tapes_in_a_rush_box=5.0))
    calendar = opening_hours.calendar(shop, TUESDAY.date())
    ways, begun = initial_state.prepared(shop, calendar, calendar.at(TUESDAY), 200)

    (found,) = initial_state.rush_to_come(shop, begun, ways, [])

    assert np.quantile(found.minutes, [0.1, 0.5, 0.9]) == pytest.approx([30, 75, 120], rel=0.05)


@pytest.mark.parametrize(("share", "counts"), [(0.09, False), (0.11, True)])
def test_a_recording_is_wanted_a_deck_for_from_one_tape_in_ten(
    share: float, counts: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of the shares of a Hi8 shell in the catalogue one is 5 %, the next 15 %: these stand in their place."""
    weights = {"hi8": 1 - share, "digital8": share}
    monkeypatch.setattr(possibilities, "system_weights", lambda shell, shop: weights)

    assert ("digital8" in deck_choice.possible_systems(FormatName("hi8"), None)) is counts


@pytest.mark.parametrize(("days", "is_planned"), [(730, True), (731, False)])
def test_nothing_is_planned_beyond_two_years(days: int, is_planned: bool) -> None:
    last = MONDAY + timedelta(days=days)

    if is_planned:
        opening_hours.check_span(MONDAY, last, MONDAY)
    else:
        with pytest.raises(WrongInput, match="730"):
            opening_hours.check_span(MONDAY, last, MONDAY)
