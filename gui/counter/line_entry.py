"""From the one line, a pasted table or a dropped file to rows in the tray, each in one step to undo."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtGui import QGuiApplication

from core.model.errors import WrongInput
from core.model.typed_draft import TypedBox, TypedRow
from gui.counter.draft_history import Draft
from gui.counter.line_reading_panel import LineReadingPanel
from gui.counter.line_words_offered import LineText
from gui.counter.local_phone import with_area_code
from gui.counter.pending_line import PendingLine, pending, typed_row_of
from gui.counter.typed_box import read_row
from gui.toolkit.text import say

if TYPE_CHECKING:
    from core.model.own_shop.settings_records import ShopSettings
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
        self._settings: ShopSettings | None = None
        self.panel = LineReadingPanel(parts.line)
        line = parts.line
        line.textEdited.connect(self._write)
        line.textChanged.connect(self._tell)
        line.opened.connect(self._note_open)
        line.entered.connect(self.take)
        line.left.connect(self._go_back)
        line.table_pasted.connect(self.take_table)
        parts.table.pasted.connect(self.paste)
        parts.table.cells.typed.connect(self._words_in_count)
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

    def use_settings(self, settings: ShopSettings) -> None:
        """The shop whose area code holds for numbers without one."""
        self._settings = settings

    def laid_out(self, box: TypedBox) -> TypedBox:
        """The box with what is typed in the line, as it is quoted before it is taken."""
        return self._pending(box.line).laid_out(box)

    @property
    def is_open(self) -> bool:
        """Whether the line has the keyboard."""
        return self._is_open

    @Slot()
    def take(self) -> None:
        """The rows that the line names, and who brings them; unread words go with their row."""
        found = self._pending(self._parts.line.text())
        rows = found.rows if found.is_whole else self._rows_with_unread()
        if rows or found.fields:
            self._take_rows(rows, say("counter", "undo_line_taken"), line="", **found.fields)

    def take_whole(self) -> bool:
        """Take the line where all of it is understood, so that it need not be told to; whether it was."""
        is_whole = self._pending(self._draft.box.line).is_whole
        if is_whole:
            self.take()
        return is_whole

    def without_customer(self) -> str:
        """The text of the line without who brings the tapes."""
        at = self._parts.line.read.customer_at
        text = self._draft.box.line
        return text if at is None else text[:at].rstrip().removesuffix(";")

    def _pending(self, text: str) -> PendingLine:
        found = pending(text)
        settings = self._settings
        if not found.phone or settings is None:
            return found
        whole = with_area_code(found.phone, settings.front.phone, settings.country)
        return replace(found, phone=whole)

    def _rows_with_unread(self) -> tuple[TypedRow, ...]:
        from core.catalogue.box_line import line_reading

        return tuple(typed_row_of(row) for row in line_reading.read(self._parts.line.text()).rows)

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
        if not rows:
            return
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

    @Slot(int, str, str)
    def _words_in_count(self, row: int, column: str, text: str) -> None:
        """Words where a count belongs, in a row that is empty: they begin the line."""
        is_words = any(sign.isalpha() for sign in text)
        cells, line = self._parts.table.cells, self._parts.line
        if (
            column != "count"
            or not is_words
            or cells.editor is None
            or not self._draft.box.rows[row].is_empty
        ):
            return
        cells.closeEditor.emit(cells.editor, cells.EndEditHint.RevertModelCache)
        self._parts.bring(line)
        line.setCursorPosition(len(line.text()))
        line.insert(f", {text}" if line.text().strip() else text)
        line.textEdited.emit(line.text())

    @Slot(bool)
    def _note_open(self, is_open: bool) -> None:
        self._is_open = is_open
        self._parts.show_line_open(is_open)
        self._tell()

    @Slot()
    def _go_back(self) -> None:
        self._parts.bring(self._parts.table)
