"""The text of a paper as it is told: headings, paragraphs, tables, panels, one row below the other.

Every row has its height before anything is drawn, so the number of pages is known when the first is drawn.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Protocol

from core.papers.typesetting import lettering
from core.papers.typesetting.paper_tokens import BODY, GROUND, LEAD, LINE, MARGIN, QUIET, UNIT, Style

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

GUTTER = 1.5 * UNIT
_INSET = 2 * UNIT
_TIGHT = 1.2
"""Of the size of the type: the least distance of two lines that is set with ease (common practice)."""


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


@dataclass(frozen=True, slots=True)
class SumLine:
    """The last line of some words, and the amount they are about at the right."""

    words: str
    amount: str
    style: Style = BODY

    @property
    def height(self) -> float:
        return self.style.leading

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        pen.text(x, y, self.words, self.style)
        left = x + width - lettering.measured(self.amount, self.style)
        pen.text(left, y, self.amount, self.style)


@dataclass(frozen=True, slots=True)
class RuledGap:
    """A hairline in the middle of empty height."""

    height: float = UNIT

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        pen.rule(x, y + self.height / 2, width, LINE)


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
        return 2 * self.air + max(map(_height, self.cells))

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
    opens_page: bool = False


@dataclass(frozen=True, slots=True)
class TableColumn:
    """One column of a table; ``width`` 0 takes what the others leave."""

    title: str
    width: float = 0
    align: str = "left"


class Story:
    """Collects the pieces of a paper that is ``width`` points wide between its margins."""

    def __init__(self, width: float, margin: float = MARGIN) -> None:
        self.width = width
        self.margin = margin
        self.pieces: list[Block] = []

    def head(self, text: str) -> None:
        """A section's heading; it stays with what follows."""
        self.add(text_cell(text, self.width, LEAD), before=3 * UNIT, with_next=True)

    def say(
        self, text: str, style: Style = BODY, *, before: float = UNIT / 2, with_next: bool = False
    ) -> None:
        """A paragraph."""
        self.add(text_cell(text, self.width, style), before=before, with_next=with_next)

    def add(self, cell: Cell, *, before: float = UNIT, with_next: bool = False) -> None:
        """Anything across the whole width."""
        self.pieces.append(Block(PageRow((cell,), (self.width,)), before, with_next))

    def turn_over(self) -> None:
        """What follows begins on a new page."""
        self.pieces.append(Block(PageRow(((),), (self.width,)), opens_page=True, with_next=True))

    def keep_last(self) -> None:
        """What was added last stays with what follows."""
        self.pieces[-1] = replace(self.pieces[-1], with_next=True)

    def keep_from(self, place: int) -> None:
        """All pieces from ``place`` on stay on one page, if a page can hold them."""
        for index in range(max(place, 0), len(self.pieces) - 1):
            self.pieces[index] = replace(self.pieces[index], with_next=True)

    def tighten(self) -> None:
        """Less air everywhere, where a little of it would begin another page; lines at 1.2 of their type."""
        self.pieces = [
            replace(
                piece,
                row=_tightened(piece.row),
                before=piece.before * 2 / 3,
                heading=piece.heading and _tightened(piece.heading),
            )
            for piece in self.pieces
        ]

    def beside(self, cells: Sequence[Cell], widths: Sequence[float], *, before: float = UNIT) -> None:
        """Cells next to each other without a rule."""
        self.pieces.append(Block(PageRow(tuple(cells), tuple(widths), GUTTER), before))

    def panel(
        self,
        cells: Sequence[Cell],
        widths: Sequence[float],
        *,
        before: float = 2 * UNIT,
        air: float = 1.5 * UNIT,
    ) -> None:
        """Cells on a ground of their own: what matters first."""
        row = PageRow(tuple(cells), tuple(widths), 2 * UNIT, air=air, inset=_INSET, fill=GROUND)
        self.pieces.append(Block(row, before))

    def panel_widths(self, *shares: float) -> tuple[float, ...]:
        """The widths of a panel's cells for these shares."""
        free = self.width - 2 * _INSET - 2 * UNIT * (len(shares) - 1)
        return tuple(free * share / sum(shares) for share in shares)

    def beside_widths(self, *shares: float) -> tuple[float, ...]:
        """The widths of cells next to each other for these shares."""
        free = self.width - GUTTER * (len(shares) - 1)
        return tuple(free * share / sum(shares) for share in shares)

    def table(self, table: PaperTable, rows: Iterable[Sequence[Cell]]) -> None:
        """A table whose heading comes again on every page; the first row stays with the heading."""
        self.pieces.append(Block(table.heading(), UNIT, with_next=True))
        self.rows(table, (table_row(table, cells) for cells in rows))

    def rows(self, table: PaperTable, rows: Iterable[PageRow], *, with_next: bool = False) -> None:
        """More rows of a table that was begun; ``with_next``: each stays with what follows it."""
        heading = table.heading()
        self.pieces += [Block(row, with_next=with_next, heading=heading) for row in rows]


class PaperTable:
    """Columns set into a width, and the cells that fit them."""

    def __init__(self, columns: Sequence[TableColumn], width: float) -> None:
        self.columns = tuple(columns)
        free = width - GUTTER * (len(columns) - 1) - sum(column.width for column in columns)
        open_columns = sum(1 for column in columns if not column.width)
        self.widths = tuple(column.width or free / open_columns for column in columns)

    def heading(self) -> PageRow:
        """The titles over a rule."""
        cells = tuple(self.cell(index, (column.title, QUIET)) for index, column in enumerate(self.columns))
        return PageRow(cells, self.widths, GUTTER, air=UNIT / 4, ruled=True)

    def cell(self, index: int, *texts: tuple[str, Style] | str) -> Cell:
        """Texts below each other in column ``index``; empty ones are left out."""
        column, width = self.columns[index], self.widths[index]
        pairs = [(text, BODY) if isinstance(text, str) else text for text in texts]
        return tuple(
            line
            for text, style in pairs
            if text
            for line in text_cell(text, width, style, align=column.align)
        )


def table_row(
    table: PaperTable, cells: Sequence[Cell], *, widths: Sequence[float] = (), ruled: bool = True
) -> PageRow:
    """A row of a table; ``widths`` where it has other columns than its table."""
    return PageRow(tuple(cells), tuple(widths) or table.widths, GUTTER, air=UNIT / 2, ruled=ruled)


def text_cell(text: str, width: float, style: Style = BODY, *, align: str = "left") -> Cell:
    """A paragraph as the lines of a cell."""
    return tuple(TextLine(line, style, align) for line in lettering.wrapped(text, style, width))


def few_cell(text: str, width: float, style: Style, most: int) -> Cell:
    """At most ``most`` lines, where there is no room for more; the last one then ends in an ellipsis."""
    lines = lettering.wrapped(text, style, width)
    if len(lines) > most:
        lines = (*lines[: most - 1], lettering.shortened(" ".join(lines[most - 1 :]), style, width))
    return tuple(TextLine(line, style) for line in lines if line)


def whole_cell(text: str, width: float, style: Style, most: int) -> Cell:
    """At most ``most`` lines of whole words; what is left out leaves an ellipsis, never half a word."""
    if most < 1:
        return ()
    lines = lettering.wrapped(text, style, width)
    if len(lines) > most:
        lines = (*lines[: most - 1], lettering.ended(lines[most - 1], style, width))
    return tuple(TextLine(line, style) for line in lines if line)


def even_cell(text: str, width: float, style: Style = BODY, *, align: str = "left") -> Cell:
    """A short text in lines of even length."""
    return tuple(TextLine(line, style, align) for line in lettering.balanced(text, style, width))


def gap(height: float = UNIT) -> Cell:
    """Empty height within a cell."""
    return (Gap(height),)


def _tightened(row: PageRow) -> PageRow:
    return replace(row, air=row.air / 2, cells=tuple(tuple(map(_closer, cell)) for cell in row.cells))


def _closer(item: Item) -> Item:
    if isinstance(item, TextLine | SumLine):
        style = replace(item.style, leading=min(item.style.leading, item.style.size * _TIGHT))
        return replace(item, style=style)
    return replace(item, height=item.height * 2 / 3) if isinstance(item, Gap) else item


def ruled_gap() -> Cell:
    """A hairline between sums."""
    return (RuledGap(),)


def sum_cell(words: str, amount: str, width: float, style: Style = BODY) -> Cell:
    """What an amount is for, with the amount at the end of its last line."""
    room = width - lettering.measured(amount, style) - GUTTER
    *first, last = lettering.wrapped(words, style, room)
    return (*(TextLine(line, style) for line in first), SumLine(last, amount, style))


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
