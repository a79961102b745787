"""When the shop is open next, in one sentence for a caller or a message."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import ShopSettings
from core.scheduling import opening_hours
from core.wording import locale_figures
from core.wording.messages import say

_LOOKED_AHEAD = 60
"""Days; a shop closed for longer is told no hours."""


def next_opening(settings: ShopSettings, now: datetime) -> str:
    """``We are open today until 5:00 PM.``; nothing when the shop is closed for two months.

    ``now`` on the shop's own clock.
    """
    today = now.date()
    days = opening_hours.calendar(settings, today).days
    for day in (each for each in days if (each - today).days <= _LOOKED_AHEAD):
        coming = [each for each in _hours(settings, day) if day > today or _at(day, each.end, now) > now]
        if coming:
            return _sentence(coming[0], day, now)
    return ""


def _hours(settings: ShopSettings, day: date) -> list[OpeningHours]:
    found = opening_hours.openings_on(settings, day)
    return sorted((each for each in found if each.weekday == day.weekday()), key=lambda each: each.start)


def _sentence(hours: OpeningHours, day: date, now: datetime) -> str:
    start, end = (_at(day, minutes, now) for minutes in (hours.start, hours.end))
    is_open = start <= now
    when = "now" if is_open else {0: "today", 1: "tomorrow"}.get((day - now.date()).days, "later")
    return say(
        "telling",
        "open",
        when=when,
        day=locale_figures.day(day),
        start=locale_figures.time_of_day(start),
        end=locale_figures.time_of_day(end),
    )


def _at(day: date, minutes: int, now: datetime) -> datetime:
    """A time of the shop's clock; 24:00 is the next midnight."""
    return datetime.combine(day, time(), now.tzinfo) + timedelta(minutes=minutes)
