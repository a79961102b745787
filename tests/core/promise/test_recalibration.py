"""The plan's curve is moved as a whole: nothing without evidence, in order, within bounds, told in words."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from core.model.promise_records import AS_PLANNED, Recalibrated, Recalibration, Seen
from core.promise import chances, recalibration, shop_minutes
from core.promise.turnaround import load
from core.scheduling.opening_hours import calendar
from core.wording.messages import say
from tests.support.shops import TUESDAY, fittings, queued, quoted
from tests.support.worlds import random_shops
from tests.support.worlds.random_shops import CHANGES, Asked

SHOP = fittings()
CALENDAR = calendar(SHOP, TUESDAY.date())
NOW = CALENDAR.at(TUESDAY)
LEARNED = Recalibration(0.1, 0.2, 0.08, -0.05, Seen(0, 2, 5), 120, later=0.3)
leads = st.lists(st.floats(1, 20_000), min_size=1, max_size=30)
orders = st.builds(
    Recalibrated, st.just(5), st.booleans(), st.floats(-0.6, 1.0), st.floats(-0.3, 0.8), st.floats(-1.0, 2.0)
)


def at(some: list[float]) -> np.ndarray:  # type: ignore[type-arg]
    begun = float(shop_minutes.passed(CALENDAR, np.array([NOW]))[0])
    return shop_minutes.when_passed(CALENDAR, begun + np.array(some))


def asked(**expected: object) -> Asked:
    shop = replace(SHOP, expected=replace(SHOP.expected, **expected))  # type: ignore[arg-type]
    return Asked(shop, tuple(queued(n) for n in range(9)), tuple(quoted(n) for n in range(1, 6)))


@given(leads)
def test_shop_minutes_lead_back_to_their_moment(some: list[float]) -> None:
    moments = at(some)
    again = shop_minutes.when_passed(CALENDAR, shop_minutes.passed(CALENDAR, moments))
    assert again == pytest.approx(moments, abs=1e-6)


def test_a_night_is_an_hour_of_the_shop() -> None:
    closes, opens = CALENDAR.closes[0], CALENDAR.opens[1]
    before, after = shop_minutes.passed(CALENDAR, np.array([closes, opens]))
    assert after - before == pytest.approx(shop_minutes.CLOSING)
    assert shop_minutes.closed_by(CALENDAR, opens - 1) == pytest.approx(before)
    inside = shop_minutes.when_passed(CALENDAR, np.array([before + 30.0]))
    assert inside == pytest.approx(opens)


def test_a_shop_without_evidence_states_what_the_plan_says() -> None:
    times = at([30.0, 700.0, 90.0])
    order = recalibration.of_order(AS_PLANNED, 40, True)
    assert (order.middle, order.spread) == (0.0, 0.0)
    assert recalibration.moved(times, order, CALENDAR, NOW) is times
    made = asked().answer()
    assert made.recalibrated is not None
    assert replace(made.recalibrated, width=None) == Recalibrated(5, False)
    assert made.held_by == asked(recalibration=Recalibration(promises=30)).answer().held_by


@example([60.0] * 9, Recalibrated(5, False, 0.0, -0.1))
@given(leads, orders)
def test_moved_times_keep_their_places_and_lie_within_bounds(some: list[float], order: Recalibrated) -> None:
    times = at(some)
    after = recalibration.moved(times, order, CALENDAR, NOW)
    assert (np.diff(after[np.argsort(times, kind="stable")]) >= 0).all()
    begun = float(shop_minutes.passed(CALENDAR, np.array([NOW]))[0])
    was, will = (shop_minutes.passed(CALENDAR, each) - begun for each in (times, after))
    assert (will >= recalibration.LEAST * was - 1e-6).all()
    assert (will <= recalibration.MOST * was.max() + shop_minutes.CLOSING).all()


@given(leads, orders, st.floats(0, 500), st.floats(0, 0.5))
def test_what_is_later_in_every_scenario_stays_so(
    some: list[float], order: Recalibrated, more: float, further: float
) -> None:
    """So a tape more makes no date earlier: its times are later, and its factors no smaller."""
    bigger = replace(order, middle=order.middle + further)
    before = recalibration.moved(at(some), order, CALENDAR, NOW)
    after = recalibration.moved(at([each + more for each in some]), bigger, CALENDAR, NOW)
    assert (np.sort(after) >= np.sort(before) - 1e-6).all()


def test_beyond_the_calendar_stays_there() -> None:
    times = np.append(at([30.0, 700.0]), np.inf)
    after = recalibration.moved(times, Recalibrated(5, False, 0.2), CALENDAR, NOW)
    assert np.isinf(after).tolist() == [False, False, True]


def test_size_and_rush_move_an_order_as_far_as_they_were_seen() -> None:
    def middle(tapes: int, rush: bool = False) -> float:
        return recalibration.of_order(LEARNED, tapes, rush).middle

    assert middle(4) == pytest.approx(0.1)
    assert middle(8) == pytest.approx(0.18)
    assert middle(64) == middle(32) == pytest.approx(0.34)
    assert middle(4, rush=True) == pytest.approx(0.05)


def test_day_chance_and_dots_come_from_the_one_moved_curve() -> None:
    was, now = asked().answer(), asked(recalibration=Recalibration(0.4, 0.3, promises=80)).answer()
    assert was.day is not None
    assert now.day is not None
    assert now.day > was.day
    assert now.stated >= 0.9
    assert {chance.day: chance.by for chance in now.chances}[now.day] == now.stated
    dots = [day for day in chances.days_of_dots(now) if day is not None]
    assert sum(day <= now.day for day in dots) == chances.times_in_twenty(now.stated)
    assert any("running late" in why for why in now.held_by)
    assert not any("running late" in why for why in was.held_by)


@settings(max_examples=3, deadline=None, derandomize=True)
@given(random_shops.asked())
def test_dates_of_a_shop_that_learned_move_the_right_way(one: Asked) -> None:
    """Many: `tests.bench dates`."""
    expected = replace(one.settings.expected, recalibration=LEARNED)
    one = replace(one, settings=replace(one.settings, expected=expected))
    made = one.answer()
    assert not list(random_shops.falls(made))
    for change in CHANGES:
        other = change.make(one).answer()
        assert not list(random_shops.falls(other)), change.words
        assert change.behaves(made, other), change.words


def test_a_standing_order_is_told_by_the_same_map() -> None:
    from core.promise import turnaround  # the module, to ask it about its queue

    one = asked(recalibration=Recalibration(0.6, 0.6, promises=80))
    plain, moved = (load(each.settings, each.queue, TUESDAY) for each in (asked(), one))
    number = one.queue[0].job
    was, now = turnaround.standing(plain, number), turnaround.standing(moved, number)
    assert was is not None
    assert now is not None
    assert was.day is not None
    assert now.day is not None
    assert was.day < now.day
    assert turnaround.chance_of(moved, number, now.day) == now.stated
    assert turnaround.chance_of(moved, number, was.day) < was.stated


def test_the_owner_is_told_in_one_sentence() -> None:
    assert recalibration.explained(AS_PLANNED) == say("dates", "moved_none")
    assert recalibration.explained(Recalibration(promises=40)) == say("dates", "moved", n=40, percent=100)
    told = recalibration.explained(LEARNED)
    assert told == say("dates", "moved_by_size", n=120, percent=131, big=32, more=166)
    assert "131%" in told
