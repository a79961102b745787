"""A tape keeps its draws; the draws follow what is believed of it."""

from __future__ import annotations

import numpy as np
import pytest

from core.model import common_random_numbers
from core.model.ranges import Range, exactly

BELIEF = Range(60, 100, 300)


def test_a_tape_has_the_same_draws_whatever_else_is_in_the_box() -> None:
    alone = common_random_numbers.shared(7, [common_random_numbers.key(1, 1)], [5], 50)
    among = common_random_numbers.shared(
        7, [common_random_numbers.key(2, 1), common_random_numbers.key(1, 1)], [5, 5], 50
    )
    assert (alone[0] == among[1]).all()


def test_the_first_scenarios_stay_when_there_are_more() -> None:
    assert (
        common_random_numbers.uniforms(7, [3], 100)[0] == common_random_numbers.uniforms(7, [3], 500)[0, :100]
    ).all()


def test_other_tapes_and_other_seeds_have_other_draws() -> None:
    first, second = common_random_numbers.uniforms(7, [1, 2], 400)
    assert abs(np.corrcoef(first, second)[0, 1]) < 0.15
    assert (first != common_random_numbers.uniforms(8, [1], 400)[0]).all()


def test_keys_are_the_same_in_every_process() -> None:
    assert common_random_numbers.key("0000130017") == 17122604080467749528


def test_draws_are_uniform_with_and_without_the_habit_of_the_box() -> None:
    for found in (
        common_random_numbers.uniforms(7, [1], 100_000)[0],
        common_random_numbers.shared(7, [1], [9], 100_000)[0],
    ):
        counts = np.histogram(found, bins=20, range=(0, 1))[0]
        chi_square = ((counts - 5_000) ** 2 / 5_000).sum()
        assert chi_square < 43.8  # 99.9 % of chi-square with 19 degrees of freedom


def test_tapes_of_one_box_are_long_together() -> None:
    same = common_random_numbers.shared(7, [1, 2], [9, 9], 50_000)
    apart = common_random_numbers.shared(7, [1, 2], [9, 8], 50_000)
    assert np.corrcoef(same)[0, 1] == pytest.approx(common_random_numbers.HABIT**2, abs=0.02)
    both = common_random_numbers.HABIT * common_random_numbers.MISTAKEN
    assert np.corrcoef(apart)[0, 1] == pytest.approx(both**2, abs=0.012)


def test_minutes_have_the_believed_percentiles() -> None:
    made = common_random_numbers.minutes([BELIEF], np.linspace(0, 1, 100_001).reshape(1, -1))[0]
    assert np.percentile(made, [10, 50, 90]) == pytest.approx([60, 100, 300])
    assert made.min() == pytest.approx(50)
    assert made.max() == pytest.approx(350)


def test_a_known_play_time_is_that_in_every_scenario() -> None:
    assert (
        common_random_numbers.minutes([exactly(62.0)], common_random_numbers.uniforms(7, [1], 500)) == 62.0
    ).all()


def test_no_play_time_is_negative() -> None:
    assert common_random_numbers.minutes([Range(1, 90, 100)], np.array([[0.0]]))[0, 0] == 0.0


def test_a_playing_tape_has_at_least_what_it_has_not_played() -> None:
    uniform = common_random_numbers.uniforms(7, [1], 5_000)[0]
    left = common_random_numbers.remaining(BELIEF, 90.0, uniform, 5.0)
    whole = common_random_numbers.minutes([BELIEF], uniform.reshape(1, -1))[0]
    longer = whole[whole > 90.0] - 90.0
    assert left.min() >= 5.0
    assert np.median(left) == pytest.approx(np.median(longer), rel=0.05)


def test_a_tape_that_should_be_over_has_a_little_left() -> None:
    assert set(
        common_random_numbers.remaining(BELIEF, 5_000.0, common_random_numbers.uniforms(7, [1], 50)[0], 5.0)
    ) == {5.0}
    assert set(
        common_random_numbers.remaining(exactly(60), 60.0, common_random_numbers.uniforms(7, [1], 50)[0], 5.0)
    ) == {5.0}


def test_the_percentile_of_a_belief() -> None:
    assert common_random_numbers.percentile(BELIEF, 0.7) == pytest.approx(200)
