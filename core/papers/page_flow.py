"""What stands on a page, from top to bottom, and where one page ends and the next begins.

Everything has its height before anything is drawn, so the number of pages is known when the first
one is drawn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from core.papers import lettering
from core.papers.page import Pen
from core.papers.paper_tokens import BODY, LINE, Style


class Item(Protocol):
    """Something in a cell: a line of text, a strip, a drawing."""

    @property
    def height(self) -> float: ...

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None: ...


@dataclass(frozen=True, slots=True)
class TextLine:
    """One line of text that is known to fit. ``align`` is ``left``, ``right`` or ``centre``."""

    text: str
    style: Style = BODY
    align: str = "left"

    @property
    def height(self) -> float:
        return self.style.leading

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        spare = width - lettering.measured(self.text, self.style) if self.align != "left" else 0
        pen.text(x + (spare / 2 if self.align == "centre" else spare), y, self.text, self.style)


@dataclass(frozen=True, slots=True)
class Gap:
    """Empty height."""

    height: float

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        """Nothing to draw."""


Cell = tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class PageRow:
    """Cells side by side. ``widths`` are those of the cells, ``gutter`` the space between them."""

    cells: tuple[Cell, ...]
    widths: tuple[float, ...]
    gutter: float = 0
    air: float = 0
    """Space above and below the cells."""
    inset: float = 0
    """Space at both ends, for a row with a ground of its own."""
    fill: str | None = None
    ruled: bool = False
    """Whether a hairline closes the row."""

    @property
    def height(self) -> float:
        return 2 * self.air + max(_height(cell) for cell in self.cells)

    def draw(self, pen: Pen, x: float, y: float) -> None:
        """The row with its top left corner at ``x`` and ``y``."""
        whole = sum(self.widths) + self.gutter * (len(self.widths) - 1) + 2 * self.inset
        if self.fill:
            pen.box((x, y, whole, self.height), fill=self.fill, round_by=3)
        if self.ruled:
            pen.rule(x, y + self.height, whole, LINE)
        left = x + self.inset
        for cell, width in zip(self.cells, self.widths, strict=True):
            _draw_cell(pen, cell, left, y + self.air, width)
            left += width + self.gutter

    def split(self, height: float) -> tuple[PageRow, PageRow] | None:
        """The part that fits into ``height`` and the rest; None when not even a line fits."""
        parts = [_split_cell(cell, height - 2 * self.air) for cell in self.cells]
        if not any(first for first, _ in parts):
            return None
        first = replace(self, cells=tuple(first for first, _ in parts), ruled=False)
        return first, replace(self, cells=tuple(rest for _, rest in parts))


@dataclass(frozen=True, slots=True)
class Block:
    """A row in the story: how far below the last one, and what must not be torn from it."""

    row: PageRow
    before: float = 0
    with_next: bool = False
    heading: PageRow | None = None
    """Repeated at the top of a page on which the piece is not the first of its table."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A row and the distance of its top from the top of the page."""

    row: PageRow
    top: float


def arranged(pieces: Sequence[Block], first: float, later: float, bottom: float) -> list[list[Placed]]:
    """The pieces on pages whose text runs from ``first`` (``later`` on all but the first) to ``bottom``."""
    pages: list[list[Placed]] = [[]]
    y = first
    for index, piece in enumerate(pieces):
        before = piece.before if pages[-1] else 0
        if pages[-1] and y + before + _together(pieces, index, bottom - later) > bottom:
            pages.append([])
            y, before = later, 0
            if piece.heading:
                y = _put(pages, piece.heading, y)
        for part, on_new_page in _parts(piece.row, bottom - y - before, bottom - later):
            if on_new_page:
                pages.append([])
                y, before = later, 0
            y = _put(pages, part, y + before)
            before = 0
    return pages


def _put(pages: list[list[Placed]], row: PageRow, y: float) -> float:
    pages[-1].append(Placed(row, y))
    return y + row.height


def _together(pieces: Sequence[Block], index: int, most: float) -> float:
    """Height of a piece and of those that must stand on the same page, as far as a page can hold them."""
    own = height = pieces[index].row.height
    while pieces[index].with_next and index + 1 < len(pieces):
        index += 1
        height += pieces[index].before + pieces[index].row.height
    return height if height <= most else own


def _parts(row: PageRow, here: float, page: float) -> Iterator[tuple[PageRow, bool]]:
    """The row, cut where a page ends if it is taller than a page; whether each part opens a page."""
    opens = False
    room = here
    while row.height > room and (parts := row.split(room)):
        yield parts[0], opens
        row, room, opens = parts[1], page, True
    yield row, opens


def _height(cell: Cell) -> float:
    return sum(item.height for item in cell)


def _draw_cell(pen: Pen, cell: Cell, x: float, y: float, width: float) -> None:
    for item in cell:
        item.draw(pen, x, y, width)
        y += item.height


def _split_cell(cell: Cell, height: float) -> tuple[Cell, Cell]:
    used = 0.0
    for index, item in enumerate(cell):
        used += item.height
        if used > height:
            return cell[:index], cell[index:]
    return cell, ()
