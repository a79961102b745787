"""Scores of promises; worked examples from outside are in tests/reference."""

from __future__ import annotations

import numpy as np
import pytest

from core.scoring import consistency, crps, pinball, pit, reliability


def test_saying_the_quantile_costs_least() -> None:
    happened = np.random.default_rng(1).exponential(60.0, 20_000)
    said = np.quantile(happened, 0.9)
    assert pinball(0.9, happened, said) < pinball(0.9, happened, 0.9 * said)
    assert pinball(0.9, happened, said) < pinball(0.9, happened, 1.1 * said)


def test_values_all_alike_score_their_distance() -> None:
    assert crps([5.0, 5.0, 5.0], 8.0) == 3.0


def test_the_place_among_the_values_counts_ties_half() -> None:
    assert [pit([1.0, 2.0, 3.0, 4.0], at) for at in (0.0, 2.5, 4.0, 9.0)] == [0.0, 0.5, 0.875, 1.0]


def test_promises_are_counted_by_their_chance() -> None:
    bins = reliability([0.55, 0.92, 0.94, 0.97], [False, True, False, True], [0.9, 0.95])
    assert [(round(each.stated, 3), each.kept, each.count) for each in bins] == [
        *((0.55, 0, 1), (0.93, 1, 2)),
        (0.97, 1, 1),
    ]


@pytest.mark.parametrize("chances", [[0.9] * 30, [0.6, 0.99, 0.8, 0.95] * 10])
def test_the_bars_hold_what_luck_does_nineteen_times_in_twenty(chances: list[float]) -> None:
    low, high = consistency(chances)
    kept = (np.random.default_rng(2).random((40_000, len(chances))) < chances).sum(axis=1)
    assert np.mean((kept >= low) & (kept <= high)) >= 0.95
    assert np.mean((kept > low) & (kept < high)) < 0.95
