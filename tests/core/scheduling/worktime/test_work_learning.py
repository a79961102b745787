"""Efforts, paces, breaks and second plays that a shop really has are found again in the history it writes.

The history comes from `tests.support.worlds.work_history`, which imports nothing of the program.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from random import Random
from statistics import NormalDist, fmean

import pytest

from core.model.own_shop.handling_minutes import USUAL_HANDLING
from core.model.own_shop.settings_records import Person
from core.model.own_shop.work_habits import NO_HABITS
from core.model.stations import Station
from core.scheduling.worktime import work_learning
from core.scheduling.worktime.effort_beliefs import FIGURE_OFF, PERSON_OFF, believed, counted
from core.scheduling.worktime.recorded_acts import Act, TimedTask
from core.scheduling.worktime.work_learning import LearnedWork
from tests.support.shops import fittings
from tests.support.worlds.work_history import CLOSES, DAY, OPENS, Entry, Habits, Workshop

FIRST = date(2026, 3, 2)
PLANNED = {"look": 5.0, "load": 3.0, "unload": 2.0, "check": 8.0}
TWICE = {kind: 2 * minutes for kind, minutes in PLANNED.items()}
TASKS = {
    "look": TimedTask.LOOK_OVER,
    "load": TimedTask.LOAD,
    "unload": TimedTask.UNLOAD,
    "check": TimedTask.CHECK,
}


def acts(entries: Sequence[Entry]) -> list[Act]:
    return [
        Act(
            at=each.at,
            day=FIRST + timedelta(days=each.at // DAY),
            clock=each.at % DAY,
            who=each.who,
            about=each.tape,
            station=Station(each.station),
            deck=each.deck,
            played=each.played,
        )
        for each in entries
    ]


def hours(day: date) -> tuple[tuple[float, float], ...]:
    return ((OPENS, CLOSES),)


def seen(entries: Sequence[Entry]) -> LearnedWork:
    days = int(max(each.at for each in entries) // DAY) + 1
    today = FIRST + timedelta(days=days)
    return work_learning.learned(acts(entries), hours, USUAL_HANDLING, days * DAY, today)


def lived(habits: Habits, days: int = 20, tapes: int = 12, seed: int = 1) -> tuple[LearnedWork, Workshop]:
    workshop = Workshop(habits, 3, seed)
    return seen(workshop.live(days, tapes)), workshop


def test_a_shop_without_a_history_plans_as_it_stated() -> None:
    settings = fittings()
    found = work_learning.learned((), hours, settings.handling, 0.0, FIRST)
    assert found.reckoned(settings) == settings


def test_efforts_twice_those_planned_are_found() -> None:
    """The mean of 240 steps that vary by 0.4 of it is known to 2.6 %; four deviations are 10 %."""
    found, _ = lived(Habits(TWICE))
    for task in TASKS.values():
        assert found.factor(task) == pytest.approx(2.0, rel=0.10), task
    with_them = found.reckoned(fittings())
    assert with_them.handling.check == pytest.approx(16, rel=0.10)
    assert with_them.handling.further_hour == pytest.approx(6, rel=0.10)


@pytest.mark.parametrize("seed", [2, 3])
def test_minutes_of_staff_are_right_after_twenty_boxes_though_the_plan_was_half(seed: int) -> None:
    """The plan of the coming tapes by what was learned, beside what they then take.

    Within 12 %: four deviations of what was learned and of what comes (240 steps a kind, 2.6 % each, 1.5 %
    for the sum of four: 2.1 % together), and the prior, which holds two steps in 240 back by half: about 1 %.
    The rest is what lies between two steps.
    """
    found, workshop = lived(Habits(TWICE), seed=seed)
    planned = found.reckoned(fittings()).handling
    predicted = planned.look_over + planned.load + planned.unload + planned.check
    _, later = lived(Habits(TWICE), seed=seed + 100)
    taken = sum(fmean(each) for each in later.spent.values())
    assert predicted == pytest.approx(taken, rel=0.12)
    assert sum(PLANNED.values()) < 0.6 * taken
    assert len(workshop.spent["check"]) > 200


def test_what_was_called_away_from_or_forgotten_counts_for_little() -> None:
    """Every fifth step is broken into for 32 minutes on average, one in eight is recorded with the next.

    A break far longer than its step is seen for what it is. One about as long may pass for work: then the
    belief lies between the step by itself and the step with its breaks, which do take the person's time.
    """
    found, _ = lived(Habits(TWICE, called_away=0.2, forgets=0.12), days=25, seed=4)
    broken = 0.2 * 32.5
    for kind, task in TASKS.items():
        with_breaks = (TWICE[kind] + broken) / PLANNED[kind]
        assert 1.7 < found.factor(task) < with_breaks, task
    for task in (TimedTask.LOAD, TimedTask.UNLOAD):  # 4 and 3.3 times with the breaks
        assert found.factor(task) == pytest.approx(2.0, rel=0.15), task


def test_a_tape_left_standing_every_night_changes_nothing() -> None:
    entries = list(Workshop(Habits(PLANNED), 3, 5).live(15, 12))
    left = [
        entry
        for day in range(15)
        for entry in (
            Entry(day * DAY + CLOSES - 1, "Zoe", f"9{day:05d}0010", "being-checked", "", 60.0),
            Entry((day + 1) * DAY + OPENS + 1, "Zoe", f"9{day:05d}0010", "ready"),
        )
    ]
    with_them = seen(sorted([*entries, *left], key=lambda entry: entry.at))
    assert with_them.factor(TimedTask.CHECK) == pytest.approx(seen(entries).factor(TimedTask.CHECK), rel=0.02)


def test_steps_recorded_in_one_breath_share_the_time_before_them() -> None:
    """Eight checks of ten minutes each, all written down at the end, day after day."""
    entries = []
    for day in range(20):
        at = day * DAY + OPENS
        entries.append(Entry(at, "Ada", f"8{day:05d}0999", "booked-in"))
        codes = [f"7{day:05d}{n:03d}0" for n in range(8)]
        entries += [Entry(at - 60, "Ben", code, "playing") for code in codes]
        entries += [Entry(at, "Ben", code, "being-checked", "", 60.0) for code in codes]
        entries += [Entry(at + 80 + 0.01 * n, "Ada", code, "ready") for n, code in enumerate(codes)]
    assert seen(entries).factor(TimedTask.CHECK) == pytest.approx(10 / 8, rel=0.05)


def test_a_slow_person_is_told_from_a_quick_one_and_a_newcomer_from_nobody() -> None:
    staff = (Person("Ada"), Person("Ben", can=frozenset({"check"})))
    found, _ = lived(Habits(TWICE, people={"Ada": 0.8, "Ben": 1.4}), seed=6)
    paces = dict(found.reckoned(fittings(staff=staff)).worked.paces)
    assert paces["Ben"] / paces["Ada"] == pytest.approx(1.4 / 0.8, rel=0.15)

    entries = list(Workshop(Habits(PLANNED), 3, 7).live(10, 12))
    new = [Entry(each.at, "Cleo", each.tape, each.station) for each in entries[-4:]]
    assert "Cleo" not in dict(seen([*entries[:-4], *new]).paces)


def test_few_steps_of_a_person_pull_less_than_many() -> None:
    """Partial pooling: steps of a coefficient of variation of a half, of somebody who takes twice as long."""
    dice = Random(8)
    steps = [(dice.gammavariate(4.0, 2.0 / 4.0), 1.0) for _ in range(400)]
    few, more, many = (believed(counted(steps[:n]), PERSON_OFF) for n in (15, 60, 400))
    assert 1.2 < few.factor < more.factor < 2.1
    assert many.factor == pytest.approx(2.0, rel=0.1)
    assert few.high / few.low > more.high / more.low > many.high / many.low
    assert believed(counted(steps[:9]), PERSON_OFF).factor == 1.0


def test_what_was_stated_is_worth_two_intervals() -> None:
    """Beside the conjugate normal law of logarithms: 0.354 for the prior, 0.5 for an interval."""
    steps = [(2.0 * math.exp(0.5 * NormalDist().inv_cdf((n + 0.5) / 20)), 1.0) for n in range(20)]
    mean = fmean(ratio for ratio, _ in steps)
    pulled = math.exp(math.log(mean) * 20 / (20 + 0.5**2 / FIGURE_OFF**2))
    assert believed(counted(steps)).factor == pytest.approx(pulled, rel=0.07)


def test_second_plays_are_counted_once_there_are_enough() -> None:
    found, _ = lived(Habits(PLANNED, again=0.15), days=25, seed=9)
    assert found.second_plays.again > 20
    assert found.second_plays.share == pytest.approx(0.15, abs=0.05)
    early, _ = lived(Habits(PLANNED, again=0.5), days=1, tapes=6, seed=9)
    assert early.second_plays.share == 0.0


def test_a_late_beginning_and_a_lunch_are_seen_where_there_is_work() -> None:
    """A quarter of an hour is the grain of it."""
    found, _ = lived(Habits(PLANNED, late=30.0, lunch=(750.0, 60.0)), days=40, tapes=20, seed=10)
    habits = found.reckoned(fittings()).worked
    assert habits.begins_late == pytest.approx(30, abs=15)
    assert habits.break_from == pytest.approx(750, abs=15)
    assert habits.break_minutes == pytest.approx(60, abs=15)


def test_no_break_is_seen_where_there_is_none() -> None:
    found, _ = lived(Habits(PLANNED), days=40, tapes=20, seed=11)
    assert replace(found.reckoned(fittings()).worked, again=0.0, repair=1.0, paces=()) == NO_HABITS


def test_waits_count_those_that_still_wait() -> None:
    """Ten answers after a day each, and ten that have not come for two days: 30 days, ten answers.

    The prior is 48 hours, worth two.
    """
    entries = []
    for n in range(10):
        entries.append(Entry(0.0, "Ada", f"1{n:09d}", "asking-the-customer"))
        entries.append(Entry(DAY, "Ada", f"1{n:09d}", "looked-over"))
        entries.append(Entry(DAY, "Ada", f"2{n:09d}", "asking-the-customer"))
    entries.sort(key=lambda entry: entry.at)
    found = work_learning.learned(acts(entries), hours, USUAL_HANDLING, 3 * DAY, FIRST + timedelta(days=3))
    answers = next(wait for wait in found.waits if wait.station is Station.ASKING_THE_CUSTOMER)
    assert answers.ended == 10
    assert answers.hours == pytest.approx((2 * 48 + 10 * 24 + 10 * 48) / (2 + 10))


def test_orders_by_weekday_lean_on_the_whole_week() -> None:
    """Two orders every Monday of eight weeks, none on other days."""
    booked = [
        Act(n * 7 * DAY + OPENS, FIRST + timedelta(weeks=n), OPENS, "Ada", f"{n:06d}", books=True)
        for n in range(8)
        for _ in range(2)
    ]
    found = work_learning.learned(
        booked, hours, USUAL_HANDLING, 56 * DAY, FIRST + timedelta(days=56)
    ).arrivals
    rates, usual = dict(found.weekdays), 16 / 56
    assert found.a_day == pytest.approx(usual)
    assert rates[0] == pytest.approx((4 * usual + 16) / 12)
    assert rates[1] == pytest.approx(4 * usual / 12)


def test_a_few_days_with_a_lunch_are_no_habit_yet() -> None:
    """What nothing was recorded at on nine days leaves a third of the usual rate to a prior of ten days."""
    found, _ = lived(Habits(PLANNED, lunch=(750.0, 60.0)), days=9, tapes=20, seed=10)
    assert found.presence.days == 9
    assert found.presence.break_minutes == 0.0
