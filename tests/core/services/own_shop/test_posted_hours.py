"""The hours on the door: alike days together, in the order of the week, and the days soon closed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from core.model.own_shop.opening_records import OpeningHours
from core.services.own_shop import posted_hours, shop_settings

WEEK = tuple(OpeningHours(day, 9 * 60, 18 * 60) for day in range(5))
SATURDAY = (OpeningHours(5, 10 * 60, 12 * 60), OpeningHours(5, 13 * 60, 14 * 60))
SETTINGS = replace(
    shop_settings.new_shop(),
    openings=(*WEEK, *SATURDAY),
    holiday_country=None,
    closed_days=frozenset({date(2026, 3, 17), date(2026, 3, 22)}),
)
A_DAY = date(2026, 3, 11)


def test_days_alike_stand_together() -> None:
    assert posted_hours.posted(SETTINGS, A_DAY) == (
        ("Monday–Friday", "9:00\u00a0AM–6:00\u00a0PM"),
        ("Saturday", "10:00\u00a0AM–12:00\u00a0PM, 1:00\u00a0PM–2:00\u00a0PM"),
        ("Sunday", "closed"),
    )


def test_a_season_has_its_own_hours() -> None:
    summer = OpeningHours(0, 600, 720, first="06-01", last="08-31")
    settings = replace(SETTINGS, openings=(*SETTINGS.openings, summer))
    assert posted_hours.posted(settings, date(2026, 7, 1))[0] == ("Monday", "10:00\u00a0AM–12:00\u00a0PM")
    assert posted_hours.posted(settings, A_DAY) == posted_hours.posted(SETTINGS, A_DAY)


def test_only_a_day_that_the_week_has_open_is_told_as_closed() -> None:
    assert posted_hours.closed_soon(SETTINGS, A_DAY) == (date(2026, 3, 17),), "the 22nd is a Sunday"
    assert posted_hours.closed_soon(SETTINGS, date(2026, 3, 18)) == ()
    assert posted_hours.closed_soon(SETTINGS, date(2026, 3, 2)) == (), "two weeks ahead and no more"


def test_without_hours_nothing_is_posted() -> None:
    assert posted_hours.posted(replace(SETTINGS, openings=()), A_DAY) == ()
