"""By how much tapes run longer than was believed: against ratios and tilts reckoned by hand."""

from __future__ import annotations

import numpy as np
import pytest

from core.model.names import FormatName
from core.playtime.beliefs import Points
from core.playtime.mean_calibration import UNTAUGHT, CapturedTapes, MeanCalibration, calibrated

VHS, HI8 = FormatName("vhs"), FormatName("hi8")
EVEN: Points = np.array([[60.0, 0.5], [120.0, 0.5]])
"""Mean 90, standard deviation 30: a third of the mean."""


def lot(count: int, minutes: float, name: FormatName = VHS) -> CapturedTapes:
    return CapturedTapes(name, EVEN, [minutes] * count)


def mean(points: Points) -> float:
    return float(points[:, 0] @ points[:, 1])


def test_forty_captures_teach_and_fewer_say_nothing() -> None:
    assert calibrated([lot(39, 99)]) is UNTAUGHT
    assert calibrated([lot(40, 99)]).ratio > 1


def test_the_ratio_of_sums_is_pulled_to_one_by_twenty_tapes_and_that_of_a_format_to_the_whole() -> None:
    """60 VHS tapes of 99 minutes and 20 Hi8 tapes of 81, each believed to play 90 (ratio estimator, Cochran
    1977, from memory): (60 × 99 + 20 × 81 + 20 × 90) ÷ (100 × 90) of all."""
    found = calibrated([lot(60, 99), lot(20, 81, HI8)])

    whole = (60 * 99 + 20 * 81 + 20 * 90) / (100 * 90)
    assert found.ratio == pytest.approx(whole)
    assert found.of_formats[VHS] == pytest.approx((60 * 99 + 20 * 90 * whole) / (80 * 90))
    assert found.of_formats[HI8] == pytest.approx((20 * 81 + 20 * 90 * whole) / (40 * 90))
    assert found.spread == pytest.approx(1 / 3)


@pytest.mark.parametrize(("minutes", "ratio"), [(900.0, 2.0), (1.0, 0.5)])
def test_wrong_entries_move_no_mean_beyond_a_half_and_the_double(minutes: float, ratio: float) -> None:
    found = calibrated([lot(400, minutes)])

    assert (found.ratio, found.of_formats[VHS]) == (ratio, ratio)


@pytest.mark.parametrize("ratio", [0.8, 0.95, 1.05, 1.2])
def test_a_belief_as_unsure_as_those_it_comes_from_moves_in_full(ratio: float) -> None:
    moved = MeanCalibration(ratio, spread=1 / 3).calibrated(VHS, EVEN)

    assert mean(moved) == pytest.approx(90 * ratio)
    assert moved[:, 1].sum() == pytest.approx(1)


def test_a_surer_belief_moves_less_and_a_less_sure_one_no_more() -> None:
    sure: Points = np.array([[75.0, 0.5], [105.0, 0.5]])  # a sixth of its mean: half as unsure
    unsure: Points = np.array([[30.0, 0.5], [150.0, 0.5]])  # two thirds
    found = MeanCalibration(1.1, spread=1 / 3)

    assert mean(found.calibrated(VHS, sure)) == pytest.approx(90 * 1.05)
    assert mean(found.calibrated(VHS, unsure)) == pytest.approx(90 * 1.1)


def test_a_mean_is_moved_by_exponential_tilting() -> None:
    """The law nearest to the first with that mean has log ratios that rise in a straight line (Kullback)."""
    values = np.array([30.0, 60.0, 90.0, 150.0])
    points: Points = np.column_stack((values, [0.2, 0.3, 0.4, 0.1]))
    moved = MeanCalibration(1.1, spread=0.1).calibrated(VHS, points)

    slopes = np.diff(np.log(moved[:, 1] / points[:, 1])) / np.diff(values)
    assert slopes == pytest.approx(slopes[0])
    assert slopes[0] > 0


def test_a_format_has_its_own_ratio_and_one_never_captured_that_of_all() -> None:
    found = MeanCalibration(1.1, {HI8: 0.9}, 1 / 3)

    assert mean(found.calibrated(HI8, EVEN)) == pytest.approx(81)
    assert mean(found.calibrated(VHS, EVEN)) == pytest.approx(99)


def test_what_is_known_and_what_nothing_was_learned_of_stays_as_it_is() -> None:
    known: Points = np.array([[90.0, 1.0]])

    assert MeanCalibration(1.1, spread=1 / 3).calibrated(VHS, known) is known
    assert UNTAUGHT.calibrated(VHS, EVEN) is EVEN
    assert MeanCalibration(1.1).calibrated(VHS, EVEN) is EVEN


def test_a_calibration_that_names_no_ratio_moves_nothing_and_can_be_remembered_by() -> None:
    assert mean(MeanCalibration(spread=1 / 3).calibrated(VHS, EVEN)) == pytest.approx(90)
    assert len({MeanCalibration(of_formats={HI8: 0.9}), MeanCalibration(of_formats={HI8: 0.9})}) == 1
