"""The calendar knows when the shop is open, in minutes that really pass."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

import numpy as np
import pytest

from core.model.errors import WrongInput
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Outage
from core.scheduling import initial_state, opening_hours
from core.wording import locale_figures
from tests.support.shops import FRONT, NEW_YORK, TUESDAY, fittings, utc

SPLIT = (OpeningHours(1, 9 * 60, 12 * 60), OpeningHours(1, 13 * 60, 18 * 60))


def calendar(first: date = date(2026, 3, 2), days: int = 14, **changes: object) -> opening_hours.Calendar:
    return opening_hours.calendar(fittings(**changes), first, days)


def test_openings_are_minutes_since_the_first_midnight() -> None:
    week = calendar(days=3)
    assert week.opens.tolist() == [540, 1440 + 540, 2880 + 540]
    assert week.closes.tolist() == [1080, 1440 + 1080, 2880 + 1080]
    assert week.days == (date(2026, 3, 2), date(2026, 3, 3), date(2026, 3, 4))


def test_a_lunch_break_makes_two_openings_and_one_closing_of_the_day() -> None:
    week = calendar(openings=SPLIT)
    assert (week.closes - week.opens).tolist() == [180, 300, 180, 300]
    assert week.close_of(date(2026, 3, 3)) == 1440 + 18 * 60
    assert week.close_of(date(2026, 3, 4)) is None


def test_openings_that_touch_or_overlap_are_one() -> None:
    overlapping = (OpeningHours(0, 540, 720), OpeningHours(0, 720, 800), OpeningHours(0, 700, 900))
    assert calendar(days=1, openings=overlapping).opens.tolist() == [540]


def test_a_shop_open_round_the_clock_has_one_long_opening() -> None:
    always = tuple(OpeningHours(day, 0, 1440) for day in range(7))
    days = calendar(days=5, openings=always)
    assert (days.opens.tolist(), days.closes.tolist()) == ([0], [5 * 1440])
    assert len(days.days) == 5


def test_a_moment_and_its_date_are_those_of_the_shop_and_not_of_greenwich() -> None:
    week = calendar()
    assert week.at(TUESDAY) == 1440 + 540
    assert week.at(utc(2026, 3, 3, 14, 0)) == week.at(TUESDAY)
    late = week.at(utc(2026, 3, 4, 3, 0))
    assert week.day_of(late) == date(2026, 3, 3)
    assert opening_hours.today(fittings(), utc(2026, 3, 4, 3, 0)) == date(2026, 3, 3)


def test_a_time_without_an_offset_is_refused() -> None:
    with pytest.raises(WrongInput, match="a time with its offset is accepted"):
        calendar().at(datetime(2026, 3, 3, 9, 0))


def test_work_that_can_rest_goes_on_at_the_next_opening() -> None:
    week = calendar()
    began = np.array([1080.0 - 30, 600.0, 2000.0])
    done = week.advanced(began, 60.0)
    assert done.tolist() == [1440 + 540 + 30, 660, 2060]


def test_work_begun_while_shut_begins_at_opening() -> None:
    assert calendar().advanced(np.array([0.0]), 60.0).tolist() == [600]


def test_work_that_ends_exactly_at_closing_is_done_that_day() -> None:
    assert calendar().advanced(np.array([1020.0]), 60.0).tolist() == [1080]


def test_work_beyond_the_calendar_is_never_done() -> None:
    assert calendar(days=2).advanced(np.array([540.0, np.inf]), 1081.0).tolist() == [np.inf, np.inf]
    empty = calendar(openings=())
    assert empty.advanced(np.array([540.0]), 1.0).tolist() == [np.inf]


def test_closed_days_and_holidays_are_left_out_and_named() -> None:
    shut = frozenset({date(2026, 11, 27)})
    november = calendar(date(2026, 11, 23), 7, closed_days=shut, holiday_country="US")
    assert november.days == (date(2026, 11, 23), date(2026, 11, 24), date(2026, 11, 25))
    assert november.shut == {date(2026, 11, 26): "Thanksgiving Day", date(2026, 11, 27): "closed"}


def test_an_unknown_country_is_refused_with_what_is_accepted() -> None:
    with pytest.raises(WrongInput, match=r"holidays of the shop: found 'XX'"):
        calendar(holiday_country="XX")
    with pytest.raises(WrongInput, match=r"found 'US ZZ'"):
        calendar(holiday_country="US", holiday_region="ZZ")


def test_an_opening_inside_the_hour_that_the_clocks_skip_is_left_out() -> None:
    night = (OpeningHours(6, 2 * 60 + 10, 2 * 60 + 50),)
    spring = opening_hours.calendar(fittings(openings=night), date(2026, 3, 1), 15)
    lengths = (spring.closes - spring.opens).tolist()
    assert len(lengths) == len(spring.days)
    assert all(length > 0 for length in lengths)


def test_days_are_spoken_in_english_whatever_the_locale() -> None:
    assert locale_figures.day(date(2026, 11, 26)) == "Thursday, November 26"


def test_the_same_shop_and_day_give_the_same_calendar_at_no_cost() -> None:
    assert calendar() is calendar()
    assert FRONT.timezone == NEW_YORK.key


@pytest.mark.parametrize(
    ("zone", "first", "hours"),
    [
        # Clock changes of 2026 (IANA time zone database).
        ("America/New_York", date(2026, 3, 8), 23),
        ("America/New_York", date(2026, 11, 1), 25),
        ("Europe/Berlin", date(2026, 3, 29), 23),
        ("Europe/Berlin", date(2026, 10, 25), 25),
    ],
)
def test_days_last_from_midnight_to_midnight_on_the_shops_clock(zone: str, first: date, hours: int) -> None:
    shop = fittings(front=replace(FRONT, timezone=zone), outages=(Outage("VHS 1", first, first),))
    calendar = opening_hours.calendar(shop, date(2026, 1, 5))
    begins, ends = calendar.span(first, first)
    assert ends - begins == hours * 60
    assert (calendar.moment(begins).hour, calendar.moment(ends).hour) == (0, 0)
    assert initial_state.outages(shop, calendar) == {0: ((begins, ends),)}
