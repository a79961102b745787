"""Taking back what was entered by mistake, or is over: it stays in the history, with the reason."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from core.errors import WrongInput
from core.names import Finding
from core.records import TapeRecord
from gui.text import say
from gui.widgets.layouts import labelled, stacked
from gui.widgets.tray import Piece, Tray

_SPLICE = "splice"


@dataclass(frozen=True, slots=True)
class Back:
    """What is taken back and why; without a finding it is the last splice."""

    finding: Finding | None
    because: str


class TakeBack(QWidget):
    """The findings of a tape and its last splice; the arrows choose, the reason is typed."""

    wanted = Signal(object)
    """A `Back`."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.list = Tray("take-back-choices", say("bench", "take_back"), always_lit=True)
        self.list.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.reason = QLineEdit()
        self.reason.setObjectName("take-back-reason")
        self.reason.installEventFilter(self)
        self.reason.returnPressed.connect(self._take)
        button = QPushButton(say("bench", "take_back_save"))
        button.setProperty("role", "main")
        button.clicked.connect(self._take)
        column = stacked(self)
        column.addWidget(self.list, 1)
        column.addWidget(labelled(self.reason, say("bench", "take_back_why")))
        column.addWidget(button)

    def begin(self, tape: TapeRecord) -> None:
        """Offer what can be taken back on this tape."""
        self.reason.clear()
        choices = [
            Piece(finding.value, say("bench", "no_longer", finding=finding.words))
            for finding in tape.findings
        ]
        if tape.splices:
            at = f"{tape.splices[-1].at_minutes:g}"
            choices.append(Piece(_SPLICE, say("bench", "strike_splice", at=at)))
        self.list.lay(choices)
        self.list.stand_on_first()

    @Slot()
    def _take(self) -> None:
        because = self.reason.text().strip()
        if not self.list.current:
            return
        if not because:
            self.reason.setFocus()
            self.refused.emit(WrongInput(say("bench", "take_back_why"), because, say("bench", "few_words")))
            return
        finding = None if self.list.current == _SPLICE else Finding(self.list.current)
        self.wanted.emit(Back(finding, because))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        return self.list.steered_by(event)
