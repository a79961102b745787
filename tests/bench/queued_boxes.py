"""The hours of twenty boxes in a queue against the 90th percentile that was told of them, by tapes played.

Where the shop's beliefs are off, all its boxes are off together: a queue shows it, one box hardly does. Shops
stand for themselves, four queues each; the error is that of shops (queues of one shop are no strangers).
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from core.model import common_random_numbers
from core.playtime import box_habits
from core.playtime.box_habits import Box
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import facts
from tests.bench.playtime import invented, taught
from tests.bench.ratio import Ratio
from tests.support.worlds import tape_world
from tests.support.worlds.tape_world import Customers, SimulatedTape

PLAYED = (60, 200, 500)
SHOPS = 24
QUEUES = 4
BOXES = 20
TOLD = 0.9
POINTS = 4.0
"""Percentage points by which more or fewer queues may be over in time."""
_SCENARIOS = 400
_SEED = 20261130
_ENOUGH_TAPES = 400


def measure() -> Iterator[Ratio]:
    for kind in ("like", "unlike"):
        for count in PLAYED:
            held = held_by_shop(kind, count)
            mean, error = 100 * held.mean(), 100 * held.std(ddof=1) / np.sqrt(len(held))
            words = (
                f"{mean:.1f} ± {error:.1f} % of queues within their 90 %, {count} tapes played, shops {kind}"
            )
            yield Ratio(words, float(abs(mean - 100 * TOLD)), "allowed", POINTS, "points", 1.0)


def held_by_shop(kind: str, count: int, shops: int = SHOPS) -> np.ndarray:
    """Share of the queues of each shop that were played within the 90th percentile of their hours."""
    held = []
    for customers, dice in invented(kind, shops, _SEED):
        shop = taught(customers, dice, count)
        held.append(np.mean([_is_within(_queue(customers, dice), n, shop) for n in range(QUEUES)]))
    return np.array(held)


def _queue(customers: Customers, dice: np.random.Generator) -> list[list[SimulatedTape]]:
    boxes: dict[int, list[SimulatedTape]] = {}
    for tape in tape_world.tapes(customers, _ENOUGH_TAPES, dice):
        boxes.setdefault(tape.job, []).append(tape)
    return list(boxes.values())[:BOXES]


def _is_within(queue: list[list[SimulatedTape]], number: int, shop: ShopHabits) -> bool:
    told = np.zeros(_SCENARIOS)
    for place, tapes in enumerate(queue):
        keys = [common_random_numbers.key(number, place, n) for n in range(len(tapes))]
        box = Box(common_random_numbers.key(number, place), _SEED, _SCENARIOS, shop)
        told += box_habits.minutes_of_tapes([facts(tape.line) for tape in tapes], keys, box).sum(axis=0)
    return bool(sum(tape.minutes for tapes in queue for tape in tapes) <= np.quantile(told, TOLD))
