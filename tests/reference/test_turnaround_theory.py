"""The scheduler as a queue, against the results of queueing theory and the anomalies of list scheduling.

Each system runs as hundreds of independent replications; a mean is right when it lies within three of its
own standard errors of the exact value. The first jobs, which find the shop emptier than usual, do not count.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import factorial

import numpy as np
import pytest

from tests.support.worlds.plain_decks import decks_free_at, play, played

Draw = Callable[[np.random.Generator, int], np.ndarray]  # type: ignore[type-arg]

RUNS = 400
JOBS = 4_000
UNCOUNTED = 1_500


@dataclass(frozen=True, slots=True)
class Waits:
    """Mean waiting and share that waits, by replication; jobs in the shop, counted and by Little's law."""

    waiting: np.ndarray  # type: ignore[type-arg]
    delayed: np.ndarray  # type: ignore[type-arg]
    inside: float
    by_little: float


def lived(rate: float, service: Draw, servers: int, seed: int) -> Waits:
    """Jobs that arrive at random are tapes that are ready then; the decks never close."""
    dice = np.random.default_rng(seed)
    arrives = np.cumsum(dice.exponential(1 / rate, (JOBS, RUNS)), axis=0)
    decks = decks_free_at(np.zeros((servers, RUNS)))
    minutes = np.stack([service(dice, RUNS) for _ in range(JOBS)])
    leaves = played(decks, [range(servers)] * JOBS, minutes.copy(), ready=list(arrives))
    waits = leaves - minutes - arrives
    counted = waits[UNCOUNTED:]
    begin, end = arrives[UNCOUNTED], arrives[-1]
    inside = np.clip(np.minimum(leaves, end) - np.maximum(arrives, begin), 0, None).sum(axis=0) / (
        end - begin
    )
    stay = (leaves - arrives)[UNCOUNTED:].mean()
    return Waits(counted.mean(axis=0), (counted > 1e-9).mean(axis=0), float(inside.mean()), rate * stay)


def z(found: np.ndarray, exact: float) -> float:  # type: ignore[type-arg]
    return float((found.mean() - exact) / (found.std(ddof=1) / np.sqrt(len(found))))


def exponential(mean: float) -> Draw:
    return lambda dice, count: dice.exponential(mean, count)


def erlang_c(servers: int, load: float) -> float:
    """Probability of waiting; formula: documentation of the Octave queueing package."""
    last = load**servers / factorial(servers) / (1 - load / servers)
    return last / (sum(load**n / factorial(n) for n in range(servers)) + last)


@pytest.mark.parametrize(
    ("servers", "load", "chance"),
    [(2, 1.0, 1 / 3), (3, 2.0, 4 / 9), (10, 6.0, 0.1013), (4, 3.4, 0.6893), (8, 6.8, 0.5726)],
)
def test_the_chance_of_waiting_is_erlangs(servers: int, load: float, chance: float) -> None:
    """C(10, 6) "about 0.10": an exercise on Erlang C curves; the others computed from the formula."""
    assert erlang_c(servers, load) == pytest.approx(chance, abs=5e-5)
    assert abs(z(lived(load, exponential(1.0), servers, servers).delayed, chance)) < 3


@pytest.mark.parametrize(
    ("rate", "mean", "servers", "waiting"),
    [
        # Trueman 1977, table 12.2 p. 512, in the HP-12C Solutions Handbook pp. 144-145: 2.16 (exact 2.1573)
        (1.2, 2.0, 3, 2.1573),
        # Bronson 1982, problem 24.6: .001175 years
        (300.0, 1 / 182.5, 3, 0.352 / 300),
        # Bronson 1982, 23.14, minutes: 4.5
        (0.5, 1.5, 1, 4.5),
        # Render and Stair, instructor's manual, alternative example 14.3, hours: W 2.25 min, service 2 min
        (20.0, 1 / 30, 2, 0.25 / 60),
    ],
)
def test_waiting_for_several_decks(rate: float, mean: float, servers: int, waiting: float) -> None:
    found = lived(rate, exponential(mean), servers, 11).waiting
    assert found.mean() == pytest.approx(waiting, rel=0.02)
    exact = erlang_c(servers, rate * mean) * mean / (servers - rate * mean)
    assert exact == pytest.approx(waiting, rel=0.002)
    assert abs(z(found, exact)) < 3


def uniform_to(end: float) -> Draw:
    return lambda dice, count: dice.uniform(0, end, count)


def two_exponentials(dice: np.random.Generator, count: int) -> np.ndarray:  # type: ignore[type-arg]
    """Mean 0.7, squared coefficient of variation 4, balanced means."""
    share = 0.5 * (1 + np.sqrt(3 / 5))
    first = dice.random(count) < share
    return np.where(first, dice.exponential(0.35 / share, count), dice.exponential(0.35 / (1 - share), count))


@pytest.mark.parametrize(
    ("rate", "service", "waiting"),
    [
        # M/D/1, 20 an hour, 2 minutes: 2 minutes (formula: Saylor Academy; Cooper 1981)
        (20 / 60, lambda dice, count: np.full(count, 2.0), 2.0),
        # computed from the formula: Erlang-2 at 0.8; uniform from 0 to 1.6; hyperexponential at 0.7
        (1.0, lambda dice, count: dice.gamma(2, 0.4, count), 2.4),
        (1.0, uniform_to(1.6), 2.1333),
        (1.0, two_exponentials, 4.0833),
    ],
)
def test_waiting_for_one_deck_is_pollaczeks_and_khinchines(
    rate: float, service: Draw, waiting: float
) -> None:
    assert abs(z(lived(rate, service, 1, 5).waiting, waiting)) < 3


@pytest.mark.parametrize(
    ("servers", "load", "allen_cunneen", "sakasegawa"),
    [(2, 0.8, 0.8889, 0.9046), (4, 0.85, 0.5744, 0.5864)],
)
def test_constant_times_on_several_decks(
    servers: int, load: float, allen_cunneen: float, sakasegawa: float
) -> None:
    """Approximations of M/D/c, right to 5 %: Kingman's VUT equation; Sakasegawa's exponent."""
    found = lived(load * servers, lambda dice, count: np.ones(count), servers, 3).waiting.mean()
    assert found == pytest.approx(allen_cunneen, rel=0.05)
    assert found == pytest.approx(sakasegawa, rel=0.05)


def test_jobs_inside_are_their_rate_times_their_stay() -> None:
    """Little's law (Little and Graves 2008, ch. 5)."""
    found = lived(2.4, exponential(1.0), 3, 8)
    assert found.inside == pytest.approx(found.by_little, rel=0.01)


def test_the_eighth_in_line_behind_three_busy_decks() -> None:
    """Erlang(8, 3μ) and then its own hour: mean 220, median 207.90, 90th percentile 328.11 (computed)."""
    runs = 200_000
    dice = np.random.default_rng(21)
    decks = decks_free_at(dice.exponential(60.0, (3, runs)))
    for _ in range(8):
        ends = play(decks, range(3), dice.exponential(60.0, runs))
    assert ends.mean() == pytest.approx(220.0, abs=3 * 82.5 / np.sqrt(runs))
    assert np.median(ends) == pytest.approx(207.90, abs=0.8)
    assert np.percentile(ends, 90) == pytest.approx(328.11, abs=1.2)


def test_a_box_on_as_many_decks_as_tapes_is_as_late_as_its_last() -> None:
    """Four exponential hours on four decks: 90th percentile 218.99 (1 - (1 - e^-t/60)^4 = 0.9)."""
    runs = 200_000
    dice = np.random.default_rng(22)
    decks = decks_free_at(np.zeros((4, runs)))
    ends = [play(decks, range(4), dice.exponential(60.0, runs)) for _ in range(4)]
    assert np.percentile(np.max(ends, axis=0), 90) == pytest.approx(218.99, abs=1.0)


def test_the_normal_lead_time_of_sixteen_tapes() -> None:
    """16 × 120 + 1.2816 × 30 × √16 = 2073.8 (normal table; used by Hopp and Sturgis)."""
    runs = 200_000
    dice = np.random.default_rng(23)
    decks = decks_free_at(np.zeros((1, runs)))
    for _ in range(16):
        ends = play(decks, (0,), dice.normal(120.0, 30.0, runs))
    assert np.percentile(ends, 90) == pytest.approx(2073.8, abs=1.5)


# --- anomalies -----------------------------------------------------------------------------

GRAHAM = (3, 2, 2, 2, 4, 4, 4, 4, 9)
AFTER = {8: 0, 4: 3, 5: 3, 6: 3, 7: 3}
"""Jobs from 0: the ninth after the first, the fifth to the eighth after the fourth."""


def with_precedence(minutes: list[float], decks: int, after: dict[int, int]) -> float:
    """The engine's decks; a job is let in when what must come before it has ended, first come first."""
    timelines = decks_free_at(np.zeros((decks, 1)))
    ends: dict[int, float] = {}
    left = list(range(len(minutes)))
    while left:
        free = float(timelines.free.min())
        known = [job for job in left if after.get(job, -1) in (-1, *ends)]
        since = {job: max(free, ends.get(after.get(job, -1), 0.0)) for job in known}
        job = min(known, key=lambda each: (since[each], each))
        end = play(timelines, range(decks), np.array([minutes[job]]), ready=since[job])
        ends[job] = float(end[0])
        left.remove(job)
    return max(ends.values())


@pytest.mark.parametrize(
    ("minutes", "decks", "after", "expected"),
    [
        (GRAHAM, 3, AFTER, 12),
        (GRAHAM, 4, AFTER, 15),
        (tuple(each - 1 for each in GRAHAM), 3, AFTER, 13),
        (GRAHAM, 3, {8: 0, 6: 3, 7: 3}, 16),
    ],
    ids=["as given", "one deck more", "every job shorter", "two precedences fewer"],
)
def test_more_decks_shorter_jobs_and_fewer_rules_may_all_take_longer(
    minutes: tuple[float, ...], decks: int, after: dict[int, int], expected: float
) -> None:
    """Graham 1969, SIAM J. Appl. Math. 17; job data from memory."""
    assert with_precedence(list(minutes), decks, after) == expected
