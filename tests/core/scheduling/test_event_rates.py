"""What the shop counted becomes what it expects."""

from __future__ import annotations

from dataclasses import replace

import pytest

from core.model.own_shop.settings_records import Expected
from core.scheduling.event_rates import Counted, RushMonth, failures, learned, rush_a_week

STATED = Expected(
    hours_between_failures=400.0,
    hours_to_repair=20.0,
    rush_boxes_a_week=1.0,
    tapes_in_a_rush_box=4.0,
    unplanned_closures=0.02,
)
QUIET_YEAR = tuple(RushMonth(month, 0, 0, 4.3) for month in range(1, 13))


def test_a_shop_that_counted_nothing_expects_what_it_stated() -> None:
    assert learned(Counted(), STATED, 3) == STATED
    assert learned(Counted(), Expected(), 3) == Expected()


def test_hours_without_a_failure_speak_for_the_decks() -> None:
    assert learned(Counted(play_hours=400), STATED, 3).hours_between_failures == 800


def test_a_shop_that_stated_nothing_begins_to_reckon_with_the_first_failure() -> None:
    assert learned(Counted(play_hours=900), Expected(), 3).hours_between_failures == 0
    broken = learned(Counted(failures=1, play_hours=900, repair_hours=40), Expected(), 3)
    assert broken.hours_between_failures == (500 + 900) / 2
    assert broken.hours_to_repair == 24 + 40


def test_many_counts_drown_the_first_guess() -> None:
    counted = Counted(failures=50, play_hours=5000, repairs=50, repair_hours=900)
    found = learned(counted, STATED, 3)
    assert found.hours_between_failures == pytest.approx(100, rel=0.07)
    assert found.hours_to_repair == pytest.approx(18, rel=0.03)


def test_the_more_failures_the_surer_the_shop_is_of_them() -> None:
    few, many = (failures(Counted(failures=n, play_hours=100.0 * n), Expected()) for n in (3, 300))
    spread = [each.between_percentile(1.28) / each.between_percentile(-1.28) for each in (few, many)]
    assert spread[0] > 2 > 1.3 > spread[1]


def test_december_is_not_february() -> None:
    rush = tuple(
        replace(each, boxes=40 if each.month == 12 else 2, tapes=200 if each.month == 12 else 6)
        for each in QUIET_YEAR
    )
    counted = Counted(rush=rush)
    assert rush_a_week(counted, Expected(), 12) > 4
    assert rush_a_week(counted, Expected(), 2) < 1
    assert learned(counted, Expected(), 12).tapes_in_a_rush_box == pytest.approx(266 / 62, rel=0.01)


def test_a_month_never_seen_leans_on_the_whole_year() -> None:
    counted = Counted(rush=(RushMonth(3, 10, 30, 4.0), RushMonth(4, 10, 30, 4.0)))
    assert rush_a_week(counted, Expected(), 11) == pytest.approx(2.5)


def test_three_weeks_teach_nothing_of_rush_boxes_and_closed_days() -> None:
    counted = Counted(shut_days=3, opening_days=15, rush=(RushMonth(3, 9, 30, 3.0),))
    assert learned(counted, STATED, 3) == STATED


def test_closed_days_become_a_share_that_cannot_run_away() -> None:
    counted = Counted(shut_days=6, opening_days=250, rush=QUIET_YEAR)
    assert learned(counted, Expected(), 3).unplanned_closures == pytest.approx((0.5 + 6) / 300)
    assert learned(replace(counted, shut_days=250), Expected(), 3).unplanned_closures == 0.5
    assert learned(replace(counted, shut_days=0), Expected(), 3).unplanned_closures == 0
