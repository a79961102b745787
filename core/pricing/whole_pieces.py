"""How many whole pieces hold an amount: loose, or file after file in the order of the tapes."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence

from core.model.ranges import Range

DUST = 1e-9
"""Share of a piece that float arithmetic may add (our choice: far above 2⁻⁵², far below one file)."""


def whole(amount: Range, share: Callable[[float], float]) -> Range:
    """Whole pieces in every column; ``share`` gives the pieces an amount fills."""
    return Range(*(float(math.ceil(share(each) - DUST)) for each in (amount.low, amount.likely, amount.high)))


def in_order(sizes: Iterable[float], holds: float) -> int:
    """Pieces that take files one after the other; a file is cut only when it is longer than a piece.

    Next-fit, so that the tapes stay in order, and because it never needs fewer pieces for longer files
    (F. Murgolo, Anomalous behavior in bin packing algorithms, 1988, from memory).
    """
    count, free = 0, 0.0
    for size in sizes:
        if size <= free + holds * DUST:
            free -= size
        elif size > 0:
            needed = math.ceil(size / holds - DUST)
            count += needed
            free = needed * holds - size
    return count


def columns_in_order(sizes: Sequence[Range], together: Range, holds: float) -> Range:
    """`in_order` for each column of the files, which ``together`` are so large.

    Not all files are long at once, so the columns of the whole lie closer than the sums of those of each.
    """
    low, likely, high = (
        float(in_order(_scaled([getattr(size, column) for size in sizes], getattr(together, column)), holds))
        for column in ("low", "likely", "high")
    )
    return Range(low, max(low, likely), max(low, likely, high))


def _scaled(sizes: Sequence[float], together: float) -> list[float]:
    whole = sum(sizes)
    return [size * (together / whole) for size in sizes] if whole else list(sizes)
