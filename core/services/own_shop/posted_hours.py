"""The hours of the week as a shop posts them on its door: days alike together, then days soon closed."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, time, timedelta
from itertools import groupby

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import ShopSettings
from core.scheduling import opening_hours
from core.wording import locale_figures
from core.wording.messages import say

_MONDAY = date(2024, 1, 1)
"""Any Monday: only the name of the weekday is taken from it."""
SOON_DAYS = 14
"""Closed days are told two weeks ahead."""


def posted(settings: ShopSettings, today: date) -> tuple[tuple[str, str], ...]:
    """``Monday–Friday`` and ``9:00 AM–6:00 PM``, in the order of the week; nothing where no hours are set."""
    held = opening_hours.openings_on(settings, today)
    if not held:
        return ()
    spoken = [(weekday, _hours([each for each in held if each.weekday == weekday])) for weekday in range(7)]
    return tuple(
        (_days([weekday for weekday, _ in alike]), hours)
        for hours, alike in ((hours, list(group)) for hours, group in groupby(spoken, key=lambda day: day[1]))
    )


def closed_soon(settings: ShopSettings, today: date) -> tuple[date, ...]:
    """The days of the next two weeks on which the shop is closed though its week says otherwise."""
    days = (today + timedelta(days=n) for n in range(SOON_DAYS))
    return tuple(
        day for day in days if _is_weekly(settings, day) and not opening_hours.hours_on(settings, day)
    )


def _is_weekly(settings: ShopSettings, day: date) -> bool:
    return any(each.weekday == day.weekday() for each in opening_hours.openings_on(settings, day))


def _days(weekdays: list[int]) -> str:
    first, last = (
        locale_figures.weekday(_MONDAY + timedelta(days=day)) for day in (weekdays[0], weekdays[-1])
    )
    return first if first == last else locale_figures.between(first, last)


def _hours(held: list[OpeningHours]) -> str:
    spans = list(_spans(sorted(held, key=lambda each: each.start)))
    return locale_figures.listed(spans, "unit") if spans else say("settings", "hours-closed")


def _spans(held: list[OpeningHours]) -> Iterator[str]:
    for each in held:
        start, end = (
            locale_figures.time_of_day(time(minutes // 60 % 24, minutes % 60))
            for minutes in (each.start, each.end)
        )
        yield locale_figures.between(start, end)
