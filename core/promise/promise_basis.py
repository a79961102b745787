"""What a promise stands on: the shop as it was when the date was said, and what has changed since."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Duty, Person, ShopSettings, Skill
from core.model.promise_records import PersonBasis, PromiseBasis
from core.scheduling import opening_hours
from core.wording import locale_figures
from core.wording.messages import say

_MORE_TAPES = 1.25
"""A queue that grew by less than a quarter is no reason to name (an assumption)."""


def of(settings: ShopSettings, tapes_waiting: int) -> PromiseBasis:
    """The shop as a quote of this moment finds it."""
    away = settings.expected.awaited
    return PromiseBasis(
        tapes_waiting=tapes_waiting,
        decks=tuple(each.name for each in settings.decks if each.in_service and each.name not in away),
        people=settings.people,
        hours_a_week=_hours_a_week(opening_hours.regular(settings)),
        staff=tuple(
            _person(settings, each) for each in settings.working_staff if Duty.BENCH.value in each.does
        ),
    )


def changes(then: PromiseBasis | None, now: PromiseBasis) -> tuple[str, ...]:
    """What is less good now, one phrase each; nothing for a promise made before its basis was kept."""
    return () if then is None else tuple(_changes(then, now))


def _changes(then: PromiseBasis, now: PromiseBasis) -> Iterator[str]:
    gone = [name for name in then.decks if name not in now.decks]
    if gone:
        yield say("dates", "out_now", n=len(gone), decks=locale_figures.listed(gone))
    if now.people < then.people:
        yield say("dates", "fewer_people", now=now.people, then=then.people)
    if now.hours_a_week < then.hours_a_week:
        yield say("dates", "fewer_hours", now=now.hours_a_week, then=then.hours_a_week)
    yield from _changes_of_staff(then, now)
    if now.tapes_waiting > _MORE_TAPES * then.tapes_waiting and now.tapes_waiting > then.tapes_waiting + 1:
        yield say("dates", "more_tapes", now=now.tapes_waiting, then=then.tapes_waiting)


def _changes_of_staff(then: PromiseBasis, now: PromiseBasis) -> Iterator[str]:
    """Who is gone, here less, or no longer does what they did; nobody whom a newcomer makes up for."""
    known = {person.name for person in then.staff or ()}
    here = {person.name: person for person in now.staff or ()}
    new = [person for person in here.values() if person.name not in known]
    for person in then.staff or ():
        if person.name in here:
            yield from _changes_of(person, here[person.name])
        elif not any(person.can <= each.can and not _is_less_here(person, each) for each in new):
            yield say("dates", "person_gone", who=person.name)


def _changes_of(then: PersonBasis, now: PersonBasis) -> Iterator[str]:
    if _is_less_here(then, now) and now.hours_a_week < then.hours_a_week:
        yield say("dates", "person_fewer_hours", who=now.name, now=now.hours_a_week, then=then.hours_a_week)
    elif _is_less_here(then, now):
        yield say("dates", "person_other_hours", who=now.name)
    for skill in Skill:
        if skill.value in then.can - now.can:
            yield say("dates", "person_cannot", who=now.name, work=skill.value)


def _is_less_here(then: PersonBasis, now: PersonBasis) -> bool:
    """Whether the one is not here at some time at which the other was; the shop's own hours aside."""
    if then.hours is None or now.hours is None:
        return then.hours != now.hours and now.hours_a_week < then.hours_a_week
    return _hours_a_week(_shared(then.hours, now.hours)) < then.hours_a_week


def _person(settings: ShopSettings, person: Person) -> PersonBasis:
    shop, hours = opening_hours.regular(settings), None
    if person.hours:
        hours = _shared(opening_hours.regular(replace(settings, openings=person.hours)), shop)
    return PersonBasis(person.name, hours, _hours_a_week(shop if hours is None else hours), person.can)


def _shared(one: Sequence[OpeningHours], other: Sequence[OpeningHours]) -> tuple[OpeningHours, ...]:
    """The times of a week in both."""
    pairs = ((each, its) for each in one for its in other if each.weekday == its.weekday)
    both = ((each.weekday, max(each.start, its.start), min(each.end, its.end)) for each, its in pairs)
    return tuple(OpeningHours(day, start, end) for day, start, end in both if start < end)


def _hours_a_week(openings: Sequence[OpeningHours]) -> float:
    return sum(opening.end - opening.start for opening in openings) / 60
