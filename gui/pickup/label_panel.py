"""The not-for-reuse label of a tape about to go: missing and to be put on, or stray and to come off."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from core.model.tape_records import TapeRecord
from core.services import repair_record
from gui.toolkit.text import say
from gui.toolkit.workers import Work
from gui.widgets import tray_rows
from gui.widgets.layouts import give_key, stacked, words


class LabelPanel(QWidget):
    """Asks about the label of one tape; the button records that it is on, or off."""

    recorded = Signal(str)
    """What was recorded, as a sentence."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, work: Work) -> None:
        super().__init__()
        self._work = work
        self._tape: TapeRecord | None = None
        self._question = words("", "attention")
        self._question.setObjectName("label-question")
        self.button = QPushButton(say("pickup", "label_button"))
        self.button.setObjectName("label-is-on")
        give_key(self.button, "F8")
        column = stacked(self, 4)
        column.addWidget(self._question)
        column.addWidget(self.button)
        self.button.clicked.connect(self._record)

    def show_tape(self, tape: TapeRecord | None) -> None:
        """Ask about this tape; hide for None."""
        self._tape = tape
        self.setVisible(tape is not None)
        if tape is not None:
            title, code = tray_rows.tape_title(tape), tray_rows.spaced(tape.code)
            key = "label_astray" if tape.label_astray else "label_missing"
            self._question.setText(say("pickup", key, title=title, code=code))
            room, key = ("repair", "label_off") if tape.label_astray else ("pickup", "label_button")
            self.button.setText(say(room, key))

    @Slot()
    def _record(self) -> None:
        tape = self._tape
        if tape is not None:
            step = repair_record.take_label_off if tape.label_astray else repair_record.mark
            then = self._tell_off if tape.label_astray else self._tell_on
            self._work.run(step, tape.code, then=then, otherwise=self.failed.emit)

    def _tell_on(self, tape: TapeRecord) -> None:
        self.recorded.emit(say("pickup", "labelled", title=tray_rows.tape_title(tape)))

    def _tell_off(self, tape: TapeRecord) -> None:
        self.recorded.emit(say("repair", "label_off_said", title=tray_rows.tape_title(tape)))
