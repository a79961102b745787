"""What the shop counted becomes what it expects."""

from __future__ import annotations

from dataclasses import replace
from statistics import NormalDist

import numpy as np
import pytest

from core.model.own_shop.settings_records import Expected
from core.scheduling.event_rates import Counted, Gamma, RushMonth, failures, learned, rush_a_week

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


def test_a_shop_that_stated_nothing_reckons_with_failures_before_the_first() -> None:
    unseen = learned(Counted(play_hours=900), Expected(), 3)
    assert (unseen.hours_between_failures, unseen.hours_to_repair) == (500 + 900, 24)
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


def test_four_weeks_teach_of_rush_boxes_and_closed_days_and_less_teaches_nothing() -> None:
    for weeks, teaches in ((3.9, False), (4.0, True)):
        counted = Counted(shut_days=3, opening_days=20, rush=(RushMonth(3, 9, 30, weeks),))
        found = learned(counted, STATED, 3)
        assert (found.rush_boxes_a_week > 1.5) is teaches
        assert (found.tapes_in_a_rush_box != 4.0) is teaches
        assert (found.unplanned_closures > 0.03) is teaches


def test_a_month_is_held_against_the_year_as_a_gamma_law_says() -> None:
    """Conjugate of Poisson counts (Gelman et al., Bayesian Data Analysis, ch. 2): (a + n) ÷ (b + t).

    One a week stated for four weeks: 4 ÷ 4. Seen in the year 12 in 8 weeks: 16 ÷ 12. In March 10 of them in 4
    weeks: the year's rate for four weeks, and March's own: (4 × 16 ÷ 12 + 10) ÷ (4 + 4).
    """
    counted = Counted(rush=(RushMonth(3, 10, 30, 4.0), RushMonth(4, 2, 6, 4.0)))

    assert rush_a_week(counted, STATED, 3) == pytest.approx((4 * 16 / 12 + 10) / 8)
    assert rush_a_week(counted, Expected(), 3) == pytest.approx((4 * 12 / 8 + 10) / 8)


def test_a_first_rush_box_is_weighed_with_what_was_stated_of_its_tapes_or_with_five() -> None:
    counted = Counted(rush=(RushMonth(3, 1, 9, 4.0),))

    assert learned(counted, STATED, 3).tapes_in_a_rush_box == (4 + 9) / 2
    assert learned(counted, Expected(), 3).tapes_in_a_rush_box == (5 + 9) / 2


def test_a_year_of_closed_days_is_a_beta_law_worth_fifty_days() -> None:
    """Conjugate of days that are open or not: (0.02 × 50 + 6) ÷ (50 + 250)."""
    counted = Counted(shut_days=6, opening_days=250, rush=QUIET_YEAR)

    assert learned(counted, STATED, 3).unplanned_closures == pytest.approx((1 + 6) / 300)


@pytest.mark.parametrize("z", [-1.28, 0.0, 1.28])
@pytest.mark.parametrize("events", [2, 5, 30])
def test_time_between_events_is_within_a_percent_of_drawn_gamma_laws(events: int, z: float) -> None:
    """Wilson and Hilferty (1931) against numbers drawn from the gamma law itself, to what 100,000 tell."""
    drawn = 100.0 * events / np.random.default_rng(7).gamma(events, size=100_000)

    found = Gamma(float(events), 100.0 * events).between_percentile(z)

    assert found == pytest.approx(np.quantile(drawn, NormalDist().cdf(z)), rel=0.02)


def test_a_rate_of_what_was_never_watched_is_none() -> None:
    nothing = Gamma(0.0, 0.0)

    assert (nothing.rate, nothing.between, nothing.between_percentile(1.28)) == (0, 0, 0)
    assert Gamma(5.0, 0.5).rate == 10
    assert Gamma(1.0, 100.0).between_percentile(0.0) > 100


def test_hours_without_a_failure_speak_for_the_decks_of_a_shop_that_stated_nothing() -> None:
    assert failures(Counted(), Expected()) == Gamma(0.0, 0.0)
    assert failures(Counted(play_hours=900), Expected()) == Gamma(1.0, 500 + 900)


def test_a_shop_that_counted_no_days_expects_what_it_stated_of_closed_ones() -> None:
    assert learned(Counted(rush=QUIET_YEAR), STATED, 3).unplanned_closures == pytest.approx(0.02)
