"""The likely price and the range of boxes against what they were billed, in shops unlike one another.

Each shop plays some tapes and learns from them; then households that it has not seen bring 1, 12 or 30 tapes
each, priced by the minute, so that the middle is one figure. Bills above the likely price are to be half of
them; shops differ by what they happened to learn from, so that the error is that between shops.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

import numpy as np

from core.model.inventory import Inventory
from core.model.ranges import exactly
from core.playtime.habits import STARTING, ShopHabits
from core.pricing import box_price, price_book, ways_to_agree
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import Way
from core.pricing.price_rules import CaptureRate
from core.services import quoting
from tests.bench import playtime
from tests.bench.ratio import Ratio
from tests.support.worlds import tape_world
from tests.support.worlds.tape_world import Customers, SimulatedTape

SHOPS = 60
BOXES = 8
"""Of each size in each shop."""
SIZES = (1, 12, 30)
SEED = 20261130
WITHIN = 5.0
ASKED = 2.0
"""Percent of boxes whose owner may have to be asked because they pass the ceiling."""


@dataclass(frozen=True, slots=True)
class Billed:
    """One box: whether it cost more than the likely price, less, and whether the range held it."""

    above: bool
    below: bool
    inside: bool
    asked: bool
    """Whether it passed the ceiling, so that its owner must be asked."""
    width: float
    """Highest over lowest."""


def measure() -> Iterator[Ratio]:
    for learned in (0, playtime.LEARNED):
        kind = "like" if learned == 0 else "unlike"
        for size in SIZES:
            shops = [list(_billed(*each, size, learned)) for each in playtime.invented(kind, SHOPS, SEED)]
            boxes = [box for shop in shops for box in shop]
            above = np.array([np.mean([(1 + box.above - box.below) / 2 for box in shop]) for shop in shops])
            error = 100 * float(above.std(ddof=1)) / len(above) ** 0.5
            share = 100 * float(above.mean())
            inside = 100 * np.mean([box.inside for box in boxes])
            width = float(np.median([box.width for box in boxes]))
            words = f"{size} tapes, {kind}, {learned} tapes learned: {share:.1f} % above the likely price"
            words += f" (standard error {error:.1f}), range holds {inside:.0f} % at {width:.1f} ×"
            yield Ratio(words, abs(share - 50), "allowed", WITHIN + 2 * error, "points", 1.0)
            yield _asked(
                [[box.asked for box in shop] for shop in shops], f"{size} tapes, {kind}, {learned} learned"
            )


def _asked(shops: Sequence[Sequence[bool]], which: str) -> Ratio:
    """The share of boxes that pass their ceiling."""
    shares = np.array([np.mean(shop) for shop in shops])
    share, error = 100 * float(shares.mean()), 100 * float(shares.std(ddof=1)) / len(shares) ** 0.5
    words = f"{share:.1f} % (standard error {error:.1f}) pass the ceiling and are asked about, {which}"
    return Ratio(words, share, "allowed", ASKED + 2 * error, "%", 1.0)


def _billed(customers: Customers, dice: np.random.Generator, size: int, learned: int) -> Iterator[Billed]:
    habits = playtime.taught(customers, dice, learned) if learned else STARTING
    book = _by_the_minute()
    for _ in range(BOXES):
        yield _of_box(tape_world.box(customers, size, dice), habits, book)


def _by_the_minute() -> PriceBook:
    book = price_book.in_force(date(2026, 3, 3))
    rates = {name: CaptureRate(Way.PER_HOUR, Decimal(1200)) for name in book.capture}
    return replace(book, capture=rates, minimum_minor=0)


def _of_box(tapes: list[SimulatedTape], habits: ShopHabits, book: PriceBook) -> Billed:
    inventory = Inventory(tuple(tape.line for tape in tapes))
    quoted, storage = quoting.tapes_and_copies(inventory, habits)
    storage = replace(storage, copies=())
    price = ways_to_agree.price_by_play(quoting.priced_box(inventory, quoted, storage, habits), book)
    due = price.due
    played = [replace(one, minutes=exactly(tape.minutes)) for one, tape in zip(quoted, tapes, strict=True)]
    owed = box_price.price(played, storage, book, rush=False).due.likely
    return Billed(
        owed > due.likely,
        owed < due.likely,
        due.low <= owed <= due.high,
        owed > price.ceiling_minor,
        due.high / max(1, due.low),
    )
