"""The text of a paper as it is told: headings, paragraphs, tables, panels, one below the other."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from core.papers import lettering
from core.papers.page_flow import Block, Cell, Gap, PageRow, TextLine
from core.papers.paper_tokens import BODY, GROUND, LEAD, QUIET, UNIT, Style

GUTTER = 1.5 * UNIT
_INSET = 2 * UNIT


@dataclass(frozen=True, slots=True)
class TableColumn:
    """One column of a table; ``width`` 0 takes what the others leave."""

    title: str
    width: float = 0
    align: str = "left"


class Story:
    """Collects the pieces of a paper that is ``width`` points wide."""

    def __init__(self, width: float) -> None:
        self.width = width
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

    def beside(self, cells: Sequence[Cell], widths: Sequence[float], *, before: float = UNIT) -> None:
        """Cells next to each other without a rule."""
        self.pieces.append(Block(PageRow(tuple(cells), tuple(widths), GUTTER), before))

    def panel(self, cells: Sequence[Cell], widths: Sequence[float], *, before: float = 2 * UNIT) -> None:
        """Cells on a ground of their own: what matters first."""
        row = PageRow(tuple(cells), tuple(widths), 2 * UNIT, air=1.5 * UNIT, inset=_INSET, fill=GROUND)
        self.pieces.append(Block(row, before))

    def panel_widths(self, *shares: float) -> tuple[float, ...]:
        """The widths of a panel's cells for these shares."""
        free = self.width - 2 * _INSET - 2 * UNIT * (len(shares) - 1)
        return tuple(free * share / sum(shares) for share in shares)

    def table(self, table: PaperTable, rows: Iterable[Sequence[Cell]]) -> None:
        """A table whose heading comes again on every page; the first row stays with the heading."""
        heading = table.heading()
        self.pieces.append(Block(heading, UNIT, with_next=True))
        for cells in rows:
            row = PageRow(tuple(cells), table.widths, GUTTER, air=UNIT / 2, ruled=True)
            self.pieces.append(Block(row, heading=heading))


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


def text_cell(text: str, width: float, style: Style = BODY, *, align: str = "left") -> Cell:
    """A paragraph as the lines of a cell."""
    return tuple(TextLine(line, style, align) for line in lettering.wrapped(text, style, width))


def few_cell(text: str, width: float, style: Style, most: int) -> Cell:
    """At most ``most`` lines, where there is no room for more; the last one then ends in an ellipsis."""
    lines = lettering.wrapped(text, style, width)
    if len(lines) > most:
        lines = (*lines[: most - 1], lettering.shortened(" ".join(lines[most - 1 :]), style, width))
    return tuple(TextLine(line, style) for line in lines if line)


def even_cell(text: str, width: float, style: Style = BODY, *, align: str = "left") -> Cell:
    """A short text in lines of even length."""
    return tuple(TextLine(line, style, align) for line in lettering.balanced(text, style, width))


def gap(height: float = UNIT) -> Cell:
    """Empty height within a cell."""
    return (Gap(height),)
