"""Recording a joint: where, how much was cut away, how it was joined, and what that costs in seconds."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QComboBox, QPushButton, QWidget

from core import cuts
from core.errors import TapewrightError, WrongInput
from core.names import Join
from core.records import TapeRecord
from gui.text import say
from gui.widgets.figures import FigureField
from gui.widgets.layouts import labelled, stacked, words
from gui.widgets.tapecard import seconds


@dataclass(frozen=True, slots=True)
class Joint:
    """What the form holds when it is complete."""

    at_minutes: float
    cut_cm: float
    joined_with: Join


class SpliceForm(QWidget):
    """Three fields and the answer of the geometry, before anything is kept."""

    recorded = Signal(object)
    """A `Joint` to be kept."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tape: TapeRecord | None = None
        self.at = FigureField("splice-at", say("bench", "at_minutes"))
        self.cut = FigureField("splice-cut", say("bench", "cut_cm"))
        self.joined = QComboBox()
        self.joined.setObjectName("splice-joined")
        for join in Join:
            self.joined.addItem(join.words, join)
        self.preview = words("", "time")
        self.preview.setObjectName("splice-preview")
        self._advice = words(say("bench", "adhesive_advice"), "attention")
        self._save = QPushButton(say("bench", "splice_save"))
        self._save.setObjectName("splice-save")
        self._save.setProperty("role", "main")
        self._lay_out()
        self._connect()

    def begin(self, tape: TapeRecord) -> None:
        """Empty the form for a tape."""
        self._tape = tape
        self.at.clear()
        self.cut.clear()
        self.joined.setCurrentIndex(0)
        self._preview()

    @Slot()
    def record(self) -> None:
        """Hand over what the form holds, or say what is missing."""
        try:
            joint = Joint(self.at.figure_needed(), self.cut.figure_needed(), self.joined.currentData())
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        self.recorded.emit(joint)

    @Slot()
    def _preview(self) -> None:
        self._advice.setVisible(self.joined.currentData() is Join.ADHESIVE)
        self.preview.setText(self._foretold())

    def _foretold(self) -> str:
        if self._tape is None or not self.cut.text().strip():
            return say("bench", "preview_wait")
        try:
            lost = lost_by_cut(self._tape, float(self.cut.text().strip().replace(",", ".")))
        except (TapewrightError, ValueError):
            return say("bench", "preview_wait")
        removed, disturbed = seconds(lost.seconds_removed), seconds(lost.seconds_disturbed)
        return say("bench", "preview", removed=removed, disturbed=disturbed)

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(labelled(self.at, say("bench", "at_minutes")))
        column.addWidget(labelled(self.cut, say("bench", "cut_cm")))
        column.addWidget(labelled(self.joined, say("bench", "joined_with")))
        column.addWidget(self._advice)
        column.addWidget(self.preview)
        column.addWidget(self._save)
        column.addStretch(1)

    def _connect(self) -> None:
        self.cut.textChanged.connect(self._preview)
        self.joined.currentIndexChanged.connect(self._preview)
        self.at.returnPressed.connect(self.cut.setFocus)
        self.cut.returnPressed.connect(self.record)
        self._save.clicked.connect(self.record)


def lost_by_cut(tape: TapeRecord, cm: float) -> cuts.Cut:
    """Seconds that go with ``cm`` of this tape, at the speed it was recorded as far as that is known."""
    draft = tape.draft
    return cuts.cut(draft.recorded_as or draft.format, draft.speed, draft.tv, cm)
