"""Scores of forecasts, against values that others publish."""

from __future__ import annotations

import pytest

from core.promise.reliability import pinball, sampling_band
from core.scheduling.event_rates import Gamma


@pytest.mark.parametrize(
    ("tau", "quoted", "happened", "loss"),
    [
        (0.1, 2671, 2700, 2.9),  # gefcom2017 package, pinball(): three times this "should return 8.7"
        (0.9, 10, 12, 1.8),  # formula of the mlr3measures documentation
        (0.9, 10, 7, 0.3),
    ],
)
def test_pinball_loss(tau: float, quoted: float, happened: float, loss: float) -> None:
    assert pinball(tau, quoted, happened) == pytest.approx(loss)


@pytest.mark.parametrize(
    ("count", "low", "high"), [(100, 0.84, 0.95), (250, 0.860, 0.936), (600, 0.875, 0.923)]
)
def test_what_luck_does_to_a_share_of_nine_in_ten(count: int, low: float, high: float) -> None:
    # Binomial percentiles 2.5 and 97.5; consistency bars of Bröcker and Smith, WAF 22 (2007) 651.
    least, most = sampling_band([0.9] * count)
    assert (round(least / count, 3), round(most / count, 3)) == (low, high)


def test_a_gamma_belief_is_sharpened_by_counts() -> None:
    # Gelman et al., Bayesian Data Analysis, 2nd ed., section 2.7, from memory: deaths in a city of 200,000,
    # prior Gamma(3, 5); three in a year give Gamma(6, 7), mean 0.86, 30 in ten Gamma(33, 25), mean 1.32.
    begun = Gamma(3.0, 5.0)
    assert round(begun.after(3, 2.0).rate, 2) == 0.86
    assert begun.after(30, 20.0) == Gamma(33.0, 25.0)
    assert round(begun.after(30, 20.0).rate, 2) == 1.32
