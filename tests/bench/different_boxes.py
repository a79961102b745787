"""Quotes many different boxes in one shop, day included; prints resident megabytes before and after."""

from __future__ import annotations

import random
import sys
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

from core.catalogue.formats import catalogue
from core.model.inventory import Delivery, Inventory, TapeLine
from core.services import shop_snapshot
from core.services.records_door import Shop

BOXES = 300
SEED = 5


def boxes(dice: random.Random) -> Iterator[Inventory]:
    """Boxes of one to six lines: any format and marking, half of them told how full."""
    while True:
        lines = tuple(_line(dice) for _ in range(dice.randint(1, 6)))
        yield Inventory(lines, deliver=(Delivery("files", "h264", "usb"),))


def _line(dice: random.Random) -> TapeLine:
    shell = catalogue().format(dice.choice(catalogue().names))
    marking = dice.choice([None, *(marking.name for marking in shell.markings)])
    fill = dice.choice([None, round(dice.uniform(0.01, 0.99), 2)])
    return TapeLine(dice.randint(1, 12), shell.name, marking, fill=fill)


def resident() -> float:
    """Megabytes of this process that lie in memory. Linux only."""
    status = Path("/proc/self/status").read_text(encoding="ascii")
    return next(int(line.split()[1]) for line in status.splitlines() if line.startswith("VmRSS")) / 1024


def main(where: str) -> None:
    """Prints both figures."""
    now = datetime.now(UTC)
    with Shop.open(where) as shop:
        snapshot = shop.ask(shop_snapshot.read)
        different = boxes(random.Random(SEED))
        snapshot.quote(next(different), now)  # what the first quote imports and reads is no growth
        before = resident()
        for box, _ in zip(different, range(BOXES), strict=False):
            snapshot.quote(box, now)
    print(f"{before:.1f} {resident():.1f}")


if __name__ == "__main__":
    main(sys.argv[1])
