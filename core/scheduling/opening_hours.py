"""When the shop is open by its settings: weekdays, holidays and closed days as a `Calendar`.

Wall-clock hours become real minutes through the shop's IANA timezone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

import numpy as np

from core.model.errors import WrongInput
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import ShopSettings
from core.scheduling.opening_calendar import Calendar
from core.wording.messages import say, worded_cache

HORIZON_DAYS = 730
"""No date is looked for beyond two years: common practice, no source. A queue that long has no date."""


@worded_cache(maxsize=16)
def calendar(settings: ShopSettings, first_day: date, days: int = HORIZON_DAYS) -> Calendar:
    """The openings of ``days`` days from ``first_day`` on, holidays and closed days left out."""
    zone = ZoneInfo(settings.front.timezone)
    start = datetime.combine(first_day, time(), zone).astimezone(UTC)
    shut: dict[date, str] = {}
    ends: dict[date, float] = {}
    slots: list[tuple[float, float]] = []
    for day in (first_day + timedelta(days=n) for n in range(days)):
        found = list(_slots(settings, day, zone, start))
        why = _why_shut(settings, day)
        if found and why:
            shut[day] = why
        elif found:
            ends[day] = max(end for _, end in found)
            slots += found
    return calendar_of(start, zone, slots, ends, shut)


def today(settings: ShopSettings, now: datetime) -> date:
    """The date on the shop's clock at a moment."""
    return now.astimezone(ZoneInfo(settings.front.timezone)).date()


def check_span(first: date, last: date, today: date) -> None:
    """WrongInput for days to be planned that end before they begin, are gone, or beyond the horizon."""
    if last < first:
        raise WrongInput(say("dates", "last_day"), last.isoformat(), say("dates", "day_not_before"))
    if last < today:
        raise WrongInput(say("dates", "last_day"), last.isoformat(), say("dates", "day_from_today"))
    if (last - today).days > HORIZON_DAYS:
        accepted = say("dates", "day_within", days=HORIZON_DAYS)
        raise WrongInput(say("dates", "last_day"), last.isoformat(), accepted)


def calendar_of(
    start: datetime,
    zone: ZoneInfo,
    slots: list[tuple[float, float]],
    ends: Mapping[date, float],
    shut: Mapping[date, str],
) -> Calendar:
    """The calendar of these openings, in minutes since ``start``, with the last closing of each day."""
    merged = _merged(slots)
    opens = np.array([slot[0] for slot in merged], dtype=np.float64)
    closes = np.array([slot[1] for slot in merged], dtype=np.float64)
    through = np.cumsum(closes - opens)
    return Calendar(
        start=start,
        zone=zone,
        opens=opens,
        closes=closes,
        days=tuple(ends),
        day_ends=np.array(list(ends.values()), dtype=np.float64),
        shut=dict(shut),
        worked_before=through - (closes - opens),
        worked_through=through,
    )


def _slots(
    settings: ShopSettings, day: date, zone: ZoneInfo, start: datetime
) -> Iterator[tuple[float, float]]:
    """Openings of one day as minutes since ``start``; an opening lost in a clock change is left out."""
    for opening in openings_on(settings, day):
        if opening.weekday == day.weekday():
            slot = (_minutes(day, opening.start, zone, start), _minutes(day, opening.end, zone, start))
            if slot[0] < slot[1]:
                yield slot


def openings_on(settings: ShopSettings, day: date) -> tuple[OpeningHours, ...]:
    """The hours of the week that hold on ``day``: those of the season it lies in, else the whole year's."""
    season = tuple(each for each in settings.openings if each.is_season_on(day))
    return season or tuple(each for each in settings.openings if not each.first)


def hours_on(settings: ShopSettings, day: date) -> tuple[tuple[float, float], ...]:
    """When the shop is open on ``day``, in minutes after midnight; nothing where it is closed."""
    if _why_shut(settings, day):
        return ()
    each = (opening for opening in openings_on(settings, day) if opening.weekday == day.weekday())
    return tuple(sorted((float(opening.start), float(opening.end)) for opening in each))


def regular(settings: ShopSettings) -> tuple[OpeningHours, ...]:
    """The hours of the whole year; those of all seasons where a shop is open in seasons only."""
    return tuple(each for each in settings.openings if not each.first) or settings.openings


def _minutes(day: date, after_midnight: int, zone: ZoneInfo, start: datetime) -> float:
    wall = datetime.combine(day, time()) + timedelta(minutes=after_midnight)
    return (wall.replace(tzinfo=zone).astimezone(UTC) - start).total_seconds() / 60


def _merged(slots: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Slots in order; those that touch or overlap become one."""
    merged: list[tuple[float, float]] = []
    for begin, end in sorted(slots):
        if merged and begin <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((begin, end))
    return merged


def _why_shut(settings: ShopSettings, day: date) -> str | None:
    """The name of the holiday, ``closed``, or None."""
    if day in settings.closed_days:
        return say("dates", "closed")
    if settings.holiday_country is None:
        return None
    return public_holidays(settings.holiday_country, settings.holiday_region, day.year).get(day)


@lru_cache(maxsize=32)
def public_holidays(country: str, region: str | None, year: int) -> Mapping[date, str]:
    """Public holidays of one year by name. WrongInput when the country or region is unknown."""
    from holidays import country_holidays  # costs 60 ms to import, and a shop without holidays needs none

    try:
        return dict(country_holidays(country, subdiv=region, years=year))
    except NotImplementedError:
        place = " ".join(filter(None, (country, region)))
        accepted = say("dates", "holidays_accepted")
        raise WrongInput(say("dates", "holidays_of_shop"), place, accepted) from None
