"""How alike the tapes of one box are, learned from boxes of several tapes, and what their counts are worth.

Each box is laid against what the other boxes tell of the shop, and as unsurely as they tell it: laid against
a belief that it has shaped itself, every box would look like its shop, and a shop of few boxes would be sure
of itself too soon.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import exp, lgamma, log

from core.playtime import starting_beliefs
from core.playtime.explanations import SURE
from core.playtime.habits import ShopHabits
from core.playtime.starting_beliefs import SHARED, Counts, Group, Weights


@dataclass(frozen=True, slots=True)
class PlayedBox:
    """What was found of a box."""

    counts: Counts
    weight: float = 1.0
    """How far it still counts, from 0 to 1."""
    within: Counts | None = None
    """What of it is in the belief of the shop it is laid against: effective counts."""


def learned(boxes: Sequence[PlayedBox], shop: ShopHabits) -> dict[str, float]:
    """By kind of habit, the concentration parameter of the box prior around what ``shop`` believes."""
    return {kind: _posterior(kind, boxes, shop) for kind in SHARED}


def effective_counts(box: Counts, concentrations: Weights) -> Counts:
    """The counts of a box, scaled to the effective number of tapes: tapes of one box are correlated."""
    return {group: _effective(names, concentrations.get(group[0])) for group, names in box.items()}


def _effective(names: Weights, concentration: float | None) -> Weights:
    tapes = sum(names.values())
    if concentration is None or tapes <= 1:
        return names
    return {name: count * (1 + concentration) / (concentration + tapes) for name, count in names.items()}


@dataclass(frozen=True, slots=True)
class _Row:
    """The tapes of one box by possibility, beside the belief of the other boxes."""

    found: tuple[float, ...]
    against: tuple[float, ...]
    """Shares; of fullness normal scores, as far from the mean of the others."""
    mistaken: float
    """The variance of what the others believe, as a share of that of one tape."""
    weight: float

    def concentration(self, own: float) -> float:
        """That of the box around what the others believe, where it is ``own`` around what the shop does."""
        alike = 1 / (1 + own)
        return 1 / (alike + (1 - alike) * self.mistaken) - 1


def _posterior(kind: str, boxes: Sequence[PlayedBox], shop: ShopHabits) -> float:
    """The concentration parameter of the box prior: its candidates, weighed by their likelihood."""
    likelihood = _log_likelihood_of_fill if kind == "fill" else _log_likelihood_of_shares
    candidates, rows = starting_beliefs.concentrations(kind), list(_rows(kind, boxes, shop))
    logs = [
        sum(row.weight * likelihood(row.found, row.against, row.concentration(value)) for row in rows)
        for value, _ in candidates
    ]
    best = max(logs)
    weighed = zip(candidates, logs, strict=True)
    return starting_beliefs.mean_concentration(
        tuple((value, weight * exp(each - best)) for (value, weight), each in weighed)
    )


def _rows(kind: str, boxes: Sequence[PlayedBox], shop: ShopHabits) -> Iterator[_Row]:
    believed: dict[Group, tuple[dict[str, float], float]] = {}
    against = _scores if kind == "fill" else _shares
    for box in boxes:
        for group, names in box.counts.items():
            if group[0] != kind or sum(names.values()) <= 1:
                continue
            if group not in believed:
                values = shop.normal_scores(group) if kind == "fill" else shop.weights(group)
                believed[group] = values, shop.worth(kind) + sum(shop.seen.get(group, {}).values())
            values, tapes = believed[group]
            own = (box.within or {}).get(group, {})
            others = tapes - sum(own.values())
            found = tuple(names.get(name, 0.0) for name in values)
            yield _Row(found, against(values, own, tapes), 1 / (1 + others), box.weight)


def _shares(believed: Weights, own: Weights, tapes: float) -> tuple[float, ...]:
    """What is believed without the box's ``own`` tapes, of ``tapes`` in all."""
    left = {name: max(SURE, tapes * share - own.get(name, 0.0)) for name, share in believed.items()}
    return tuple(starting_beliefs.scaled(left).values())


def _scores(scores: Weights, own: Weights, tapes: float) -> tuple[float, ...]:
    """The scores, as far from the mean of the others: all tapes together have a mean of 0."""
    pulled = sum(count * scores[name] for name, count in own.items())
    mean = -pulled / (tapes - sum(own.values()))
    return tuple(score - mean for score in scores.values())


def _log_likelihood_of_fill(found: Sequence[float], scores: Sequence[float], concentration: float) -> float:
    """Log likelihood of normal numbers that share a correlation, up to what does not depend on it."""
    tapes, correlation = sum(found), 1 / (1 + concentration)
    mean = sum(n * score for n, score in zip(found, scores, strict=True)) / tapes
    within = sum(n * (score - mean) ** 2 for n, score in zip(found, scores, strict=True))
    between = 1 + (tapes - 1) * correlation
    spread = within / (1 - correlation) + tapes * mean**2 / between
    return -0.5 * ((tapes - 1) * log(1 - correlation) + log(between) + spread)


def _log_likelihood_of_shares(found: Sequence[float], start: Sequence[float], concentration: float) -> float:
    """Log likelihood of the counts of one box (Dirichlet–multinomial), up to what does not depend on it."""
    likely = lgamma(concentration) - lgamma(concentration + sum(found))
    for count, share in zip(found, start, strict=True):
        if count > SURE:
            shape = max(concentration * share, SURE)
            likely += lgamma(shape + count) - lgamma(shape)
    return likely
