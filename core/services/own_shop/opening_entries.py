"""Opening hours, seasons and holidays in the settings file: read, checked and written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import cast

from core.model.errors import WrongInput, at
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_file import HolidayEntry, OpeningEntry, Weekday
from core.scheduling.opening_hours import public_holidays
from core.services.own_shop.entry_checks import check_printable
from core.wording.messages import say

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
ANY_YEAR = 2026
LEAP_YEAR = 2024
"""A year that has every day there is."""


def of_entries(entries: Sequence[OpeningEntry], where: str) -> tuple[OpeningHours, ...]:
    """The opening hours, in order; WrongInput names number and key."""
    found = []
    for number, entry in enumerate(entries, 1):
        start, end = minutes_of(entry.start), minutes_of(entry.end)
        if end <= start:
            accepted = say("readers", "time_after_opening_accepted")
            raise WrongInput(at(where, f"opening {number}", "to"), entry.end, accepted)
        _check_season(entry, at(where, f"opening {number}"))
        days = (WEEKDAYS.index(day) for day in entry.days)
        season = entry.season.strip()
        found += [OpeningHours(day, start, end, entry.first, entry.last, season) for day in days]
    return tuple(sorted(found, key=lambda one: (one.first, one.last, one.season, one.weekday, one.start)))


def _check_season(entry: OpeningEntry, place: str) -> None:
    """WrongInput for a season with one end only or none, or with a day that no year has."""
    check_printable(entry.season, at(place, "season"))
    if entry.season.strip() and not entry.first and not entry.last:
        raise WrongInput(at(place, "first"), "", say("files", "both-ends"))
    if bool(entry.first) is not bool(entry.last):
        key = "last" if entry.first else "first"
        raise WrongInput(at(place, key), "", say("files", "both-ends"))
    for key, day in (("first", entry.first), ("last", entry.last)):
        try:
            date.fromisoformat(f"{LEAP_YEAR}-{day or '01-01'}")
        except ValueError:
            raise WrongInput(at(place, key), day, say("files", "month-day")) from None


def entries(openings: Sequence[OpeningHours]) -> Iterator[OpeningEntry]:
    """Days with the same hours stand together, as a person would write them."""
    days: dict[tuple[int, int, str, str, str], list[str]] = {}
    for each in openings:
        same = (each.start, each.end, each.first, each.last, each.season)
        days.setdefault(same, []).append(WEEKDAYS[each.weekday])
    for (start, end, first, last, season), names in days.items():
        weekdays = cast("tuple[Weekday, ...]", tuple(names))
        yield OpeningEntry(weekdays, clock(start), clock(end), first, last, season)


def holiday_place(entry: HolidayEntry, where: str) -> tuple[str | None, str | None]:
    """Country and region whose public holidays the shop keeps; both must be known."""
    country, region = entry.country or None, entry.region or None
    if country is not None:
        try:
            public_holidays(country, region, ANY_YEAR)
        except WrongInput as wrong:
            raise WrongInput(at(where, "holidays", "country"), wrong.found, wrong.accepted) from None
    return country, region


def minutes_of(text: str) -> int:
    """Minutes after midnight of a time like ``09:00``; ``24:00`` is the end of the day."""
    hour, _, minute = text.partition(":")
    return int(hour) * 60 + int(minute)


def clock(minutes: int) -> str:
    """Minutes after midnight as a file has them: ``09:00``."""
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
