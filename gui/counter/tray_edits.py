"""What keys and answers do to the rows of the tray: the open cell is committed, then the step is taken."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal, Slot

from core.model.quote_records import Question
from gui.counter.box_quote import BoxQuote
from gui.counter.draft_history import Draft
from gui.counter.typed_box import answered_for
from gui.tables.keyboard_navigation import KeyboardTable
from gui.toolkit.text import say


class TrayEdits(QObject):
    """Steps on the draft, all of which undo takes back."""

    left = Signal()
    """The keyboard went on from an empty last row."""

    def __init__(self, draft: Draft, table: KeyboardTable, box: BoxQuote, parent: QObject) -> None:
        super().__init__(parent)
        self._draft = draft
        self._table = table
        self._box = box
        self._waiting: tuple[Question, int, int] | None = None
        """An answer that waits for the whole quote of the tapes it was given for."""
        self._connect()

    @property
    def row(self) -> int:
        """The row of the cursor, its open cell committed; -1 before the tray was entered."""
        self._table.commit()
        return self._table.currentIndex().row()

    # --- rows ----------------------------------------------------------------------------

    @Slot()
    def go_on_below(self) -> None:
        """Add a row below the last one; after an empty one the keyboard leaves the tray."""
        rows = self._draft.box.rows
        if rows[-1].is_empty and len(rows) > 1:
            self.left.emit()
        else:
            self._table.put_cursor(self._draft.add_row(), 0)

    @Slot(int, str)
    def clear_cell(self, row: int, column: str) -> None:
        """Empty one cell; play time is worked out and cannot be emptied."""
        if column != "minutes":
            self._draft.write(row, column, "")

    @Slot()
    def repeat(self) -> None:
        """Repeat the row above."""
        row = max(self.row, 0)
        column = max(self._table.currentIndex().column(), 0)
        self._table.put_cursor(self._draft.repeat_above(row), column)

    @Slot()
    def remove(self) -> None:
        """Remove the current row."""
        here = self._table.currentIndex()
        if here.isValid():
            self._table.commit()
            self._draft.remove_row(here.row())
            self._table.put_cursor(min(here.row(), len(self._draft.box.rows) - 1), here.column())

    @Slot()
    def go_to_findings(self) -> None:
        """Type what is wrong with the tapes of this row, wherever in it the keyboard was."""
        row = max(self.row, 0)
        self._table.setFocus()
        self._table.put_cursor(row, self._table.rows.column_named("findings"))
        self._table.edit(self._table.currentIndex())

    @Slot()
    def undo(self) -> None:
        """Undo the last step."""
        self._table.commit()
        self._draft.undo.undo()

    @Slot()
    def redo(self) -> None:
        """Redo the step undone last."""
        self._draft.undo.redo()

    @Slot()
    def start_new(self) -> None:
        """Empty the box, with the cursor in its first cell; undo brings the old one back."""
        self._table.commit()
        self._draft.start_new()
        self._table.setFocus()
        self._table.put_cursor(0, 0)

    # --- answers -------------------------------------------------------------------------

    @Slot(object, int, int)
    def answer(self, question: Question, place: int, tapes: int) -> None:
        """Write answer number ``place`` of a question into its row, for so many tapes.

        While the quote is not whole the answer waits; it is dropped when its question is gone by then.
        """
        self._table.commit()
        quote = self._box.quote
        if not self._box.is_settled:
            self._waiting = (question, place, tapes)
        elif quote is not None and question in quote.questions:
            row = self._box.reading.places[question.line - 1]
            written = answered_for(self._draft.box.rows[row], question.answers[place].draft, tapes)
            self._draft.write_rows(row, written, say("counter", "undo_answer", row=row + 1))
            self._table.setFocus()

    def take_waiting_answer(self) -> None:
        """The quote is whole: write the answer that waited for it."""
        waiting, self._waiting = self._waiting, None
        if waiting is not None:
            self.answer(*waiting)

    def _connect(self) -> None:
        table, draft = self._table, self._draft
        table.rows.written.connect(draft.write)
        table.cells.typed.connect(draft.half_type)
        table.cells.closeEditor.connect(draft.drop_half_typed)
        table.row_wanted.connect(self.go_on_below)
        table.row_cleared.connect(self.clear_cell)
        table.went_on.connect(self.left)
