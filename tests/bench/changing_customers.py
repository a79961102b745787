"""Ranges of play time in shops whose customers change, and in shops whose customers do not.

Every shop plays 100, 200 or 400 tapes of its customers; then other customers come. After so many tapes of
theirs the shop is asked about tapes of theirs it has not seen. What was tuned was tuned on shops of the seed
`TUNED`; these are others. A shop stands for itself: the error is that between shops.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from core.playtime import learning
from core.playtime.explanations import Played
from core.playtime.habits import ShopHabits
from tests.bench import playtime
from tests.bench.ratio import Ratio
from tests.support.worlds import tape_world
from tests.support.worlds.tape_world import Customers, SimulatedTape

TUNED, REPORTED = 1, 20261205
SHOPS = 48
ASKED = 150
BEFORE = (100, 200, 400)
SINCE = (0, 20, 40, 80, 120, 200)
STEADY = (40, 120, 200, 400)
GOALS = {40: (70.0, 100.0), 120: (77.0, 83.0), 200: (77.0, 83.0)}
"""Percent of tapes that must be inside, by tapes played since the change."""
CHANGES = (
    "opposite customers",
    "other customers",
    "customers like the starting beliefs",
    "fuller or emptier tapes",
)
"""The first: full tapes of broadcasts give way to camera tapes a third full, or the other way round."""
THIRD_FULL = replace(tape_world.USUAL, full_to_the_end=0.03, fullness=(0.33, 0.08))


@dataclass(frozen=True, slots=True)
class Found:
    """One shop: the share of tapes inside their 80 % range, and whether it tells of a change."""

    inside: float
    told: bool


def measure() -> Iterator[Ratio]:
    for change in CHANGES:
        shops = [after_change(change, shop, SINCE) for shop in range(SHOPS)]
        for place, count in enumerate(SINCE):
            yield _row([shop[place] for shop in shops], f"{count} tapes after {change}", GOALS.get(count))
    for kind in ("like", "unlike"):
        shops = [steady(kind, shop, STEADY) for shop in range(SHOPS)]
        for place, count in enumerate(STEADY):
            goal = (78.0, 82.0) if count > 40 else None
            yield _row([shop[place] for shop in shops], f"{count} tapes, steady, {kind}", goal)
    yield _row([first_tapes(shop) for shop in range(SHOPS)], "first 40 tapes, a third full", (50.0, 100.0))


def _row(found: Sequence[Found], which: str, goal: tuple[float, float] | None) -> Ratio:
    inside = 100 * np.array([each.inside for each in found])
    mean, error = float(inside.mean()), float(inside.std(ddof=1)) / len(inside) ** 0.5
    told = 100 * np.mean([each.told for each in found])
    words = f"80 % ranges hold {mean:.1f} ± {error:.1f} %, {which} ({told:.0f} % of shops tell of a change)"
    low, high = goal or (0.0, 100.0)
    missed = max(low - mean, mean - high, 0.0)
    return Ratio(words, missed, "allowed", error, "points", 1.0 if goal else None)


def after_change(change: str, shop: int, since: Sequence[int], seed: int = REPORTED) -> list[Found]:
    """One shop after so many tapes of its new customers."""
    dice = np.random.default_rng([seed, shop, CHANGES.index(change)])
    before, after = _customers(change, tape_world.unlike(dice), dice, shop)
    old = _played(tape_world.tapes(before, BEFORE[shop % len(BEFORE)], dice), "old")
    new = _played(tape_world.tapes(after, max(since), dice), "new")
    asked = tape_world.tapes(after, ASKED, dice)
    return [_found(learning.learned((*old, *new[:count])), asked) for count in since]


def _customers(
    change: str, before: Customers, dice: np.random.Generator, shop: int
) -> tuple[Customers, Customers]:
    """Before the change, and after it."""
    if change == CHANGES[0]:
        full = replace(before, full_to_the_end=0.7, fullness=(0.7, 0.08), recorders=0.9)
        third = replace(before, full_to_the_end=0.03, fullness=(0.33, 0.08), recorders=0.2)
        return (full, third) if shop % 2 else (third, full)
    if change == CHANGES[1]:
        return before, tape_world.unlike(dice)
    if change == CHANGES[2]:
        return before, tape_world.USUAL
    return before, replace(before, full_to_the_end=0.7 if before.full_to_the_end < 0.4 else 0.05)


def steady(kind: str, shop: int, counts: Sequence[int], seed: int = REPORTED) -> list[Found]:
    """One shop whose customers do not change, after so many tapes."""
    dice = np.random.default_rng([seed, shop, 10 + len(kind)])
    customers = tape_world.USUAL if kind == "like" else tape_world.unlike(dice)
    tapes = _played(tape_world.tapes(customers, max(counts), dice), "old")
    asked = tape_world.tapes(customers, ASKED, dice)
    return [_found(learning.learned(tapes[:count]), asked) for count in counts]


def first_tapes(shop: int, count: int = 40, seed: int = REPORTED) -> Found:
    """The first tapes of a new shop, each believed after those that were played before it."""
    tapes = tape_world.tapes(THIRD_FULL, count, np.random.default_rng([seed, shop, 20]))
    played = _played(tapes, "first")
    inside = []
    for place, tape in enumerate(tapes):
        habits = learning.learned(played[:place])
        box = learning.of_box(tuple(one for one in played[:place] if one.box == played[place].box), habits)
        inside.append(playtime.loss(tape.minutes, playtime.believed(tape, box))[1])
    return Found(float(np.mean(inside)), told=False)


def _found(habits: ShopHabits, asked: Sequence[SimulatedTape]) -> Found:
    hits = [playtime.loss(tape.minutes, playtime.believed(tape, habits))[1] for tape in asked]
    return Found(float(np.mean(hits)), habits.change is not None)


def _played(tapes: Sequence[SimulatedTape], era: str) -> tuple[Played, ...]:
    return tuple(replace(playtime.played(tape), box=f"{era} {tape.job}") for tape in tapes)
