"""The table of prices: its columns, and the keyboard in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QWidget

from gui.settings import price_lines, price_texts
from gui.settings.price_lines import PriceLine
from gui.tables.choices import CellChoice
from gui.tables.column_specs import Column
from gui.tables.keyboard_navigation import KeyboardTable
from gui.tables.rows_model import RowsModel
from gui.toolkit import theme
from gui.toolkit.text import say

_WIDTHS = {"words": 108, "way": 112, "price": 72, "minimum": 84, "percent": 72, "number": 94}


class PriceTable(KeyboardTable):
    """Shows the lines and offers what was typed, as lines."""

    edited = Signal(object)
    """The lines as they now stand."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(RowsModel(columns("")), parent)
        self.rows.setParent(self)
        self.setObjectName("price-table")
        self.setAccessibleName(say("settings", "prices-table"))
        self.verticalHeader().hide()
        self.setMinimumHeight(14 * theme.ROW)
        self.rows.written.connect(self._write)
        self.row_cleared.connect(self._clear)
        self.row_wanted.connect(self.went_on)

    @property
    def lines(self) -> tuple[PriceLine, ...]:
        return self.rows.rows

    def show_currency(self, currency: str) -> None:
        """Name the currency over the prices."""
        self.rows.columns = columns(currency)
        self.rows.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(self.rows.columns) - 1)

    def show_lines(self, lines: tuple[PriceLine, ...]) -> None:
        """Show these lines; what is being typed stays."""
        self.rows.show(lines)

    def stand_on(self, place: int, column: str) -> None:
        """Put the keyboard into a cell."""
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self.put_cursor(place, self.rows.column_named(column))

    @Slot(int, str, str)
    def _write(self, place: int, column: str, text: str) -> None:
        if self.lines[place].shown(column) == text:
            return
        changed = list(self.lines)
        changed[place] = price_lines.written(changed[place], column, text)
        self.edited.emit(price_lines.arranged(changed))

    @Slot(int, str)
    def _clear(self, place: int, column: str) -> None:
        if self.lines[place].is_edited(column):
            self._write(place, column, "")


def columns(currency: str) -> tuple[Column, ...]:
    """The columns from left to right; which cells are typed into depends on the line."""
    part = Column("head", price_lines.head("head", currency), lambda line: line.head, 68)
    return (part, *(_column(name, currency) for name in price_lines.COLUMNS))


def _column(name: str, currency: str) -> Column:
    return Column(
        name,
        price_lines.head(name, currency),
        partial(_shown, name),
        _WIDTHS[name],
        stretch=name == "words",
        right=name not in ("words", "way", "number"),
        edited=True,
        edited_in=partial(_is_edited, name),
        choices=_CHOICES.get(name),
        wrong=partial(_wrong, name),
        hint=say("settings", f"prices-hint-{name}"),
        besides=_means if name == "words" else None,
    )


def _ways(line: PriceLine) -> Sequence[CellChoice]:
    return price_texts.ways(line.row)


def _taxed(line: PriceLine) -> Sequence[CellChoice]:
    return price_texts.taxed(line.row)


_CHOICES: Mapping[str, Callable[[PriceLine], Sequence[CellChoice]]] = {"way": _ways, "number": _taxed}


def _means(line: PriceLine) -> str:
    return line.means


def _shown(column: str, line: PriceLine) -> str:
    return line.shown(column)


def _is_edited(column: str, line: PriceLine) -> bool:
    return line.is_edited(column)


def _wrong(column: str, line: PriceLine) -> str:
    return line.wrong(column)
