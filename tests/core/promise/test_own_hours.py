"""Dates by the people's own hours and skills: promise, what-ifs, deck week and the Bench."""

from __future__ import annotations

from dataclasses import replace
from datetime import time, timedelta

import pytest

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Person, ShopSettings, Skill
from core.model.stations import Station
from core.promise import turnaround, what_ifs
from core.scheduling import deck_week
from core.scheduling.next_tape import next_tapes
from core.wording import locale_figures
from core.wording.messages import say
from tests.support.shops import TUESDAY, fittings, queued, quoted, repaired

MORNINGS = tuple(OpeningHours(day, 9 * 60, 13 * 60) for day in range(5))
THURSDAYS = (OpeningHours(3, 9 * 60, 18 * 60),)
NO_SPLICER = Person("Ada", can=frozenset({"load", "check"}))
QUEUE = [
    queued(n, station=Station.BOOKED_IN if n % 2 else Station.CLEARED_TO_PLAY, job=1 + n // 3)
    for n in range(1, 13)
]


def shop(*staff: Person, people: int = 1, **changes: object) -> ShopSettings:
    return fittings(staff=staff, people=people, **changes)


@pytest.mark.parametrize("people", [1, 2, 3])
def test_people_without_particulars_change_no_date(people: int) -> None:
    """The same draws, the same dates and chances as a shop in which nobody is entered by name."""
    named = shop(Person("Ada", pin="x"), Person("Ben", may=frozenset({"refund"})), people=people)
    plain, other = (turnaround.load(each, QUEUE, TUESDAY) for each in (shop(people=people), named))
    box = [quoted(1), quoted(2, verdict=repaired("splice"))]
    assert turnaround.promise(plain, box) == turnaround.promise(other, box)
    assert turnaround.promise(plain, box, rush=True) == turnaround.promise(other, box, rush=True)
    for number in plain.jobs:
        assert turnaround.standing(plain, number) == turnaround.standing(other, number)
    assert deck_week.week(shop(people=people), QUEUE, TUESDAY) == deck_week.week(named, QUEUE, TUESDAY)
    assert next_tapes(shop(people=people), QUEUE, TUESDAY) == next_tapes(named, QUEUE, TUESDAY)


def test_a_snapped_tape_waits_for_the_day_of_the_only_splicer() -> None:
    box = [quoted(verdict=repaired("splice"))]
    daily = turnaround.promise(turnaround.load(shop(NO_SPLICER, Person("Ben"), people=2), [], TUESDAY), box)
    weekly = shop(NO_SPLICER, Person("Ben", hours=THURSDAYS), people=2)
    load = turnaround.load(weekly, [], TUESDAY)
    thursday = TUESDAY.date() + timedelta(days=2)
    assert daily.day == TUESDAY.date()
    assert turnaround.promise(load, box).day == thursday
    assert turnaround.promise(load, [quoted()]).day == TUESDAY.date()
    snapped = replace(queued(1, station=Station.LOOKED_OVER), bench_minutes=20.0)
    assert turnaround.standing(turnaround.load(weekly, [snapped], TUESDAY), snapped.job).day == thursday  # type: ignore[union-attr]


def test_half_days_move_the_date() -> None:
    box = [quoted(line) for line in range(1, 8)]
    whole, half = (
        turnaround.promise(turnaround.load(shop(each), QUEUE, TUESDAY), box)
        for each in (Person("Ada"), Person("Ada", hours=MORNINGS))
    )
    assert whole.day is not None
    assert half.day is not None
    assert half.day > whole.day


def test_hours_outside_the_opening_hours_add_nothing() -> None:
    """Own hours only take away: sixteen hours a day, Sundays too, are those of the shop."""
    always = tuple(OpeningHours(day, 6 * 60, 22 * 60) for day in range(7))
    box = [quoted(line) for line in range(1, 8)]
    plain = turnaround.load(shop(), QUEUE, TUESDAY)
    other = turnaround.load(shop(Person("Ada", hours=always)), QUEUE, TUESDAY)
    assert {number: turnaround.standing(plain, number) for number in plain.jobs} == {
        number: turnaround.standing(other, number) for number in other.jobs
    }
    assert turnaround.promise(other, box).day is not None


@pytest.mark.parametrize(
    ("gone", "left"), [(Skill.SPLICE, 1), (Skill.LOAD, 2), (Skill.CHECK, 2)], ids=lambda each: str(each)
)
def test_what_nobody_can_do_is_a_sentence_and_no_wait_without_end(gone: Skill, left: int) -> None:
    can = frozenset(skill.value for skill in Skill if skill is not gone)
    why = say("dates", "nobody", work=gone.value)
    load = turnaround.load(shop(Person("Ada", can=can)), QUEUE, TUESDAY)
    promise = turnaround.promise(load, [quoted(1), quoted(2, verdict=repaired("splice"))])
    assert say("dates", "left_out", why=why, n=left) in promise.held_by
    assert (promise.day is None) is (gone is not Skill.SPLICE)


def test_a_skill_of_somebody_who_is_never_here_is_nobodys() -> None:
    sundays = (OpeningHours(6, 9 * 60, 18 * 60),)
    load = turnaround.load(shop(NO_SPLICER, Person("Ben", hours=sundays), people=2), [], TUESDAY)
    promise = turnaround.promise(load, [quoted(verdict=repaired("splice"))])
    why = say("dates", "nobody", work="splice")
    assert (promise.day, promise.held_by) == (None, (say("dates", "left_out", why=why, n=1),))


def test_what_would_help_knows_the_people() -> None:
    box = [quoted(verdict=repaired("splice"))]
    kim = Person("Kim", hours=THURSDAYS, does=frozenset({"counter"}))
    found = what_ifs.helps(shop(NO_SPLICER, Person("Ben", hours=THURSDAYS), kim, people=2), [], TUESDAY, box)
    gained = {each.change: each.days_gained for each in found}
    assert gained[say("dates", "always_here", name="Ben")] == 2
    assert gained[say("dates", "one_more_person")] == 2
    assert say("dates", "always_here", name="Kim") not in gained, "no work of the bench waits for Kim"


def test_the_bench_says_when_somebody_is_here_who_loads_decks() -> None:
    afternoons = tuple(OpeningHours(day, 14 * 60, 18 * 60) for day in range(5))
    late = shop(Person("Ada", hours=afternoons))
    tape = queued(1)
    answer = next_tapes(late, [tape], TUESDAY)["VHS 1"]
    assert (answer.tape, answer.why) == (
        None,
        say("bench", "none_here_today", time=locale_figures.time_of_day(time(14))),
    )
    assert next_tapes(late, [tape], TUESDAY.replace(hour=15))["VHS 1"].tape == tape
    evening = next_tapes(shop(Person("Ada", hours=MORNINGS)), [tape], TUESDAY.replace(hour=15))["VHS 1"]
    assert (evening.tape, evening.why) == (None, say("bench", "none_here", day="Wednesday, March 4"))
    nobody = next_tapes(shop(Person("Ada", can=frozenset({"check"}))), [tape], TUESDAY)["VHS 1"]
    assert (nobody.tape, nobody.why) == (None, say("bench", "none_ever"))


def test_the_deck_week_begins_when_somebody_loads() -> None:
    afternoons = tuple(OpeningHours(day, 14 * 60, 18 * 60) for day in range(5))
    week = deck_week.week(shop(Person("Ada", hours=afternoons)), [queued(1)], TUESDAY)
    assert week.timelines[0].runs[0].start == TUESDAY.replace(hour=14) + timedelta(minutes=3)
