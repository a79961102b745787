"""What judged promises teach: a little each, both ways, without bias from those that are still open."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from math import log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.model.own_shop.opening_records import OpeningHours
from core.model.promise_records import AS_PLANNED, Chance, Promise, Recalibrated, Recalibration
from core.promise import recalibration
from core.promise.lateness import Lateness, shown, tenths_of_plans
from core.promise.recalibration_fit import _HELD, REMEMBERED, fitted, learned
from core.promise.reliability import Judged
from core.scheduling.opening_hours import calendar
from tests.support.shops import FRONT, fittings
from tests.support.worlds.recalibrators import AdaptiveLevel

EVERY_DAY = tuple(OpeningHours(day, 9 * 60, 18 * 60) for day in range(7))
CALENDAR = calendar(fittings(openings=EVERY_DAY, front=replace(FRONT, timezone="UTC")), date(2026, 1, 1))
MADE = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)
TODAY = date(2026, 6, 1)
outcomes = st.builds(
    Lateness,
    level=st.floats(0.5, 1),
    ratio=st.floats(-2, 2),
    is_open=st.just(False),
    tapes=st.just(4),
    rush=st.just(False),
    allowed=st.just(1e6),  # all of one time: nothing is known of the luck they share
)


def outcome(
    ratio: float, level: float = 0.9, tapes: int = 4, *, rush: bool = False, is_open: bool = False
) -> Lateness:
    return Lateness(level, ratio, is_open, tapes, rush)


def drawn(count: int, shift: float = 0.0, tapes: int = 4, seed: int = 1) -> list[list[Lateness]]:
    """Orders whose leads spread by a fifth around the plan's, or later by a shift; said at 90 %."""
    at = recalibration.score(0.9) * 0.2
    errors = np.random.default_rng(seed).normal(shift, 0.2, count)
    return [
        [outcome(float(error) - at, tapes=tapes), replace(outcome(float(error), 0.5, tapes), is_even=True)]
        for error in errors
    ]


# --- a little each -------------------------------------------------------------------------


def test_nothing_known_is_the_plan_itself() -> None:
    assert fitted([]) == AS_PLANNED
    assert learned([], CALENDAR) == AS_PLANNED


@given(
    st.lists(st.lists(outcomes, min_size=1, max_size=2), max_size=12),
    st.lists(outcomes, min_size=1, max_size=2),
)
def test_one_more_outcome_moves_the_map_no_further_than_its_bound(
    before: list[list[Lateness]], one: list[Lateness]
) -> None:
    """A sum that is strongly convex by its penalty: what one term, and forgetting, add to its slope."""
    held = np.array(_HELD)
    was, now = (
        np.array([each.middle, each.later, each.spread, each.size, each.rush])
        for each in (fitted(before), fitted([*before, one]))
    )
    bound = sum(
        np.sqrt(1 / held[0] + each.width**2 * (1 / held[1] + recalibration.score(each.level) ** 2 / held[2]))
        for each in one
    )
    bound += (1 - np.exp(-1 / REMEMBERED)) * np.sqrt(held @ was**2)
    assert np.sqrt(held @ (now - was) ** 2) <= bound + 1e-4


def test_late_ones_set_dates_further_off_and_early_ones_nearer() -> None:
    assert _at(fitted(drawn(100, 0.25)), 0.5) == pytest.approx(0.25, abs=0.06)
    assert _at(fitted(drawn(100, -0.25)), 0.5) == pytest.approx(-0.25, abs=0.06)
    assert abs(_at(fitted(drawn(400)), 0.5)) < 0.03
    few, many = ([[outcome(0.25)]] * count for count in (2, 40))  # each late by as much
    assert 0 < _at(fitted(few)) < _at(fitted(many)) < 0.4


def test_older_promises_are_forgotten() -> None:
    late_before, late_now = fitted([*drawn(200, 0.3), *drawn(200)]), fitted([*drawn(200), *drawn(200, 0.3)])
    assert _at(late_before, 0.5) < 0.15 < _at(late_now, 0.5)


def test_the_same_promises_give_the_same_map() -> None:
    assert fitted(drawn(60, 0.2)) == fitted(drawn(60, 0.2))


def test_big_orders_that_run_late_move_big_orders_most() -> None:
    mixed = [one for pair in zip(drawn(60, 0.0, 2), drawn(60, 0.3, 16, seed=2), strict=True) for one in pair]
    found = fitted(mixed)
    assert found.size > 0.03
    small, big = (recalibration.of_order(found, tapes).middle for tapes in (2, 16))
    assert big - small > 0.12


def test_big_orders_that_run_early_make_none_earlier_than_a_smaller_one() -> None:
    mixed = [one for pair in zip(drawn(60, 0.3, 2), drawn(60, 0.0, 16, seed=2), strict=True) for one in pair]
    assert fitted(mixed).size == 0


def test_rush_orders_that_run_late_are_not_set_behind_the_others() -> None:
    late = [[replace(row, rush=True) for row in one] for one in drawn(60, 0.3, seed=2)]
    mixed = [one for pair in zip(drawn(60), late, strict=True) for one in pair]
    assert fitted(mixed).rush == 0


def test_plans_that_err_as_far_as_they_are_unsure_are_moved_so() -> None:
    """Half of the orders in plans three times as unsure as the others, all late by one and a half widths."""
    narrow, wide = ([_late_by_widths(width) for _ in range(60)] for width in (0.15, 0.45))
    found = fitted([one for pair in zip(narrow, wide, strict=True) for one in pair])
    factors = [recalibration.of_order(found, 4, width=width).at(1.28) for width in (0.15, 0.45)]
    assert factors[1] > 2 * factors[0] > 0.2
    same = fitted([[replace(row, width=0.3) for row in one] for one in (*narrow, *wide)])
    alike = [recalibration.of_order(same, 4, width=0.3).at(1.28) for _ in range(2)]
    assert alike[1] == alike[0]


def _late_by_widths(width: float) -> list[Lateness]:
    return [replace(outcome(1.5 * width), width=width)]


def test_luck_that_orders_of_one_time_share_makes_dates_less_sure() -> None:
    """The same lateness, of three bad and three good times or of orders that have nothing in common."""
    rows = [one for shift in (0.4, -0.4) * 3 for one in drawn(20, shift)]
    together, apart = (
        fitted([[replace(row, made=float(n), allowed=lasts) for row in one] for n, one in enumerate(rows)])
        for lasts in (20.0, 1.0)
    )
    assert together.middle == apart.middle
    assert together.spread > apart.spread + 0.03


# --- those that are still open -------------------------------------------------------------


def test_open_orders_leave_no_bias() -> None:
    """Promises come due one after another; what is open then is as late as others turned out to be.

    Beside it: taken for ready today, or left out, they make dates too early.
    """
    dice, off = np.random.default_rng(3), {"known": 0.0, "censored": 0.0, "as if ready": 0.0, "left out": 0.0}
    for _ in range(12):
        errors, until = dice.normal(0.3, 0.4, 150), dice.uniform(0.0, 1.2, 150)
        known = [[outcome(float(error))] for error in errors]
        pairs = list(zip(errors.tolist(), until.tolist(), strict=True))
        seen = [[outcome(min(each), is_open=each[0] > each[1])] for each in pairs]
        ready = [[replace(row, is_open=False) for row in one] for one in seen]
        some = [one for one in seen if not one[0].is_open]
        for name, rows in (("known", known), ("censored", seen), ("as if ready", ready), ("left out", some)):
            off[name] += _at(fitted(rows)) / 12
    assert off["censored"] == pytest.approx(off["known"], abs=0.05)
    assert off["as if ready"] < off["known"] - 0.06
    assert off["left out"] < off["known"] - 0.1


def _at(found: Recalibration, level: float = 0.9) -> float:
    return recalibration.of_order(found, 4).at(recalibration.score(level))


def test_an_order_that_never_comes_is_late_whatever_the_date() -> None:
    assert fitted([[outcome(0.01, is_open=True)]]).middle > 0


# --- from the records ----------------------------------------------------------------------

CURVE = (0.0, 0.2, 0.4, 0.55, 0.7, 0.82, 0.92, 0.97, 1.0)


def judged(ready: int | None, day: int = 6, moved: float | None = None) -> Judged:
    days = [MADE.date() + timedelta(days=n) for n in range(len(CURVE))]
    curve = tuple(Chance(each, share) for each, share in zip(days, CURVE, strict=True))
    about = None if moved is None else Recalibrated(4, False, moved)
    made = Promise(days[day], CURVE[day], days[3], days[6], (), curve, MADE, None, about)
    due = datetime.combine(days[day], datetime.min.time(), UTC) + timedelta(days=1)
    at = None if ready is None else MADE + timedelta(days=ready, hours=4)
    return Judged("000018", "Ada Fenwick", made, due, at, at.date() if at else None, TODAY)


def some(count: int, slower: int = 0, moved: float | None = None, seed: int = 1) -> list[Judged]:
    days = np.searchsorted(CURVE, np.random.default_rng(seed).random(count))
    return [judged(int(ready) + slower, moved=moved) for ready in days]


def test_promises_kept_as_stated_move_nothing_much() -> None:
    assert abs(_at(learned(some(150), CALENDAR))) < 0.12


def test_late_promises_are_learned_from_the_records() -> None:
    found = learned(some(150, slower=3), CALENDAR)
    assert _at(found) > 0.25
    assert found.promises == 150


def test_what_was_moved_already_counts_from_where_the_plan_had_it() -> None:
    """Kept as stated, with dates a fifth further off than planned: they are to stay so."""
    moved = log(1.2)
    found = _at(learned(some(150, moved=moved), CALENDAR))
    assert found == pytest.approx(_at(learned(some(150), CALENDAR)) + moved, abs=0.06)


def test_a_promise_from_before_the_calendar_teaches_nothing() -> None:
    late = calendar(fittings(openings=EVERY_DAY), date(2026, 4, 1))
    assert learned(some(50, slower=3), late) == AS_PLANNED


def test_ready_on_the_last_evening_is_kept_and_the_next_morning_is_late() -> None:
    evening, morning = judged(6, day=3), judged(7, day=3)
    at = datetime(2026, 3, 5, 20, 0, tzinfo=UTC), datetime(2026, 3, 6, 9, 1, tzinfo=UTC)
    kept, late = (replace(one, ready_at=when) for one, when in zip((evening, morning), at, strict=True))
    (was_kept, *_), (was_late, *_) = shown([kept, late], CALENDAR)
    assert was_kept.ratio == 0 < was_late.ratio < 0.03


def test_the_tenths_of_the_plan_are_those_before_dates_were_moved() -> None:
    plain = tenths_of_plans(some(200), CALENDAR)
    assert max(plain) < 0.2
    moved = tenths_of_plans(some(200, moved=log(1.5)), CALENDAR)
    assert moved[-1] > 0.3


# --- the comparison's own theorem ----------------------------------------------------------


@given(st.lists(st.floats(0, 1), min_size=1, max_size=300), st.floats(0.005, 0.2))
def test_an_adaptive_level_is_right_in_the_long_run_whatever_happens(
    places: list[float], step: float
) -> None:
    """Gibbs and Candès 2021, proposition 4.1: |late − 10 %| ≤ (0.9 + step) ÷ (step · T), from memory."""
    way, late = AdaptiveLevel(step), 0
    for place in places:
        is_late = place > 0.9 + way.off
        late += is_late
        way.off += step * (is_late - 0.1)
    assert abs(late / len(places) - 0.1) <= (0.9 + step) / (step * len(places)) + 1e-9


def test_the_first_late_order_of_a_shop_does_not_move_all_dates_far() -> None:
    """A few orders say next to nothing of how unlike times are: seen in the invented shop, where one of four
    orders was two days late and every new date was set three times as far off."""
    times = [replace(outcome(0.6 if place == 1 else -0.5), made=300.0 * place) for place in range(4)]
    few = fitted([(each,) for each in times])
    many = fitted(
        [(replace(each, made=300.0 * (n + 4 * k)),) for k in range(40) for n, each in enumerate(times)]
    )
    assert 1.0 <= recalibration.typical(few) < 1.2
    assert recalibration.typical(many) > 1.5, "a quarter late for long is another shop than the plan's"
