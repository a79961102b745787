"""Other hours in a part of each year: in the file, in the calendar, across New Year's Eve."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from core.model.errors import WrongInput
from core.model.own_shop.opening_records import OpeningHours
from core.scheduling import opening_hours
from core.services.own_shop import shop_settings
from tests.support.shops import WEEKDAYS, fittings

SUMMER = tuple(OpeningHours(day, 8 * 60, 13 * 60, "06-15", "08-31") for day in range(6))
WINTER = (OpeningHours(0, 10 * 60, 12 * 60, "12-20", "01-06"),)
SHOP = fittings(openings=(*WEEKDAYS, *SUMMER, *WINTER))


@pytest.mark.parametrize(
    ("day", "hours"),
    [
        (date(2026, 6, 12), [(540, 1080)]),  # a Friday before
        (date(2026, 6, 15), [(480, 780)]),  # the first day, a Monday
        (date(2026, 7, 4), [(480, 780)]),  # a Saturday, open in the season only
        (date(2026, 8, 31), [(480, 780)]),  # the last day
        (date(2026, 9, 1), [(540, 1080)]),
        (date(2026, 12, 21), [(600, 720)]),
        (date(2026, 12, 22), []),  # a Tuesday in the winter season, which has Mondays only
        (date(2027, 1, 4), [(600, 720)]),
        (date(2027, 1, 7), [(540, 1080)]),
    ],
)
def test_the_hours_of_a_day_are_those_of_its_season(day: date, hours: list[tuple[int, int]]) -> None:
    calendar = opening_hours.calendar(SHOP, day, 1)
    found = [(round(start), round(end)) for start, end in zip(calendar.opens, calendar.closes, strict=True)]
    assert found == hours


def test_a_shop_open_in_a_season_only_is_closed_outside() -> None:
    summer_only = fittings(openings=SUMMER)
    assert not len(opening_hours.calendar(summer_only, date(2026, 3, 2), 7).opens)
    assert len(opening_hours.calendar(summer_only, date(2026, 7, 6), 7).opens) == 6


def test_seasons_survive_the_file_and_plain_hours_stay_as_they_were_written() -> None:
    text = shop_settings.dump(SHOP)
    assert shop_settings.loads(text).openings == SHOP.openings
    assert shop_settings.dump(shop_settings.loads(text)) == text
    plain = shop_settings.document(replace(SHOP, openings=WEEKDAYS))
    assert {key for each in plain["opening"] for key in each} == {"days", "from", "to"}


@pytest.mark.parametrize(
    ("season", "told"),
    [
        (("06-15", ""), "opening 1, last: nothing was entered; the first and the last day of the season"),
        (("02-30", "03-01"), "opening 1, first: found '02-30'; a month and a day of it"),
        (("6-1", "07-01"), "first: found '6-1'; a month and a day of it"),
    ],
)
def test_a_season_that_cannot_be_is_named(season: tuple[str, str], told: str) -> None:
    content = shop_settings.document(replace(SHOP, openings=(OpeningHours(0, 540, 600),)))
    content["opening"] = [{**content["opening"][0], "first": season[0], "last": season[1]}]
    with pytest.raises(WrongInput) as refused:
        shop_settings.of_document(content, "settings")
    assert told in refused.value.sentence
