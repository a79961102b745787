"""The people of a plan one by one: when each is here, and what each can do.

Own hours only take away: a person is here while their hours and the shop's opening hours overlap (their
intersection), so nobody works on a closed day or behind a closed door. Whoever has none is here whenever the
shop is open. Of the people who work at one time, those who are not entered by name are here all day and can
do everything. A shop in which nobody has own hours or lacks a skill has no roster: one is as good as another.

Where the history shows that work begins late and stops for a break, nobody is here then: see `thinned`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from functools import lru_cache

import numpy as np

from core.model.own_shop.settings_records import Duty, Person, ShopSettings, Skill, Work
from core.model.own_shop.work_habits import WorkHabits
from core.scheduling import opening_hours
from core.scheduling.opening_calendar import Calendar, Openings
from core.wording.messages import say


@dataclass(frozen=True, slots=True, eq=False)
class Roster:
    """The people at the bench, those who can do the fewest things first: they leave the rest to others."""

    at_once: int
    """How many work at one time."""
    shop: Openings
    here: tuple[Openings, ...]
    """When each of them is here; `shop` itself: whenever it is open."""
    able: Mapping[Work, tuple[int, ...]]
    """The places of those who can do each work and are ever here."""
    paces: tuple[float, ...] = ()
    """How many times as long as planned each takes; nothing: all take what is planned."""

    def why_nobody(self, works: Iterable[Work]) -> str:
        """The first of these that nobody who is ever here can do, as a sentence; nothing: all can be done."""
        missing = (work for work in works if not self.able[work])
        return next((say("dates", "nobody", work=work.value if work else "look") for work in missing), "")

    def next_here(self, work: Work, moment: float) -> float:
        """From when on somebody is here who can do it; infinity: nobody ever is."""
        at = np.array([moment])
        return min((float(self.here[place].rise(at)[0]) for place in self.able[work]), default=np.inf)


def roster_of(settings: ShopSettings, calendar: Calendar) -> Roster | None:
    """The people of the shop on this calendar; None where nobody differs from the others."""
    if not any(person.is_particular for person in settings.working_staff):
        return None
    return _roster(settings, calendar.day_of(0.0))


def one_more(settings: ShopSettings) -> ShopSettings:
    """The same shop with another person, here all day, who can do everything."""
    staff = settings.staff
    if any(person.is_particular for person in settings.working_staff):
        staff = (*staff, Person("+"))
    return replace(settings, people=settings.people + 1, staff=staff)


@lru_cache(maxsize=16)
def _roster(settings: ShopSettings, first_day: date) -> Roster:
    calendar = opening_hours.calendar(settings, first_day)
    worked = settings.worked
    shop = Openings(thinned(calendar, worked), 0.0)
    people = sorted(_people(settings), key=lambda person: len(person.can))
    hours = [_own(settings, person, calendar) if person.hours else calendar for person in people]
    here = tuple(shop if each is calendar else Openings(thinned(each, worked), 0.0) for each in hours)
    ever = [place for place, each in enumerate(hours) if len(each.opens) or not len(calendar.opens)]
    able: dict[Work, tuple[int, ...]] = {None: tuple(ever)}
    for skill in Skill:
        able[skill] = tuple(place for place in ever if skill.value in people[place].can)
    paces = dict(worked.paces)
    each = tuple(paces.get(person.name, 1.0) for person in people) if paces else ()
    return Roster(settings.people, shop, here, able, each)


def _people(settings: ShopSettings) -> Sequence[Person]:
    """Those of the bench by name, and others as far as more people work at one time than are entered."""
    named = settings.working_staff
    others = [Person("")] * max(0, settings.people - len(named))
    return [*(person for person in named if Duty.BENCH.value in person.does), *others]


def _own(settings: ShopSettings, person: Person, shop: Calendar) -> Calendar:
    """When a person is here: their hours, season by season, as far as the shop is open."""
    theirs = opening_hours.calendar(replace(settings, openings=person.hours), shop.day_of(0.0))
    slots = _overlaps(shop, theirs)
    ends = {shop.day_of(opens): closes for opens, closes in slots}
    return opening_hours.calendar_of(shop.start, shop.zone, slots, ends, {})


def _overlaps(one: Calendar, other: Calendar) -> list[tuple[float, float]]:
    """The times in which both are open, in order."""
    found: list[tuple[float, float]] = []
    mine, theirs = (
        list(zip(one.opens, one.closes, strict=True)),
        list(zip(other.opens, other.closes, strict=True)),
    )
    while mine and theirs:
        opens, closes = max(mine[0][0], theirs[0][0]), min(mine[0][1], theirs[0][1])
        if opens < closes:
            found.append((float(opens), float(closes)))
        (mine if mine[0][1] <= theirs[0][1] else theirs).pop(0)
    return found


# --- when anybody works -------------------------------------------------------------------


def presence_of(settings: ShopSettings, calendar: Calendar) -> Openings | None:
    """When people are here on the shop's calendar; None: whenever it is open."""
    if not settings.worked.thins_hours or not len(calendar.opens):
        return None
    return _presence(settings, calendar.day_of(0.0))


def thinned(calendar: Calendar, habits: WorkHabits) -> Calendar:
    """The calendar of the times in which somebody works; the days and their ends stay."""
    if not habits.thins_hours:
        return calendar
    slots = list(_slots_without_breaks(calendar, habits))
    ends = dict(zip(calendar.days, map(float, calendar.day_ends), strict=True))
    return opening_hours.calendar_of(calendar.start, calendar.zone, slots, ends, calendar.shut)


@lru_cache(maxsize=8)
def _presence(settings: ShopSettings, first_day: date) -> Openings:
    return Openings(thinned(opening_hours.calendar(settings, first_day), settings.worked), 0.0)


def _slots_without_breaks(calendar: Calendar, habits: WorkHabits) -> Iterator[tuple[float, float]]:
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
