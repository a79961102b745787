"""What is worth telling of dates rests on numbers: each by an example just within and just beyond."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from types import SimpleNamespace

import numpy as np
import pytest

from core.model.names import JobNumber
from core.model.own_shop.opening_records import OpeningHours
from core.model.promise_records import Chance, Promise
from core.model.ranges import exactly
from core.playtime.habits import STARTING
from core.promise import backlogs, chances, promise_basis, rush_effects, stated_dates, turnaround, what_ifs
from core.promise.backlogs import ShopWeek
from core.promise.order_search import Better, Promised
from core.promise.stated_dates import Finish
from core.scheduling.deck_choice import Suited
from core.scheduling.plan_records import Done, Step
from core.wording.messages import say
from tests.support.shops import TUESDAY, deck, fittings, queued

TWO = fittings(deck("A", "vhs"), deck("B", "vhs"), past_closing_minutes=0)
"""Open 45 hours a week: its decks play 90."""
ONE, OTHER = JobNumber("000001"), JobNumber("000002")
DAY = TUESDAY.date()


def weeks(came: list[float], played: list[float] | None = None) -> list[ShopWeek]:
    """Weeks in which so many hours came in, and as many were played unless told otherwise."""
    return [
        ShopWeek({(0, 1): 60 * hours}, 0.0, 60 * out) for hours, out in zip(came, played or came, strict=True)
    ]


# --- more comes in than is played --------------------------------------------------------


@pytest.mark.parametrize(("count", "is_told"), [(3, False), (4, True)])
def test_four_weeks_tell_of_a_backlog_and_three_do_not(count: int, is_told: bool) -> None:
    assert (backlogs.found(weeks([120.0] * count), TWO) is not None) is is_told


@pytest.mark.parametrize(("deviations", "is_told"), [(1.60, False), (1.70, True)])
def test_a_backlog_is_told_from_nineteen_chances_in_twenty(deviations: float, is_told: bool) -> None:
    """Four weeks, two of them 6 hours above their mean and two below: its standard error is 6 ÷ √3. A normal
    law has 95 % below 1.645 deviations."""
    mean = 90 + deviations * 6 / 3**0.5

    assert (backlogs.found(weeks([mean - 6, mean + 6] * 2), TWO) is not None) is is_told


@pytest.mark.parametrize(("times", "is_told"), [(1.049, False), (1.051, True)])
def test_a_twentieth_more_than_is_played_is_a_backlog(times: float, is_told: bool) -> None:
    found = backlogs.found(weeks([50.0 * times] * 5, [50.0] * 5), TWO)

    assert (found is not None) is is_told


@pytest.mark.parametrize(("share", "is_told"), [(0.24, False), (0.26, True)])
def test_a_shop_that_reads_less_than_a_quarter_off_its_decks_reads_none(share: float, is_told: bool) -> None:
    assert (backlogs.found(weeks([50.0] * 5, [50.0 * share] * 5), TWO) is not None) is is_told


def test_weeks_differ_by_a_half_at_most_in_what_a_date_is_unsure_by() -> None:
    """Standard deviation over mean, by hand: 481 ÷ 750 hours is held to a half, 10.7 ÷ 120 stays."""
    wild, tame = (backlogs.found(weeks(came), TWO) for came in ([1200.0, 300.0] * 4, [110.0, 130.0] * 4))

    assert wild is not None
    assert tame is not None
    assert wild.off == 0.5
    assert tame.off == pytest.approx(10 * (8 / 7) ** 0.5 / 120)


# --- the words of a date -----------------------------------------------------------------


@pytest.mark.parametrize(("share", "is_often"), [(0.95, True), (0.96, False)])
def test_how_often_is_said_up_to_nineteen_times_in_twenty(share: float, is_often: bool) -> None:
    last = Done(Step(1, 1, Suited((0,), "VHS"), exactly(60), 0.0), np.zeros(1))

    plain = say("dates", "decks", decks=1, what="VHS")
    often = say("dates", "decks_often", decks=1, what="VHS", often=chances.often(share))
    assert stated_dates._last_tape(last, (0,), share) == (often if is_often else plain)


@pytest.mark.parametrize(("benched", "is_bench"), [(0.5, False), (0.51, True)])
def test_a_tape_waits_for_the_bench_where_it_does_more_often_than_not(benched: float, is_bench: bool) -> None:
    last = Done(Step(1, 1, Suited((0,), "VHS"), exactly(60), 0.0), np.zeros(1), benched)

    (told,) = stated_dates._queue(Finish(np.zeros(1), ((last, 1.0),)), None)

    assert (told == say("dates", "bench")) is is_bench


@pytest.mark.parametrize(("by", "stands"), [(0.9985, False), (0.9990, True)])
def test_the_last_dot_stands_where_one_of_a_thousand_is_left(by: float, stands: bool) -> None:
    curve = (Chance(DAY, 0.95), Chance(DAY + timedelta(days=1), by))
    made = Promise(DAY, 0.95, None, None, (), curve, TUESDAY)

    assert (chances.days_of_dots(made)[-1] is not None) is stands


@pytest.mark.parametrize(("now", "is_told"), [(125, False), (126, True)])
def test_a_queue_is_named_when_it_grew_by_more_than_a_quarter(now: int, is_told: bool) -> None:
    before, after = (promise_basis.of(TWO, count) for count in (100, now))

    assert bool(promise_basis.changes(before, after)) is is_told


# --- rush, other orders, what would help -------------------------------------------------


@pytest.mark.parametrize(("falls", "is_told"), [(0.045, False), (0.055, True)])
def test_a_chance_that_falls_by_one_time_in_twenty_is_told(
    falls: float, is_told: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = Promise(DAY, 0.95, None, None, (), (), TUESDAY)
    told = iter((0.95, 0.95 - falls))
    monkeypatch.setattr(turnaround, "chance_of", lambda load, number, day: next(told))

    found = rush_effects.pushed(TWO, [queued(1, job=1)], TUESDAY, [], {ONE: made}, STARTING)

    assert bool(found) is is_told


@pytest.mark.parametrize(
    ("gained", "days", "is_worth_it"),
    [(0.009, 0.0, False), (0.011, 0.0, True), (0.0, 0.09, False), (0.0, 0.11, True), (-0.5, 0.11, True)],
)
def test_another_order_is_worth_a_promise_in_a_hundred_or_a_tenth_of_a_day(
    gained: float, days: float, is_worth_it: bool
) -> None:
    found = Better((ONE, OTHER), {ONE: (0.5, 0.5 + gained)}, {ONE: days, OTHER: days})

    assert found.is_worth_it is is_worth_it


@pytest.mark.parametrize(("will", "is_harmed"), [(0.891, False), (0.889, True)])
def test_a_box_is_harmed_when_its_chance_falls_by_more_than_one_in_a_hundred(
    will: float, is_harmed: bool
) -> None:
    found = Better((ONE,), {ONE: (0.95, will)}, {})

    assert bool(found.harmed({ONE: Promised(DAY, 0.9)})) is is_harmed


def test_longer_is_an_hour_and_no_day_is_longer_than_it_is() -> None:
    late = (OpeningHours(0, 540, 750), OpeningHours(0, 780, 1080), OpeningHours(1, 540, 1410))
    shop = replace(TWO, openings=late, past_closing_minutes=30)

    changed = dict(what_ifs.changes(shop, [0]))

    assert [each.end for each in changed[say("dates", "open_longer")].openings] == [750, 1140, 1440]
    assert changed[say("dates", "play_longer")].past_closing_minutes == 90


def test_a_day_sooner_is_a_day_of_the_calendar() -> None:
    def load(minutes: float) -> SimpleNamespace:
        return SimpleNamespace(jobs={ONE: Finish(np.full(3, minutes), ())})

    assert turnaround.days_sooner(load(3 * 1440.0), load(1440.0)) == {ONE: 2.0}  # type: ignore[arg-type]


# --- curves ------------------------------------------------------------------------------


def test_a_curve_shows_forty_days_at_most() -> None:
    days = [DAY + timedelta(days=n) for n in range(100)]

    assert len(stated_dates._curve(np.linspace(0.005, 0.5, 100), days, 50, None)) == 40
    assert len(stated_dates._curve(np.linspace(0.05, 0.95, 39), days[:39], None, None)) == 39


def test_a_curve_ends_where_one_of_a_thousand_is_left() -> None:
    days = [DAY + timedelta(days=n) for n in range(4)]

    curve = stated_dates._curve(np.array([0.5, 0.9989, 0.9991, 1.0]), days, 1, None)

    assert [chance.by for chance in curve] == [0.5, 0.9989, 0.9991]


@pytest.mark.parametrize(("days", "count"), [(0.045, 0), (0.055, 3)])
def test_three_changes_are_told_of_those_that_gain_an_hour_and_a_quarter(
    days: float, count: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A twentieth of a day is 72 minutes."""
    monkeypatch.setattr(what_ifs, "_sooner", lambda plain, other: days)

    assert len(what_ifs.reliefs(TWO, [queued(1), queued(2)], TUESDAY, {})) == count
