"""From the one line, a pasted table or a dropped file to rows in the tray, each in one step to undo."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtGui import QGuiApplication

from core.model.errors import WrongInput
from core.model.typed_draft import TypedBox, TypedRow
from gui.counter.draft_history import Draft
from gui.counter.line_reading_panel import LineReadingPanel
from gui.counter.line_words_offered import LineText
from gui.counter.typed_box import read_row, row_of
from gui.toolkit.text import say

if TYPE_CHECKING:
    from core.catalogue.box_line.line_records import LineRow
    from gui.counter.counter_layout import CounterLayout

_FIELDS = ("name", "phone", "tv", "copies", "needed_by")
"""Fields beside the tray that a dropped order fills where they are empty."""


class LineEntry(QObject):
    """Keeps the text of the line in the draft, and its rows when Return is pressed."""

    said = Signal(str)
    failed = Signal(object)
    """A `WrongInput`: nothing was taken."""

    def __init__(self, draft: Draft, parts: CounterLayout, parent: QObject) -> None:
        super().__init__(parent)
        self._draft = draft
        self._parts = parts
        self._is_open = False
        self.panel = LineReadingPanel(parts.line)
        line = parts.line
        line.textEdited.connect(self._write)
        line.textChanged.connect(self._tell)
        line.opened.connect(self._note_open)
        line.entered.connect(self.take)
        line.left.connect(self._go_back)
        line.table_pasted.connect(self.take_table)
        parts.table.pasted.connect(self.paste)
        draft.line_changed.connect(self._show)
        self.panel.correction_wanted.connect(line.offer_correction)
        self.panel.rows_wanted.connect(self.take)

    @Slot()
    def open(self) -> None:
        """The keyboard goes to the line, wherever it is on the Counter."""
        self._parts.table.commit()
        self._parts.bring(self._parts.line)
        self._parts.line.setCursorPosition(len(self._parts.line.text()))

    @Slot()
    def paste(self) -> None:
        """What the clipboard holds: a table becomes rows, words go into the line."""
        clipboard = QGuiApplication.clipboard().mimeData()
        if not LineText.is_table(clipboard.text()):
            self.open()
        self._parts.line.paste_from(clipboard)

    @Slot()
    def take(self) -> None:
        """The rows that the line names; words that nobody understood go with their row."""
        from core.catalogue.box_line import line_reading

        rows = tuple(typed_row_of(row) for row in line_reading.read(self._parts.line.text()).rows)
        if rows:
            self._take_rows(rows, say("counter", "undo_line_taken"), line="")

    @Slot(str)
    def take_table(self, text: str) -> None:
        """The rows of a table out of a spreadsheet."""
        from core.catalogue.box_line import pasted_table

        try:
            rows = pasted_table.read(text, say("counter", "pasted"))
        except WrongInput as failure:
            self.failed.emit(failure)
            return
        self._take_rows(rows, say("counter", "undo_pasted"))

    @Slot(object)
    def take_box(self, box: TypedBox) -> None:
        """A whole order out of a file: its rows, and its fields where none are filled in."""
        here = self._draft.box
        fields = {name: getattr(box, name) for name in _FIELDS if not getattr(here, name)}
        ticks = (
            {} if not here.is_empty else {"rush": box.rush, "cold": box.cold, "tax_exempt": box.tax_exempt}
        )
        self._take_rows(box.rows, say("counter", "undo_dropped"), **fields, **ticks)

    def _take_rows(self, rows: tuple[TypedRow, ...], words: str, **fields: object) -> None:
        first = self._draft.add_rows(rows, words, **fields)
        wrong = [(n, complaints[0][0]) for n, row in enumerate(rows) if (complaints := read_row(row).wrong)]
        tapes = sum(int(row.count) if row.count.isdecimal() else 1 for row in rows)
        self.said.emit(say("counter", "line_taken", rows=len(rows), tapes=tapes, wrong=len(wrong)))
        if wrong:
            row, column = wrong[0]
            self._parts.go_to(first + row, column)
        else:
            self._parts.table.put_cursor(first + len(rows) - 1, 0)

    # --- what is typed -------------------------------------------------------------------

    @Slot(str)
    def _write(self, text: str) -> None:
        self._draft.write_field("line", text)

    @Slot(str)
    def _show(self, text: str) -> None:
        if self._parts.line.text() != text:
            self._parts.line.setText(text)

    @Slot()
    def _tell(self) -> None:
        self.panel.show_reading(self._parts.line.read, is_open=self._is_open)

    @Slot(bool)
    def _note_open(self, is_open: bool) -> None:
        self._is_open = is_open
        self._parts.show_line_open(is_open)
        self._tell()

    @Slot()
    def _go_back(self) -> None:
        self._parts.bring(self._parts.table)


def typed_row_of(row: LineRow) -> TypedRow:
    """The cells of a row; what was not understood stands where the format or a finding would."""
    from dataclasses import replace

    unread = list(row.unread)
    tapes = row.tapes
    if tapes is not None:
        cells = row_of(tapes)
    else:
        cells = replace(row_of(row.without_format), format=unread.pop(0) if unread else "")
    count = unread.pop(0) if row.count == 1 and unread and unread[0].isdecimal() else cells.count
    findings = ", ".join([text for text in (cells.findings, *unread) if text])
    return replace(cells, count=count, findings=findings)
