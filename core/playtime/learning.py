"""What finished captures teach a shop: conjugate counts laid beside the starting beliefs, and nothing hidden.

A tape played tells its minutes, and its speed, system and TV system where somebody looked. Several tapes of
one box count for less than as many boxes: the concentration parameter of the box prior is learned as well. A
box counts for as much as it is likely that customers have not changed since it came.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from core.playtime import (
    change_points,
    concentrations,
    interval_calibration,
    mean_calibration,
    prior_worth,
    starting_beliefs,
)
from core.playtime.beliefs import Points
from core.playtime.concentrations import PlayedBox
from core.playtime.explanations import Played, counted, counts_of
from core.playtime.habits import STARTING, NoticedChange, ShopHabits, starting
from core.playtime.mean_calibration import CapturedTapes
from core.playtime.possibilities import Facts
from core.playtime.starting_beliefs import Counts, Group, Weights
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

    Conjugate: each share is (worth × starting share + effective tapes found) ÷ their sum. Ranges and means
    are calibrated on the tapes that came since customers last changed.
    """
    recent = played[-WINDOW:]
    if not recent:
        return STARTING
    found = _settled(recent)
    since = [tape for tape in recent if tape.box not in found.gone]
    others = list(_set_aside(since[-interval_calibration.NEWEST :], found))
    conformities = [
        one for _, points, tapes in others for one in interval_calibration.conformities(points, tapes)
    ]
    lots = [
        CapturedTapes(known.format, points, [minutes for _, minutes in tapes])
        for known, points, tapes in others
    ]
    return replace(
        found.shop,
        levels=interval_calibration.calibrated(conformities),
        mean=mean_calibration.calibrated(lots),
        captures=len(since),
        change=NoticedChange(len(since)) if found.gone else None,
    )


@edition_cache(maxsize=64)
def of_box(played: tuple[Played, ...], shop: ShopHabits) -> ShopHabits:
    """The posterior of the tapes still to come of a box of which these were played."""
    return shop.of_box(counted(counts_of(played, shop)))


@dataclass(frozen=True, slots=True)
class _Settled:
    """What a shop believes, and what that rests on."""

    shop: ShopHabits
    boxes: Mapping[str, Counts]
    """By name, oldest first: effective counts, as far as they still count."""
    gone: frozenset[str]
    """Boxes from before a change that is sure."""


def _settled(recent: Sequence[Played]) -> _Settled:
    shop, boxes, gone = STARTING, dict[str, Counts](), 0
    still = [1.0] * len({tape.box for tape in recent})
    for _ in range(_PASSES):
        found = _by_box(recent, counts_of(recent, shop))
        alike = concentrations.learned(
            [PlayedBox(found[box], weight, boxes.get(box)) for box, weight in zip(found, still, strict=True)],
            shop,
        )
        effective = {box: concentrations.effective_counts(counts, alike) for box, counts in found.items()}
        runs = change_points.runs(list(effective.values()), _prior)
        still, gone = runs.of_boxes.tolist(), runs.begin or 0
        boxes = {box: _times(effective[box], weight) for box, weight in zip(effective, still, strict=True)}
        shop = _believing(boxes.values(), alike)
    return _Settled(shop, boxes, frozenset(list(boxes)[:gone]))


def _believing(boxes: Iterable[Counts], alike: Weights) -> ShopHabits:
    seen = counted(boxes)
    return ShopHabits(seen, alike, worths=prior_worth.learned(seen, starting))


def _prior(group: Group) -> dict[str, float]:
    """The starting belief of a group, in tapes."""
    worth = starting_beliefs.worth(group[0])
    return {name: worth * share for name, share in starting(group).items()}


def _set_aside(
    newest: Sequence[Played], found: _Settled
) -> Iterator[tuple[Facts, Points, list[tuple[str, float]]]]:
    """Tapes (name of the box, minutes played) beside the posterior of the other boxes, in ten folds.

    Cross-conformal; nothing where the shop has captured too little.
    """
    if len(newest) < interval_calibration.ENOUGH:
        return
    fold = {box: n % _FOLDS for n, box in enumerate(found.boxes)}
    for aside in range(_FOLDS):
        same_facts: dict[Facts, list[tuple[str, float]]] = {}
        for tape in newest:
            if fold[tape.box] == aside:
                same_facts.setdefault(tape.known, []).append((tape.box, tape.minutes))
        kept = counted(counts for box, counts in found.boxes.items() if fold[box] != aside)
        others = replace(found.shop, seen=kept)
        for known, tapes in same_facts.items():
            yield known, points_of(known, others), tapes


def _by_box(played: Sequence[Played], counts: Sequence[Counts]) -> dict[str, Counts]:
    boxes: dict[str, list[Counts]] = {}
    for tape, found in zip(played, counts, strict=True):
        boxes.setdefault(tape.box, []).append(found)
    return {box: counted(found) for box, found in boxes.items()}


def _times(box: Counts, weight: float) -> Counts:
    return {group: {name: weight * count for name, count in names.items()} for group, names in box.items()}
