"""When people are at work: the openings without a late beginning and the break in which nobody works."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, time
from functools import lru_cache

from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.work_habits import WorkHabits
from core.scheduling import opening_hours
from core.scheduling.opening_calendar import Calendar, Openings


def of(settings: ShopSettings, calendar: Calendar) -> Openings | None:
    """When people are here on the shop's calendar; None: whenever it is open."""
    if not settings.worked.thins_hours or not len(calendar.opens):
        return None
    return _of(settings, calendar.day_of(0.0))


def thinned(calendar: Calendar, habits: WorkHabits) -> Calendar:
    """The calendar of the times in which somebody works; the days and their ends stay."""
    if not habits.thins_hours:
        return calendar
    slots = list(_slots(calendar, habits))
    ends = dict(zip(calendar.days, map(float, calendar.day_ends), strict=True))
    return opening_hours.calendar_of(calendar.start, calendar.zone, slots, ends, calendar.shut)


@lru_cache(maxsize=8)
def _of(settings: ShopSettings, first_day: date) -> Openings:
    return Openings(thinned(opening_hours.calendar(settings, first_day), settings.worked), 0.0)


def _slots(calendar: Calendar, habits: WorkHabits) -> Iterator[tuple[float, float]]:
    """What is left of each opening; one that is shorter than the time left out stays as it is."""
    before = None
    for opens, closes in zip(map(float, calendar.opens), map(float, calendar.closes), strict=True):
        day = calendar.day_of(opens)
        begins = opens + habits.begins_late if day != before else opens
        before = day
        left = list(_without_break(begins, closes, _break(calendar, day, habits)))
        yield from left or [(opens, closes)]


def _without_break(begins: float, closes: float, pause: tuple[float, float]) -> Iterator[tuple[float, float]]:
    for begin, end in ((begins, min(closes, pause[0])), (max(begins, pause[1]), closes)):
        if begin < end:
            yield begin, end


def _break(calendar: Calendar, day: date, habits: WorkHabits) -> tuple[float, float]:
    """The break of a day on the calendar; of no length where there is none."""
    hour, minute = divmod(round(habits.break_from), 60)
    begins = calendar.at(datetime.combine(day, time(hour, minute), calendar.zone))
    return begins, begins + habits.break_minutes
