"""What became of the tape in hand: a few letters, a note, and who the note is for."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from core.model.dispositions import Disposition
from core.model.errors import WrongInput
from core.model.spoken_names import spoken
from core.model.tape_records import TapeRecord
from gui.toolkit.text import say, sentence_case
from gui.widgets.instant_buttons import InstantCheckBox
from gui.widgets.layouts import hinted, labelled, stacked, words
from gui.widgets.tray import Tray, TrayItem


@dataclass(frozen=True, slots=True)
class Settlement:
    """What the form holds; ``tell``: the note is for the customer."""

    disposition: Disposition
    note: str
    tell: bool


class DispositionForm(QWidget):
    """Letters narrow the list; the arrows travel it from the same field; Return settles."""

    wanted = Signal(object)
    """A `Settlement`."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tape: TapeRecord | None = None
        self.field = QLineEdit()
        self.field.setObjectName("disposition")
        hinted(self.field, say("bench", "find_hint"))
        self.list = Tray("disposition-choices", say("bench", "became_what"), always_lit=True)
        self.list.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.note = QLineEdit()
        self.note.setObjectName("disposition-note")
        self.tell = InstantCheckBox(say("bench", "note_tell"))
        self.tell.setObjectName("disposition-tell")
        self._sentence = words("", "small")
        self.save = QPushButton(say("bench", "became_save"))
        self.save.setObjectName("settle")
        self.save.setProperty("role", "main")
        self._lay_out()
        self._connect()

    def begin(self, tape: TapeRecord) -> None:
        """Offer what a tape may be settled as: one is copied only with its minutes on record."""
        self._tape = tape
        self.field.clear()
        self.note.clear()
        self.tell.setChecked(False)
        self._narrow()

    @Slot()
    def _narrow(self) -> None:
        letters = self.field.text().strip().casefold()
        self.list.lay(
            [
                TrayItem(each.value, sentence_case(spoken(each)))
                for each in Disposition
                if self._may_be(each) and letters in f"{spoken(each)} {each.value}".casefold()
            ]
        )
        self.list.stand_on_first()

    def _may_be(self, disposition: Disposition) -> bool:
        tape = self._tape
        if tape is None or tape.disposition is disposition:
            return False
        return not disposition.is_copied or tape.played_minutes is not None or tape.is_counted

    @Slot()
    def _tell_sentence(self) -> None:
        """What to say to the customer, and for whom the note is then."""
        value = self.list.current
        self._sentence.setText(say("dispositions", f"counter-{value}") if value else "")
        self.tell.setVisible(bool(value) and not Disposition(value).needs_incident)

    @Slot()
    def _settle(self) -> None:
        note = self.note.text().strip()
        if not self.list.current:
            self.field.setFocus()
            accepted = say("bench", "became_accepted")
            self.refused.emit(WrongInput(say("bench", "became_what"), self.field.text(), accepted))
            return
        disposition = Disposition(self.list.current)
        if disposition.needs_incident and not note:
            self.note.setFocus()
            accepted = say("incidents", "say-what-happened")
            self.refused.emit(WrongInput(say("bench", "became_note"), note, accepted))
            return
        tell = self.tell.isChecked() and not disposition.needs_incident
        self.wanted.emit(Settlement(disposition, note, tell))

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(labelled(self.field, say("bench", "became_what")))
        column.addWidget(self.list, 1)
        column.addWidget(self._sentence)
        column.addWidget(labelled(self.note, say("bench", "became_note")))
        column.addWidget(self.tell)
        column.addWidget(self.save)

    def _connect(self) -> None:
        self.field.installEventFilter(self)
        self.field.textChanged.connect(self._narrow)
        self.list.moved.connect(self._tell_sentence)
        for line in (self.field, self.note):
            line.returnPressed.connect(self._settle)
        self.save.clicked.connect(self._settle)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        return self.list.steered_by(event)
