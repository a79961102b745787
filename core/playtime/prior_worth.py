"""How much the starting beliefs weigh in one shop: little where its tapes turn out to be unlike them.

The worth of a starting belief says how far shops lie apart. One figure for all would be too sure of a shop
unlike the others and too unsure of one like them, so several are weighed by how well they foretold the shop's
own tapes (a scale mixture of Dirichlet priors; empirical Bayes).
"""

from __future__ import annotations

from collections.abc import Callable
from math import exp, lgamma

from core.playtime import starting_beliefs
from core.playtime.fill_stretches import LEAST
from core.playtime.starting_beliefs import SHARED, Counts, Group, Weights

FACTORS = (0.125, 0.25, 0.5, 1.0, 2.0)
"""What a worth may be times the one it starts from, each as likely before any tape (an assumption)."""


def learned(found: Counts, start: Callable[[Group], Weights]) -> dict[str, float]:
    """By kind of habit, the worth of its starting belief after these effective counts of the whole shop."""
    by_kind: dict[str, list[Group]] = {}
    for group in found:
        if group[0] in SHARED:
            by_kind.setdefault(group[0], []).append(group)
    return {
        kind: _posterior(kind, [(found[group], start(group)) for group in groups])
        for kind, groups in by_kind.items()
    }


def _posterior(kind: str, rows: list[tuple[Weights, Weights]]) -> float:
    candidates = [factor * starting_beliefs.worth(kind) for factor in FACTORS]
    logs = [sum(_log_likelihood(found, start, worth) for found, start in rows) for worth in candidates]
    weights = [exp(each - max(logs)) for each in logs]
    return starting_beliefs.mean_concentration(tuple(zip(candidates, weights, strict=True)))


def _log_likelihood(found: Weights, start: Weights, worth: float) -> float:
    """Of counts (Dirichlet–multinomial), up to what does not depend on the worth."""
    likely = lgamma(worth) - lgamma(worth + sum(found.values()))
    for name, count in found.items():
        shape = worth * max(start[name], LEAST)
        likely += lgamma(shape + count) - lgamma(shape)
    return likely
