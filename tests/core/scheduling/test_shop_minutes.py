"""The minutes of a shop in its plans: the check follows what it is, people rest, tapes play twice."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from core.model.own_shop.handling_minutes import USUAL_HANDLING, HandlingMinutes
from core.model.own_shop.settings_records import Person, ShopSettings
from core.model.own_shop.work_habits import WorkHabits
from core.model.ranges import exactly
from core.model.stations import Station
from core.promise import turnaround
from core.scheduling import opening_hours, rosters, second_plays
from core.scheduling.queued_tapes import QueuedTape
from tests.support.shops import TUESDAY, deck, fittings, queued


def done_at(shop: ShopSettings, *queue: QueuedTape, by_hand: bool | None = None) -> float:
    """When the first tape of the queue is through, in the mean of the scenarios; minutes of opening."""
    load = turnaround.load(shop, queue, TUESDAY, by_hand=by_hand)
    at = load.jobs[queue[0].job].at
    return float(np.mean(load.calendar.worked(at) - load.calendar.worked(np.array([load.now]))))


def longer(shop: ShopSettings, minutes: float, by_hand: bool) -> float:
    """By how much a tape takes longer than it plays, beside a tape of an hour."""
    each = [done_at(shop, queued(1, minutes=exactly(m)), by_hand=by_hand) - m for m in (60.0, minutes)]
    return each[1] - each[0]


SHOP = fittings(deck("A", "vhs"), people=3)


@pytest.mark.parametrize("by_hand", [True, False])
def test_a_spot_check_takes_longer_for_a_long_tape(by_hand: bool) -> None:
    """Six hours: eight minutes up to two hours and three for each of the four further ones."""
    assert USUAL_HANDLING.check_of(360) == 8 + 4 * 3
    assert longer(SHOP, 360.0, by_hand) == pytest.approx(12.0)
    assert longer(SHOP, 119.0, by_hand) == pytest.approx(0.0)


@pytest.mark.parametrize("by_hand", [True, False])
def test_a_copy_watched_from_start_to_end_takes_as_long_as_it_plays(by_hand: bool) -> None:
    whole = replace(SHOP, handling=HandlingMinutes(whole_check=True))
    assert whole.handling.check_of(3) == 8  # the least
    assert longer(whole, 200.0, by_hand) == pytest.approx(200.0 - 60.0)


@pytest.mark.parametrize(("station", "more"), [(Station.CLEARED_TO_PLAY, 13), (Station.BOOKED_IN, 23)])
def test_minutes_that_are_stated_are_planned(station: Station, more: float) -> None:
    tape = queued(1, minutes=exactly(60.0), station=station)
    slow = replace(SHOP, handling=HandlingMinutes(look_over=15, load=6, unload=4, check=16))
    assert done_at(slow, tape, by_hand=True) - done_at(SHOP, tape, by_hand=True) == pytest.approx(more)


def test_nobody_works_at_lunch_nor_before_work_begins() -> None:
    habits = WorkHabits(begins_late=30.0, break_from=750.0, break_minutes=60.0)
    calendar = opening_hours.calendar(SHOP, date(2026, 3, 3), 2)
    thin = rosters.thinned(calendar, habits)
    begins, ends = float(calendar.opens[0]), float(calendar.closes[0])
    assert list(zip(thin.opens[:2], thin.closes[:2], strict=True)) == [
        (begins + 30, 750.0),
        (810.0, ends),
    ]
    assert thin.days == calendar.days
    assert list(thin.day_ends) == list(calendar.day_ends)


@pytest.mark.parametrize("staff", [(), (Person("Ada", can=frozenset({"load", "check"})),)])
def test_a_tape_that_ends_at_lunch_is_unloaded_after_it(staff: tuple[Person, ...]) -> None:
    """Begun at 9:03, it ends at 12:53, in the break from 12:30 to 14:00."""
    one = replace(SHOP, people=1, staff=staff)
    rests = replace(one, worked=WorkHabits(break_from=750.0, break_minutes=90.0))
    tape = queued(1, minutes=exactly(230.0))
    late = done_at(rests, tape) - done_at(one, tape)
    assert late == pytest.approx(67.0)


def test_somebody_slow_takes_longer_where_people_are_followed_one_by_one() -> None:
    staff = (Person("Ada", can=frozenset({"load", "check"})),)
    one = replace(SHOP, people=1, staff=staff)
    slow = replace(one, worked=WorkHabits(paces=(("Ada", 2.0),)))
    tape = queued(1, minutes=exactly(60.0))
    assert done_at(slow, tape) > done_at(one, tape) + 8.0


def test_tapes_are_played_again_as_often_as_is_said() -> None:
    minutes, fails = np.full((40, 1000), 60.0), np.full((40, 1000), 90.0)
    found = second_plays.ended_in_vain(minutes, fails, range(40), 0.1, 7)
    assert set(np.unique(found)) == {60.0 - second_plays.BEFORE_THE_END, 90.0}
    assert float((found < 60).mean()) == pytest.approx(0.1, abs=4 * (0.1 * 0.9 / 40_000) ** 0.5)
    assert (second_plays.ended_in_vain(minutes, None, range(40), 0.0, 7) == np.inf).all()
    assert (minutes == 60.0).all()
    assert (fails == 90.0).all()


@pytest.mark.parametrize("by_hand", [True, False])
def test_a_second_play_waits_for_the_check_and_for_an_opening_it_fits(by_hand: bool) -> None:
    """Two hours are played twice within a day, with the check of the first play between; six hours end past
    15:00, so the second play is begun on the next morning."""
    again = replace(SHOP, worked=WorkHabits(again=1.0))
    short, long = (queued(1, minutes=exactly(minutes)) for minutes in (110.0, 360.0))
    assert done_at(again, short, by_hand=by_hand) - done_at(SHOP, short, by_hand=by_hand) == pytest.approx(
        110.0 + USUAL_HANDLING.unload + USUAL_HANDLING.check, abs=10.0
    )
    assert done_at(again, long, by_hand=by_hand) - done_at(SHOP, long, by_hand=by_hand) == pytest.approx(
        540.0, abs=10.0
    )


def test_a_shop_with_second_plays_is_later() -> None:
    queue = [queued(n, minutes=exactly(60.0), job=n) for n in range(1, 9)]
    again = replace(SHOP, worked=WorkHabits(again=0.2))
    last = [turnaround.load(shop, queue, TUESDAY).jobs[queue[-1].job].at.mean() for shop in (SHOP, again)]
    assert last[1] > last[0]
