"""When the shop is open, as minutes that numpy can search.

A `Calendar` counts real (elapsed) minutes from the midnight that begins its first day, so that the
day the clocks go forward has 23 hours and the day they go back has 25. Wall-clock hours become such
minutes through the shop's IANA timezone.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from core.model.errors import WrongInput
from core.model.settings_records import ShopSettings

Minutes = NDArray[np.float64]

HORIZON_DAYS = 730
"""No date is looked for beyond two years: common practice, no source. A queue that long has no date."""


@dataclass(frozen=True, slots=True, eq=False)
class Calendar:
    """Opening slots in order, without overlaps. ``opens[k] < closes[k]``, minutes since `start`."""

    start: datetime
    zone: ZoneInfo
    opens: Minutes
    closes: Minutes
    days: tuple[date, ...]
    """Days with at least one opening."""
    day_ends: Minutes
    """The last closing of each of these days."""
    shut: Mapping[date, str]
    """Days the shop would be open by its weekdays but is not, and why."""
    worked_before: Minutes = field(repr=False)
    """Minutes of opening before each slot."""
    worked_through: Minutes = field(repr=False)
    """Minutes of opening up to the end of each slot."""

    def at(self, moment: datetime) -> float:
        """A moment (with a timezone) as minutes since the start of the calendar."""
        if moment.tzinfo is None:
            raise WrongInput("moment", moment.isoformat(), "a time with its offset is accepted")
        return (moment - self.start).total_seconds() / 60

    def midnight(self, day: date) -> datetime:
        """The moment ``day`` begins on the shop's clock."""
        return datetime.combine(day, time(), self.zone)

    def span(self, first: date, last: date) -> tuple[float, float]:
        """From the midnight that begins ``first`` to the midnight that ends ``last``, on the shop's clock."""
        return self.at(self.midnight(first)), self.at(self.midnight(last + timedelta(days=1)))

    def moment(self, minutes: float) -> datetime:
        """The moment on the shop's clock."""
        return (self.start + timedelta(minutes=minutes)).astimezone(self.zone)

    def day_of(self, minutes: float) -> date:
        """The date on the shop's clock."""
        return self.moment(minutes).date()

    def close_of(self, day: date) -> float | None:
        """The last closing on ``day``; None when the shop is shut or the calendar does not reach it."""
        index = bisect_left(self.days, day)
        found = index < len(self.days) and self.days[index] == day
        return float(self.day_ends[index]) if found else None

    def worked(self, minutes: Minutes) -> Minutes:
        """Minutes of opening that have passed by each moment."""
        slot = np.searchsorted(self.closes, minutes, side="left")
        inside = np.minimum(slot, len(self.opens) - 1)
        gone = self.worked_before[inside] + np.maximum(0.0, minutes - self.opens[inside])
        return np.where(slot < len(self.opens), gone, np.where(np.isinf(minutes), np.inf, self._all_worked))

    def when_worked(self, worked: Minutes) -> Minutes:
        """The moment at which so many minutes of opening have passed; infinity beyond the calendar."""
        slot = np.searchsorted(self.worked_through, worked, side="left")
        inside = np.minimum(slot, len(self.opens) - 1)
        moment = self.opens[inside] + (worked - self.worked_before[inside])
        return np.where(slot < len(self.opens), moment, np.inf)

    def advanced(self, minutes: Minutes, work: float) -> Minutes:
        """When work that can rest overnight is done, begun at each moment; work in minutes of opening."""
        if not len(self.opens):
            return np.full_like(minutes, np.inf)
        return self.when_worked(self.worked(minutes) + work)

    @property
    def _all_worked(self) -> float:
        return float(self.worked_through[-1])


@lru_cache(maxsize=16)
def calendar(fittings: ShopSettings, first_day: date, days: int = HORIZON_DAYS) -> Calendar:
    """The openings of ``days`` days from ``first_day`` on, holidays and closed days left out."""
    zone = ZoneInfo(fittings.front.timezone)
    start = datetime.combine(first_day, time(), zone).astimezone(UTC)
    shut: dict[date, str] = {}
    ends: dict[date, float] = {}
    slots: list[tuple[float, float]] = []
    for day in (first_day + timedelta(days=n) for n in range(days)):
        found = list(_slots(fittings, day, zone, start))
        why = _why_shut(fittings, day)
        if found and why:
            shut[day] = why
        elif found:
            ends[day] = max(end for _, end in found)
            slots += found
    return _calendar(start, zone, slots, ends, shut)


def today(fittings: ShopSettings, now: datetime) -> date:
    """The date on the shop's clock at a moment."""
    return now.astimezone(ZoneInfo(fittings.front.timezone)).date()


def always_open(minutes: float) -> Calendar:
    """One opening of so many minutes and nothing else: for arithmetic that needs no clock."""
    first_day = date(2000, 1, 1)
    start = datetime.combine(first_day, time(), UTC)
    return _calendar(start, ZoneInfo("UTC"), [(0.0, minutes)], {first_day: minutes}, {})


def check_span(first: date, last: date, today: date) -> None:
    """WrongInput for days to be planned that end before they begin, are gone, or beyond the horizon."""
    if last < first:
        raise WrongInput("last day", last.isoformat(), "a day not before the first one is accepted")
    if last < today:
        raise WrongInput("last day", last.isoformat(), "a day from today on is accepted")
    if (last - today).days > HORIZON_DAYS:
        accepted = f"a day within {HORIZON_DAYS} days is accepted; no date is looked for beyond"
        raise WrongInput("last day", last.isoformat(), accepted)


def _calendar(
    start: datetime,
    zone: ZoneInfo,
    slots: list[tuple[float, float]],
    ends: Mapping[date, float],
    shut: Mapping[date, str],
) -> Calendar:
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
    fittings: ShopSettings, day: date, zone: ZoneInfo, start: datetime
) -> Iterator[tuple[float, float]]:
    """Openings of one day as minutes since ``start``; an opening lost in a clock change is left out."""
    for opening in fittings.openings:
        if opening.weekday == day.weekday():
            slot = (_minutes(day, opening.start, zone, start), _minutes(day, opening.end, zone, start))
            if slot[0] < slot[1]:
                yield slot


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


def _why_shut(fittings: ShopSettings, day: date) -> str | None:
    """The name of the holiday, ``closed``, or None."""
    if day in fittings.closed_days:
        return "closed"
    if fittings.holiday_country is None:
        return None
    return public_holidays(fittings.holiday_country, fittings.holiday_region, day.year).get(day)


@lru_cache(maxsize=32)
def public_holidays(country: str, region: str | None, year: int) -> Mapping[date, str]:
    """Public holidays of one year by name. WrongInput when the country or region is unknown."""
    from holidays import country_holidays  # costs 60 ms to import, and a shop without holidays needs none

    try:
        return dict(country_holidays(country, subdiv=region, years=year))
    except NotImplementedError:
        place = " ".join(filter(None, (country, region)))
        accepted = "a country (ISO 3166, like US) and one of its states or provinces are accepted"
        raise WrongInput("holidays of the shop", place, accepted) from None
