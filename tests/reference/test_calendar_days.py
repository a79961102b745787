"""The calendar against the clock changes of the IANA database and the public holidays of the law."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from core.model.own_shop.opening_records import OpeningHours
from core.scheduling import opening_hours
from tests.support.shops import FRONT, fittings

ALWAYS = tuple(OpeningHours(day, 0, 1440) for day in range(7))


@pytest.mark.parametrize(
    ("zone", "day", "length"),
    [
        # IANA tz database, rule US since 2007: second Sunday of March, first Sunday of November, 2:00.
        ("America/New_York", date(2026, 3, 8), 23),
        ("America/New_York", date(2026, 11, 1), 25),
        ("America/New_York", date(2026, 3, 9), 24),
        # Rule EU since 1996: last Sunday of March and of October, 1:00 universal time.
        ("Europe/Warsaw", date(2026, 3, 29), 23),
        ("Europe/Warsaw", date(2026, 10, 25), 25),
        # Lord Howe Island changes by half an hour, first Sunday of October and of April.
        ("Australia/Lord_Howe", date(2026, 10, 4), 23.5),
        ("Australia/Lord_Howe", date(2026, 4, 5), 24.5),
        # Arizona keeps standard time all year.
        ("America/Phoenix", date(2026, 3, 8), 24),
    ],
)
def test_a_day_has_as_many_hours_as_the_clocks_leave_it(zone: str, day: date, length: float) -> None:
    shop = fittings(openings=ALWAYS, front=replace(FRONT, timezone=zone))
    found = opening_hours.calendar(shop, day, 1)
    assert (found.closes - found.opens).tolist() == [length * 60]


def test_nine_in_the_morning_stays_nine_in_the_morning() -> None:
    found = opening_hours.calendar(fittings(), date(2026, 3, 6), 5)
    assert [found.moment(opens).hour for opens in found.opens.tolist()] == [9, 9, 9]
    assert (found.opens[1:] - found.opens[:-1]).tolist() == [3 * 1440 - 60, 1440]  # Friday, Monday, Tuesday


def nth(year: int, month: int, weekday: int, n: int) -> date:
    first = date(year, month, 1)
    return first + timedelta(days=(weekday - first.weekday()) % 7 + 7 * (n - 1))


@pytest.mark.parametrize("year", range(2024, 2030))
def test_federal_holidays_fall_where_the_statute_puts_them(year: int) -> None:
    """5 U.S.C. 6103(a): Thanksgiving the fourth Thursday of November, Labor Day the first Monday of
    September, Martin Luther King's birthday the third Monday of January (from memory)."""
    found = opening_hours.public_holidays("US", None, year)
    assert "Thanksgiving" in found[nth(year, 11, 3, 4)]
    assert "Labor Day" in found[nth(year, 9, 0, 1)]
    assert "Martin Luther King" in found[nth(year, 1, 0, 3)]


def test_a_holiday_on_a_saturday_is_kept_on_the_friday() -> None:
    """5 U.S.C. 6103(b): 4 July 2026 is a Saturday, the Friday before is kept (from memory)."""
    assert "Independence Day" in opening_hours.public_holidays("US", None, 2026)[date(2026, 7, 3)]


@pytest.mark.parametrize(("country", "region"), [("US", "CA"), ("PL", None), ("DE", "BY"), ("GB", "SCT")])
def test_the_calendar_is_shut_on_every_holiday_of_the_library(country: str, region: str | None) -> None:
    from holidays import country_holidays

    shop = fittings(openings=ALWAYS, holiday_country=country, holiday_region=region)
    found = opening_hours.calendar(shop, date(2026, 1, 1), 365)
    expected = {day for day in country_holidays(country, subdiv=region, years=2026) if day.year == 2026}
    assert set(found.shut) == expected
    assert len(found.days) == 365 - len(expected)
    assert len(expected) > 5
