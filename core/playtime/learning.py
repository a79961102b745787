"""What finished captures teach a shop: conjugate counts laid beside the starting beliefs, and nothing hidden.

A tape played tells its minutes, and its speed, system and TV system where somebody looked. Several tapes of
one box count for less than as many boxes: the concentration parameter of the box prior is learned as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from math import exp, lgamma, log

from core.playtime import interval_calibration, mean_calibration, starting_beliefs
from core.playtime.beliefs import Points
from core.playtime.explanations import SURE, Played, counted, counts_of
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.mean_calibration import CapturedTapes
from core.playtime.possibilities import Facts
from core.playtime.starting_beliefs import SHARED, Counts, Group, Weights
from core.playtime.tape_minutes import points_of
from core.wording.editions import edition_cache

WINDOW = 600
"""Captures looked back on: habits of customers change with the years (an assumption)."""
_PASSES = 3
"""What is shared out settles within a few rounds (our choice)."""
_FOLDS = 10
"""Parts in which boxes are set aside: a tape is believed of from nine tenths of the other boxes at least
(common practice, no source: tenfold cross-validation)."""


@edition_cache(maxsize=8)
def learned(played: tuple[Played, ...]) -> ShopHabits:
    """The posterior of a shop after these captures, oldest first; the newest `WINDOW` count.

    Conjugate: each share is (worth × starting share + effective tapes found) ÷ their sum, see ``[worth]`` of
    the starting beliefs.
    """
    shop, recent = STARTING, played[-WINDOW:]
    if not recent:
        return shop
    effective: dict[str, Counts] = {}
    for _ in range(_PASSES):
        boxes = _by_box(recent, counts_of(recent, shop))
        concentrations = {kind: _posterior_concentration(kind, boxes.values(), shop) for kind in SHARED}
        effective = {box: _effective_counts(found, concentrations) for box, found in boxes.items()}
        shop = ShopHabits(counted(effective.values()), concentrations)
    newest = recent[-interval_calibration.NEWEST :]
    found = list(_set_aside(newest, effective, shop.concentrations))
    conformities = [
        one for _, points, tapes in found for one in interval_calibration.conformities(points, tapes)
    ]
    lots = [
        CapturedTapes(known.format, points, [minutes for _, minutes in tapes])
        for known, points, tapes in found
    ]
    return replace(
        shop,
        levels=interval_calibration.calibrated(conformities),
        mean=mean_calibration.calibrated(lots),
        captures=len(recent),
    )


@edition_cache(maxsize=64)
def of_box(played: tuple[Played, ...], shop: ShopHabits) -> ShopHabits:
    """The posterior of the tapes still to come of a box of which these were played."""
    return shop.of_box(counted(counts_of(played, shop)))


def _set_aside(
    newest: Sequence[Played], effective: Mapping[str, Counts], concentrations: Weights
) -> Iterator[tuple[Facts, Points, list[tuple[str, float]]]]:
    """Tapes (name of the box, minutes played) beside the posterior of the other boxes, in ten folds.

    Cross-conformal; nothing where the shop has captured too little.
    """
    if len(newest) < interval_calibration.ENOUGH:
        return
    fold = {box: n % _FOLDS for n, box in enumerate(effective)}
    for aside in range(_FOLDS):
        same_facts: dict[Facts, list[tuple[str, float]]] = {}
        for tape in newest:
            if fold[tape.box] == aside:
                same_facts.setdefault(tape.known, []).append((tape.box, tape.minutes))
        kept = counted(counts for box, counts in effective.items() if fold[box] != aside)
        others = ShopHabits(kept, concentrations)
        for known, tapes in same_facts.items():
            yield known, points_of(known, others), tapes


def _by_box(played: Sequence[Played], counts: Sequence[Counts]) -> dict[str, Counts]:
    boxes: dict[str, list[Counts]] = {}
    for tape, found in zip(played, counts, strict=True):
        boxes.setdefault(tape.box, []).append(found)
    return {box: counted(found) for box, found in boxes.items()}


def _effective_counts(box: Counts, concentrations: Weights) -> Counts:
    """The counts of a box, scaled to the effective number of tapes: tapes of one box are correlated."""
    return {group: _effective(names, concentrations.get(group[0])) for group, names in box.items()}


def _effective(names: Weights, concentration: float | None) -> Weights:
    tapes = sum(names.values())
    if concentration is None or tapes <= 1:
        return names
    return {name: count * (1 + concentration) / (concentration + tapes) for name, count in names.items()}


def _posterior_concentration(kind: str, boxes: Iterable[Counts], shop: ShopHabits) -> float:
    """The concentration parameter of the box prior: its candidates, weighed by their likelihood."""
    likelihood = _log_likelihood_of_fill if kind == "fill" else _log_likelihood_of_shares
    several = [
        (group, names)
        for box in boxes
        for group, names in box.items()
        if group[0] == kind and sum(names.values()) > 1
    ]
    candidates = starting_beliefs.concentrations(kind)
    rows = _rows(kind, several, shop)
    logs = [sum(likelihood(found, start, value) for found, start in rows) for value, _ in candidates]
    best = max(logs)
    weighed = zip(candidates, logs, strict=True)
    return starting_beliefs.mean_concentration(
        tuple((value, weight * exp(each - best)) for (value, weight), each in weighed)
    )


def _rows(
    kind: str, several: Sequence[tuple[Group, Weights]], shop: ShopHabits
) -> list[tuple[tuple[float, ...], tuple[float, ...]]]:
    """For each box its tapes by possibility, and what to lay them against: shares, or normal scores."""
    of_group = shop.normal_scores if kind == "fill" else shop.weights
    against = {group: of_group(group) for group, _ in several}
    return [
        (tuple(names.get(name, 0.0) for name in against[group]), tuple(against[group].values()))
        for group, names in several
    ]


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
