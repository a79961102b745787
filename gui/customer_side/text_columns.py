"""Rows find their place: column by column, page by page, in the largest type in which all of it fits."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QSizeF

from gui.customer_side import text_rows
from gui.customer_side.page_scale import smaller_scales, unit
from gui.customer_side.text_blocks import TextBlock
from gui.customer_side.text_rows import Piece, Row, moved

_COLUMN_LEAST = 30.0
"""Grid steps: a narrower column breaks every sentence."""
_COLUMN_GAP = 4.0


@dataclass(frozen=True, slots=True)
class SetPage:
    """What stands on one page: pieces in their places, and the lines between (left, y, right)."""

    pieces: tuple[Piece, ...]
    rules: tuple[tuple[float, float, float], ...]


@dataclass(frozen=True, slots=True)
class SetPages:
    """All pages, in one type."""

    scale: float
    pages: tuple[SetPage, ...]


def fitted(blocks: Sequence[TextBlock], room: QSizeF, scale: float, most_columns: int = 1) -> SetPages:
    """The blocks in ``room``: larger type before fewer columns, reasons before smaller type; else pages."""
    for size, columns, reasons in _tries(scale, most_columns, room.width()):
        if text_rows.least_height(blocks, size) <= room.height() * columns:
            pages = _pages(blocks, room, size, columns, reasons)
            if len(pages) <= 1:
                return SetPages(size, pages)
    size = smaller_scales(scale)[2]
    columns = max(1, min(most_columns, _columns_in(room.width(), size)))
    return SetPages(size, _pages(blocks, room, size, columns, reasons=True))


def _tries(scale: float, most_columns: int, width: float) -> Iterator[tuple[float, int, bool]]:
    sizes = smaller_scales(scale)
    for reasons in (True, False):
        for size in sizes if not reasons else sizes[:4]:
            for columns in range(1, max(1, min(most_columns, _columns_in(width, size))) + 1):
                yield size, columns, reasons


def _columns_in(width: float, scale: float) -> int:
    return int((width / unit(scale) + _COLUMN_GAP) // (_COLUMN_LEAST + _COLUMN_GAP))


def _pages(
    blocks: Sequence[TextBlock], room: QSizeF, scale: float, columns: int, reasons: bool
) -> tuple[SetPage, ...]:
    gap = _COLUMN_GAP * unit(scale)
    width = (room.width() - gap * (columns - 1)) / columns
    laid = text_rows.rows(blocks, round(width, 1), scale, reasons=reasons)
    filled = _columns(laid, room.height())
    return tuple(_page(filled[n : n + columns], width, gap) for n in range(0, len(filled), columns))


def _columns(laid: Sequence[Row], high: float) -> list[list[Row]]:
    """Rows that belong together stand in one column, unless they are longer than any."""
    filled: list[list[Row]] = [[]]
    for run in _runs(laid):
        if text_rows.height([*filled[-1], *run]) <= high:
            filled[-1] += run
        elif text_rows.height(run) <= high:
            filled.append(list(run))
        else:
            _break_up(run, high, filled)
    return [column for column in filled if column]


def _break_up(run: Sequence[Row], high: float, filled: list[list[Row]]) -> None:
    for row in run:
        if filled[-1] and text_rows.height([*filled[-1], row]) > high:
            filled.append([])
        filled[-1].append(row)


def _runs(laid: Sequence[Row]) -> Iterator[list[Row]]:
    run: list[Row] = []
    for row in laid:
        run.append(row)
        if not row.keeps:
            yield run
            run = []
    if run:
        yield run


def _page(columns: Sequence[Sequence[Row]], width: float, gap: float) -> SetPage:
    pieces: list[Piece] = []
    rules: list[tuple[float, float, float]] = []
    for n, column in enumerate(columns):
        x, y = n * (width + gap), 0.0
        for place, row in enumerate(column):
            if place:
                if row.is_ruled:
                    rules.append((x, y + row.before / 2, x + width))
                y += row.before
            pieces += [moved(piece, x, y) for piece in row.pieces]
            y += row.height
    return SetPage(tuple(pieces), tuple(rules))
