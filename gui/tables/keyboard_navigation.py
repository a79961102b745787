"""A table that is filled like a form: Return and Tab go on, the last cell opens a new row."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, Qt, Signal, Slot
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from gui.tables.cell_editing import CellDelegate, Index
from gui.tables.rows_model import RowsModel
from gui.toolkit import theme

_NARROWEST = 0.72
"""Share of its width that a column keeps in a narrow room; then the table scrolls sideways."""


class KeyboardTable(QTableView):
    """Shows `RowsModel`. The first key typed starts editing; Return commits and moves on."""

    row_wanted = Signal()
    """The person went on from the last cell of the last row."""
    row_cleared = Signal(int, str)
    """Delete was pressed on a cell: row and column name."""
    went_on = Signal()
    """The person left an empty last row forwards."""
    went_back = Signal()
    cell_reached = Signal()
    pasted = Signal()
    """The clipboard is wanted here, with no cell open."""

    def __init__(self, rows: RowsModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.rows = rows
        self.cells = CellDelegate(rows, self)
        self.setModel(rows)
        self.setItemDelegate(self.cells)
        self.cells.left.connect(self.go)
        self._dress()

    # --- moving --------------------------------------------------------------------------

    @Slot(int, int)
    def go(self, along: int, down: int) -> None:
        """Go on by cells along the row, or by rows down the table."""
        here = self.currentIndex()
        if not here.isValid():
            self.put_cursor(0, self._first(0))
        elif down:
            self._go_down(here, down)
        elif along > 0:
            self._go_on(here)
        else:
            self._go_back(here)

    def put_cursor(self, row: int, column: int) -> None:
        """Make a cell the current one and bring it into sight."""
        index = self.rows.index(row, column)
        if index.isValid():
            self.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
            self.scrollTo(index)

    def commit(self) -> None:
        """Take over what is being typed, as if the person had gone on."""
        if self.cells.editor is not None:
            editor = self.cells.editor
            self.commitData(editor)
            self.closeEditor(editor, self.cells.EndEditHint.NoHint)

    @property
    def is_editing(self) -> bool:
        return self.cells.editor is not None

    def _go_on(self, here: QModelIndex) -> None:
        following = self._edited_beside(here, 1)
        if following is not None:
            self.put_cursor(here.row(), following)
        elif here.row() + 1 < self.rows.rowCount():
            self.put_cursor(here.row() + 1, self._first(here.row() + 1))
        else:
            self.row_wanted.emit()

    def _go_back(self, here: QModelIndex) -> None:
        before = self._edited_beside(here, -1)
        if before is not None:
            self.put_cursor(here.row(), before)
        elif here.row() > 0:
            self.put_cursor(here.row() - 1, self._last(here.row() - 1))
        else:
            self.went_back.emit()

    def _go_down(self, here: QModelIndex, down: int) -> None:
        row = here.row() + down
        if row >= self.rows.rowCount():
            self.row_wanted.emit()
        elif row >= 0:
            self.put_cursor(row, here.column())

    def _edited_beside(self, here: QModelIndex, step: int) -> int | None:
        column = here.column() + step
        while 0 <= column < len(self.rows.columns):
            if self.rows.is_edited(here.row(), column):
                return column
            column += step
        return None

    def _first(self, row: int) -> int:
        return min(self._edited_in(row))

    def _last(self, row: int) -> int:
        return max(self._edited_in(row))

    def _edited_in(self, row: int) -> list[int]:
        """Places of the cells of a row that may be typed into."""
        return [place for place in range(len(self.rows.columns)) if self.rows.is_edited(row, place)]

    @Slot()
    def open_list(self) -> None:
        """Open the list of the cell with the keyboard, where it has one."""
        here = self.currentIndex()
        if self._has_list(here):
            self.edit(here)
            self.cells.open_list()

    @property
    def has_list_here(self) -> bool:
        """Whether the cell with the keyboard has a list."""
        return self._has_list(self.currentIndex())

    def _has_list(self, index: QModelIndex) -> bool:
        return (
            index.isValid()
            and self.rows.is_edited(index.row(), index.column())
            and self.rows.columns[index.column()].choices is not None
        )

    # --- Qt's own ------------------------------------------------------------------------

    def event(self, event: QEvent) -> bool:
        """The key that opens lists is that of a screen elsewhere."""
        is_asked = event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent)
        if is_asked and _opens_list(event) and self._has_list(self.currentIndex()):  # type: ignore[arg-type]
            event.accept()
            return True
        return super().event(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A click on a cell that has a list opens it."""
        super().mouseReleaseEvent(event)
        is_click = event.button() == Qt.MouseButton.LeftButton and not event.modifiers()
        if (
            is_click
            and not self.is_editing
            and self.indexAt(event.position().toPoint()) == self.currentIndex()
        ):
            self.open_list()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, here = event.key(), self.currentIndex()
        plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if event.modifiers() == Qt.KeyboardModifier.ControlModifier and key == Qt.Key.Key_Tab:
            self.went_on.emit()
        elif _opens_list(event) and self._has_list(here):
            self.open_list()
        elif event.matches(QKeySequence.StandardKey.Paste):
            self.pasted.emit()
        elif plain and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab):
            self.go(1, 0)
        elif key == Qt.Key.Key_Backtab:
            held = event.modifiers() & Qt.KeyboardModifier.ControlModifier
            self.went_back.emit() if held else self.go(-1, 0)
        elif plain and key == Qt.Key.Key_Down and here.row() == self.rows.rowCount() - 1:
            self.go(0, 1)
        elif plain and key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace) and here.isValid():
            self.row_cleared.emit(here.row(), self.rows.columns[here.column()].name)
        else:
            super().keyPressEvent(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab belongs to the table; it leaves through an empty last row, or back from the first cell."""
        return False

    def keyboardSearch(self, search: str) -> None:
        """Letters start editing; they do not search."""

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if not self.currentIndex().isValid() and self.rows.rowCount():
            self.put_cursor(0, self._first(0))

    def currentChanged(self, current: Index, previous: Index) -> None:
        super().currentChanged(current, previous)
        self.cell_reached.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_width()

    def has_grown(self) -> None:
        """The columns grow with the type."""
        self._share_width()

    # --- dressing ------------------------------------------------------------------------

    def _dress(self) -> None:
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(triggers.AnyKeyPressed | triggers.EditKeyPressed | triggers.DoubleClicked)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectItems)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setMouseTracking(True)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setCornerButtonEnabled(False)
        self.setTabKeyNavigation(False)
        self._dress_headers()

    def _dress_headers(self) -> None:
        across = self.horizontalHeader()
        across.setHighlightSections(False)
        across.setTextElideMode(Qt.TextElideMode.ElideRight)
        across.setSectionsClickable(False)
        across.setFixedHeight(round(3.5 * theme.UNIT))
        across.setMinimumSectionSize(24)
        down = self.verticalHeader()
        down.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        down.setDefaultSectionSize(theme.ROW)
        down.setFixedWidth(round(3.5 * theme.UNIT))
        down.setSectionsClickable(False)
        down.setHighlightSections(True)

    def _widths(self) -> list[int]:
        """Of each column; where all are wider than the room, each gives a share as far as that goes."""
        plain = [theme.scaled(column.width) for column in self.rows.columns]
        stretching = sum(w for w, c in zip(plain, self.rows.columns, strict=True) if c.stretch)
        share = (self.viewport().width() - stretching) / max(1, sum(plain) - stretching)
        return [
            width if column.stretch else int(width * min(max(share, _NARROWEST), 1.0))
            for width, column in zip(plain, self.rows.columns, strict=True)
        ]

    def _share_width(self) -> None:
        """Columns keep their width; the stretching one takes the rest, or the table scrolls sideways."""
        widths = self._widths()
        taken = sum(w for w, c in zip(widths, self.rows.columns, strict=True) if not c.stretch)
        for place, column in enumerate(self.rows.columns):
            wide = max(widths[place], self.viewport().width() - taken) if column.stretch else widths[place]
            if self.columnWidth(place) != wide:
                self.setColumnWidth(place, wide)


def _opens_list(event: QKeyEvent) -> bool:
    held = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
    is_alt_down = event.key() == Qt.Key.Key_Down and held == Qt.KeyboardModifier.AltModifier
    return is_alt_down or (event.key() == Qt.Key.Key_F4 and not held)
