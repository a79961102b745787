"""The people of a plan one by one: when each is here, and what each can do.

Own hours only take away: a person is here while their hours and the shop's opening hours overlap (their
intersection), so nobody works on a closed day or behind a closed door. Whoever has none is here whenever the
shop is open. Of the people who work at one time, those who are not entered by name are here all day and can
do everything. A shop in which nobody has own hours or lacks a skill has no roster: one is as good as another.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

import numpy as np

from core.model.own_shop.settings_records import Duty, Person, ShopSettings, Skill, Work
from core.scheduling import opening_hours, presence
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
    shop = Openings(presence.thinned(calendar, worked), 0.0)
    people = sorted(_people(settings), key=lambda person: len(person.can))
    hours = [_own(settings, person, calendar) if person.hours else calendar for person in people]
    here = tuple(
        shop if each is calendar else Openings(presence.thinned(each, worked), 0.0) for each in hours
    )
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
