"""The two inspections of a row's cassette: the guided look-over, and the reading of its packs.

Both windows are built when they are first wanted: nobody waits for them at the start.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import cached_property

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.catalogue import formats
from core.model.inventory import TapeLine
from core.model.spoken_names import spoken
from core.playtime.pack_reading import Recorded
from gui.counter.draft_history import Draft
from gui.counter.tray_edits import TrayEdits
from gui.counter.typed_box import answered, read_box, read_row
from gui.inspection.guided_look import LookOver
from gui.inspection.look_progress import LookResult, LookSubject
from gui.inspection.pack_sentences import recorded_words
from gui.inspection.pack_tool import PackTool
from gui.toolkit.text import say


class RowInspections(QObject):
    """Inspects one row of the tray; what is found changes the row in one step that can be undone."""

    taken = Signal(str)
    """What was written into the row, as a sentence."""
    row_unclear = Signal(int)
    """The row names no format yet, so there is nothing to look at."""

    def __init__(self, draft: Draft, tray: TrayEdits, today: Callable[[], date], screen: QWidget) -> None:
        super().__init__(screen)
        self._draft = draft
        self._tray = tray
        self._today = today
        self._screen = screen
        self._row = 0

    @cached_property
    def look_over(self) -> LookOver:
        """The look-over in its short form."""
        made = LookOver(self._screen, short=True)
        made.kept.connect(self._take_seen)
        return made

    @cached_property
    def packs(self) -> PackTool:
        """The packs, for the share that is recorded."""
        made = PackTool(self._screen, takes_fill=True)
        made.fill_taken.connect(self._take_fill)
        return made

    @Slot()
    def begin_look_over(self) -> None:
        """Begin a short guided look at the tapes of the current row."""
        row = self._tray.row
        line = self._line(row)
        if line is not None:
            self.look_over.begin(LookSubject(self._key(row), _title(line), line.format, line.findings))

    @Slot()
    def begin_packs(self) -> None:
        """Begin reading the packs of a tape of the current row through its window."""
        row = self._tray.row
        line = self._line(row)
        if line is not None:
            tv = read_box(self._draft.box, self._today()).inventory.tv
            self.packs.begin(self._key(row), _title(line), line, tv)

    def _line(self, row: int) -> TapeLine | None:
        rows = self._draft.box.rows
        line = read_row(rows[row], self._draft.box.tv).line if 0 <= row < len(rows) else None
        self._row = row
        if line is None:
            self.row_unclear.emit(row)
        return line

    def _key(self, row: int) -> str:
        """A row that was changed meanwhile is looked at afresh."""
        return f"{row} {self._draft.box.rows[row]}"

    @Slot(object)
    def _take_seen(self, seen: LookResult) -> None:
        line = self._line(self._row)
        assert line is not None
        self._write(replace(line, findings=seen.findings), "look")
        found = ", ".join(spoken(finding) for finding in seen.findings) or say("inspection", "kept_nothing")
        sentence = say("inspection", "taken", row=self._row + 1, found=found)
        self.taken.emit(f"{sentence} {seen.note}".strip())

    @Slot(object)
    def _take_fill(self, found: Recorded) -> None:
        line = self._line(self._row)
        assert line is not None
        known, off = found.fill_known, found.fill_off
        self._write(replace(line, fill=found.fill, fill_known=known, fill_off=off), "packs")
        self.taken.emit(say("packs", "taken", row=self._row + 1, share=recorded_words(found)))

    def _write(self, line: TapeLine, words: str) -> None:
        row = self._row
        self._draft.write_row(
            row, answered(self._draft.box.rows[row], line), say("counter", f"undo_{words}", row=row + 1)
        )


def _title(line: TapeLine) -> str:
    """``3 × VHS T-120 — Christmas``."""
    words = formats.catalogue().format(line.format).words
    name = " ".join(part for part in (words, line.marking) if part)
    counted = f"{line.count} × {name}" if line.count > 1 else name
    return f"{counted} — {line.label}" if line.label else counted
