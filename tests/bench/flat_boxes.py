"""Flat sums against what the same boxes cost by what they played, in shops unlike the starting beliefs.

Each shop plays 200 tapes and learns from them; then boxes that it has not seen are agreed flat at a margin of
nothing, by the book in resources, and played. The gain is what was agreed less what they would have cost, of
all boxes together, as a share of what they would have cost. A shop that believed right would gain nothing;
the gain is to be within one percent. One shop gains or loses by its luck with the two hundred tapes it
learned from: that spread is told beside it, as is the spread of single boxes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from core.model.inventory import Inventory
from core.model.price_ways import PriceWay
from core.model.ranges import exactly
from core.playtime.habits import STARTING, ShopHabits
from core.pricing import box_price, price_book, ways_to_agree
from core.pricing.price_book import PriceBook
from core.services import quoting
from tests.bench import playtime
from tests.bench.ratio import Ratio
from tests.support.worlds import tape_world
from tests.support.worlds.tape_world import SimulatedTape

SHOPS = 600
BOXES = 20
"""Of each shop, twelve thousand in all. Shops differ by nine points: six hundred are known to four tenths."""
SEED = 20261130
WITHIN = 0.01


@dataclass(frozen=True, slots=True)
class Agreed:
    """One box: its flat sum and what it would have cost by what it played, minor units."""

    flat: int
    by_play: int

    @property
    def gain(self) -> int:
        return self.flat - self.by_play


def measure() -> Iterator[Ratio]:
    shops = agreed(SHOPS, BOXES, SEED)
    gains = np.array([gain(boxes) for boxes in shops])
    boxes = [box for shop in shops for box in shop]
    words = f"{len(boxes)} boxes of {SHOPS} shops unlike, {playtime.LEARNED} tapes learned, no margin"
    together = gain(boxes)
    error = float(gains.std(ddof=1)) / len(gains) ** 0.5
    what = f"mean gain {100 * together:+.2f} % (standard error {100 * error:.2f}), {words}"
    yield Ratio(what, 100 * abs(together), "allowed", 100 * WITHIN, "%", 1.0)
    ends = ", ".join(f"{100 * end:+.1f}" for end in np.quantile(gains, (0.1, 0.5, 0.9)))
    yield Ratio(f"gain of one shop at 10, 50 and 90 %: {ends} %", 100 * float(gains.std()), "", 100, "%")
    of_box = np.array([box.gain / box.by_play for box in boxes])
    ends = ", ".join(f"{100 * end:+.0f}" for end in np.quantile(of_box, (0.1, 0.5, 0.9)))
    yield Ratio(f"gain of one box at 10, 50 and 90 %: {ends} %", 100 * float(of_box.std()), "", 100, "%")


def gain(boxes: Sequence[Agreed]) -> float:
    """What was gained by agreeing flat, as a share of what the boxes cost by what they played."""
    return sum(box.gain for box in boxes) / sum(box.by_play for box in boxes)


def agreed(shops: int, boxes: int, seed: int, kind: str = "unlike") -> list[list[Agreed]]:
    """The boxes of each shop, after it has learned."""
    book = price_book.in_force(date(2026, 3, 3))
    found = []
    for customers, dice in playtime.invented(kind, shops, seed):
        habits = playtime.taught(customers, dice)
        brought: dict[int, list[SimulatedTape]] = {}
        for tape in tape_world.tapes(customers, boxes * 8, dice):
            brought.setdefault(tape.job, []).append(tape)
        whole = list(brought.values())[: min(boxes, len(brought) - 1)]
        found.append([box_of(tapes, habits, book) for tapes in whole])
    return found


def box_of(
    tapes: Sequence[SimulatedTape], habits: ShopHabits = STARTING, book: PriceBook | None = None
) -> Agreed:
    """One box agreed flat, then played to its end."""
    book = book or price_book.in_force(date(2026, 3, 3))
    inventory = Inventory(tuple(tape.line for tape in tapes))
    quoted, storage = quoting.tapes_and_copies(inventory, habits)
    box = quoting.priced_box(inventory, quoted, storage, habits)
    _, ways = ways_to_agree.priced(box, book, PriceWay.FLAT)
    assert ways.flat is not None
    played = [replace(one, minutes=exactly(tape.minutes)) for one, tape in zip(quoted, tapes, strict=True)]
    by_play = box_price.price(played, storage, book, rush=False).due.likely
    return Agreed(ways.flat.minor, by_play)
