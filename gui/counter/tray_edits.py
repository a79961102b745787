"""What keys and answers do to the rows of the tray: the open cell is committed, then the step is taken."""

from __future__ import annotations

from PySide6.QtCore import QObject, Slot

from core.model.inventory import TapeLine
from gui.counter.draft_history import Draft
from gui.counter.typed_box import answered_for
from gui.tables.keyboard_navigation import TravelTable
from gui.toolkit.text import say


class TrayEdits(QObject):
    """Steps on the draft, all of which undo takes back."""

    def __init__(self, draft: Draft, table: TravelTable, parent: QObject) -> None:
        super().__init__(parent)
        self._draft = draft
        self._table = table

    @property
    def row(self) -> int:
        """Where the cursor is, with what is typed there committed; -1 before the tray was entered."""
        self._table.commit()
        return self._table.currentIndex().row()

    def add(self) -> None:
        """One more row, with the cursor in it."""
        self._table.put_cursor(self._draft.add_row(), 0)

    @Slot(int, str)
    def clear_cell(self, row: int, column: str) -> None:
        """Empty one cell; minutes are worked out and cannot be."""
        if column != "minutes":
            self._draft.write(row, column, "")

    @Slot()
    def repeat(self) -> None:
        """The row above once more."""
        row = max(self.row, 0)
        column = max(self._table.currentIndex().column(), 0)
        self._table.put_cursor(self._draft.repeat_above(row), column)

    @Slot()
    def remove(self) -> None:
        """Take the current row out."""
        here = self._table.currentIndex()
        if here.isValid():
            self._table.commit()
            self._draft.remove_row(here.row())
            self._table.put_cursor(min(here.row(), len(self._draft.box.rows) - 1), here.column())

    @Slot()
    def undo(self) -> None:
        """Take the last step back."""
        self._table.commit()
        self._draft.undo.undo()

    @Slot()
    def redo(self) -> None:
        """Do it again."""
        self._draft.undo.redo()

    def answer(self, row: int, line: TapeLine, tapes: int) -> None:
        """What a customer said of so many tapes of a row."""
        written = answered_for(self._draft.box.rows[row], line, tapes)
        self._draft.write_rows(row, written, say("counter", "undo_answer", row=row + 1))
        self._table.setFocus()
