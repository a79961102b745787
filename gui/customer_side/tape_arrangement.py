"""Where cassettes drawn to one scale lie in a room: equal ones side by side, words below each group.

Plain arithmetic without Qt. Lengths are device-independent pixels unless a name says millimetres.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

LARGEST_SCALE = 1.9
"""Pixels a millimetre at which a cassette is about as large as in the hand; times the scale of the page."""
_STEP = 0.95
GAP = 6.0
"""Between two cassettes of a group."""
GROUP_GAP = 24.0
ROW_GAP = 16.0


@dataclass(frozen=True, slots=True)
class EqualTapes:
    """So many equal cassettes, and the room their words need below them."""

    count: int
    width_mm: float
    depth_mm: float
    words_width: float
    words_height: float


@dataclass(frozen=True, slots=True)
class PlacedTapes:
    """Where one group lies: left and top corners of its cassettes, and of its words."""

    shells: tuple[tuple[float, float], ...]
    words: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Arrangement:
    """Every group in order, at one scale in pixels a millimetre, and the room taken."""

    scale: float
    placed: tuple[PlacedTapes, ...]
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class _Block:
    """One group at one scale, its corner at 0, 0."""

    across: int
    width: float
    shells_height: float


_BlockRow = Sequence[tuple[EqualTapes, _Block]]


def arrange(
    groups: Sequence[EqualTapes],
    width: float,
    height: float,
    at_least: float,
    page_scale: float = 1.0,
    largest: float | None = None,
) -> Arrangement | None:
    """The groups at the largest scale at which all fit; None when that is less than ``at_least``.

    ``largest``: where the search begins, by default as large as in the hand.
    """
    scale = LARGEST_SCALE * page_scale if largest is None else largest
    area = sum(group.count * group.width_mm * group.depth_mm for group in groups)
    while area and scale * scale * area > width * height and scale >= at_least:
        scale *= _STEP  # the cassettes alone would cover more than the room
    while scale >= at_least:
        rows = list(_rows(scale, groups, width, GROUP_GAP * page_scale))
        if _height(rows, page_scale) <= height and _width(rows, page_scale) <= width:
            return _placed(scale, rows, page_scale)
        scale *= _STEP
    return None


def _height(rows: Sequence[_BlockRow], page_scale: float) -> float:
    high = sum(
        max(block.shells_height for _, block in row) + max(group.words_height for group, _ in row)
        for row in rows
    )
    return high + ROW_GAP * page_scale * max(0, len(rows) - 1)


def _width(rows: Sequence[_BlockRow], page_scale: float) -> float:
    gap = GROUP_GAP * page_scale
    return max((sum(block.width + gap for _, block in row) - gap for row in rows), default=0.0)


def _placed(scale: float, rows: Sequence[_BlockRow], page_scale: float) -> Arrangement:
    placed: list[PlacedTapes] = []
    top = 0.0
    for row in rows:
        shells_height = max(block.shells_height for _, block in row)
        left = 0.0
        for group, block in row:
            placed.append(_place(scale, group, block, left, top + shells_height))
            left += block.width + GROUP_GAP * page_scale
        top += shells_height + max(group.words_height for group, _ in row) + ROW_GAP * page_scale
    return Arrangement(scale, tuple(placed), _width(rows, page_scale), _height(rows, page_scale))


def _rows(
    scale: float, groups: Sequence[EqualTapes], width: float, group_gap: float
) -> Iterator[list[tuple[EqualTapes, _Block]]]:
    """The groups row by row; one that is wider than what is left of a row begins the next."""
    row: list[tuple[EqualTapes, _Block]] = []
    taken = 0.0
    for group in groups:
        block = _block(scale, group, width)
        if row and taken + block.width > width:
            yield row
            row, taken = [], 0.0
        row.append((group, block))
        taken += block.width + group_gap
    if row:
        yield row


def _block(scale: float, group: EqualTapes, width: float) -> _Block:
    wide, deep = group.width_mm * scale, group.depth_mm * scale
    lines = ceil(group.count / max(1, int((width + GAP) // (wide + GAP))))
    across = ceil(group.count / lines)
    shells_height = lines * (deep + GAP) - GAP
    shells_width = across * (wide + GAP) - GAP
    return _Block(across, max(shells_width, group.words_width), shells_height)


def _place(scale: float, group: EqualTapes, block: _Block, left: float, bottom: float) -> PlacedTapes:
    """The cassettes stand on the common line ``bottom`` of their row; the words hang below it."""
    wide, deep = group.width_mm * scale + GAP, group.depth_mm * scale + GAP
    top = bottom - block.shells_height
    places = (divmod(n, block.across) for n in range(group.count))
    shells = tuple((left + column * wide, top + line * deep) for line, column in places)
    return PlacedTapes(shells, (left, bottom))
