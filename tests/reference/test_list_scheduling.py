"""The event simulation as a list scheduler, against worked examples of the scheduling literature."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest

from tests.support.worlds.plain_decks import decks_free_at, finishes, played


def makespan(minutes: Sequence[float], decks: int) -> float:
    return max(finishes(minutes, [range(decks)] * len(minutes), decks))


@pytest.mark.parametrize("decks", [2, 3, 4, 8])
def test_the_worst_case_of_list_scheduling(decks: int) -> None:
    """m(m-1) jobs of 1, then one of m: list 2m-1, optimum m (instance from memory, Graham 1966; bound and
    proof: notes.lukasl.dev, Graham's list scheduling)."""
    jobs = [1.0] * (decks * (decks - 1)) + [float(decks)]
    assert makespan(jobs, decks) == 2 * decks - 1
    assert makespan(jobs[::-1], decks) == decks


@pytest.mark.parametrize(("decks", "expected"), [(2, 18), (3, 13)])
def test_five_jobs_in_the_order_given(decks: int, expected: float) -> None:
    """4, 5, 6, 7, 8: Graham 1969, SIAM J. Appl. Math. 17 (job data from memory)."""
    assert makespan([4, 5, 6, 7, 8], decks) == expected


@pytest.mark.parametrize(("decks", "expected"), [(2, 17), (3, 11)])
def test_five_jobs_longest_first(decks: int, expected: float) -> None:
    """The same jobs, longest first; the makespan is from memory."""
    assert makespan([8, 7, 6, 5, 4], decks) == expected


@pytest.mark.parametrize(("decks", "list_length", "best"), [(2, 7, 6), (3, 11, 9), (4, 15, 12), (8, 31, 24)])
def test_the_tight_family_of_longest_first(decks: int, list_length: float, best: float) -> None:
    """Two each of 2m-1 down to m+1, three of m: 4/3 - 1/(3m) (family from memory, Graham 1969)."""
    jobs = [float(job) for job in range(2 * decks - 1, decks, -1) for _ in (1, 2)] + [float(decks)] * 3
    assert sum(jobs) == decks * best
    assert makespan(jobs, decks) == list_length


def test_jobs_that_fit_few_decks_should_go_first() -> None:
    """Unit jobs {0,1}, {2,3}, {0,2}, {0}: greedy 3, optimum 1 (arithmetic, after Azar, Naor and Rom,
    J. Algorithms 18 (1995) 221); the least flexible first reaches it."""
    assert max(finishes([1] * 4, [(0, 1), (2, 3), (0, 2), (0,)], 4)) == 3
    assert max(finishes([1] * 4, [(0,), (0, 2), (0, 1), (2, 3)], 4)) == 1


def exponential(seed: int, jobs: int, decks: int, scenarios: int = 40_000) -> list[np.ndarray]:  # type: ignore[type-arg]
    """Finish times of jobs of 60 minutes on average, with the draws of one seed."""
    draws = np.random.default_rng(seed).exponential(60.0, (jobs, scenarios))
    ends = played(decks_free_at(np.zeros((decks, scenarios))), [range(decks)] * jobs, draws)
    return list(ends)


def test_tapes_on_one_deck_take_exactly_the_sum_of_their_lengths() -> None:
    draws = np.random.default_rng(1).exponential(60.0, (10, 1_000))
    assert np.allclose(exponential(1, 10, 1, 1_000)[-1], draws.sum(axis=0), rtol=0, atol=1e-9)


def test_ten_exponential_tapes_on_one_deck_are_an_erlang() -> None:
    """Erlang(10): 90th percentile 60 × 28.412 / 2 = 852.36 minutes; 28.412 is chi-square with 20 degrees
    of freedom at 0.9 (any table). Eight seeds of 40,000: standard error about 0.9."""
    found = [np.percentile(exponential(seed, 10, 1)[-1], 90) for seed in range(8)]
    assert np.mean(found) == pytest.approx(852.36, abs=3.0)


def test_the_eighth_tape_of_three_decks() -> None:
    """Five ends at the rate of three decks, then its own: 5 × 20 + 60 = 160 minutes to the end of the
    eighth tape when three start at once (arithmetic: minimum of exponentials, no memory)."""
    found = [exponential(seed, 8, 3)[-1].mean() for seed in range(8)]
    assert np.mean(found) == pytest.approx(160.0, abs=0.6)


def test_a_box_is_done_with_the_last_of_its_tapes() -> None:
    """Four exponential tapes on four decks: mean 60 × (1 + 1/2 + 1/3 + 1/4) = 125 (harmonic numbers)."""
    found = [np.max(exponential(seed, 4, 4), axis=0).mean() for seed in range(8)]
    assert np.mean(found) == pytest.approx(125.0, abs=0.6)
