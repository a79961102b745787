"""The check of the files of the tape in hand: what was found, what may stay so and why, who signs it off."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from core.capture.check_records import FileFinding, Severity, TapeCheck, unmet
from core.model.errors import WrongInput
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import hinted, labelled, stacked, words
from gui.widgets.tray import Tray, TrayItem


@dataclass(frozen=True, slots=True)
class SignOffEntry:
    """Who signs off, and by its code every finding that may stay as it is, with why."""

    name: str
    accept: dict[str, str]


class FileCheckPanel(QWidget):
    """The arrows choose a finding from any field, Return accepts it; Return on the name signs off."""

    wanted = Signal(object)
    """A `SignOffEntry`."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._found: TapeCheck | None = None
        self._notes: dict[str, str] = {}
        self.head = words("", "lead")
        self.list = Tray("file-findings", say("checking", "findings"), always_lit=True, checks=True)
        self.list.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.sentence = words("", "")
        self.to_do = words("", "small")
        self.why = QLineEdit()
        self.why.setObjectName("finding-why")
        hinted(self.why, say("checking", "why_hint"))
        self.name = QLineEdit()
        self.name.setObjectName("signed-off-by")
        self.save = QPushButton(say("checking", "sign"))
        self.save.setObjectName("sign-off")
        self.save.setProperty("role", "main")
        self._lay_out()
        self._connect()

    def begin(self, found: TapeCheck, name: str) -> None:
        """Show what was found, what is open first; ``name`` is whoever is signed in."""
        self._found, self._notes = found, {}
        if found.signed is not None:
            self._notes = {each.code: each.note for each in found.signed.accepted}
        self.name.setText(name)
        self._lay()
        self.list.stand_on_first()
        self._tell_finding()
        self.focus_next()

    def focus_next(self) -> None:
        """The next finding that is open, else the name of whoever signs."""
        left = self._left()
        if left:
            self.list.stand_on(left[0].code)
            self.why.setFocus()
        else:
            self.name.setFocus()
            self.name.selectAll()

    def _left(self) -> tuple[FileFinding, ...]:
        return unmet(self._found.findings, self._notes) if self._found else ()

    def _current(self) -> FileFinding | None:
        found = self._found.findings if self._found else ()
        return next((each for each in found if each.code == self.list.current), None)

    def _lay(self) -> None:
        if self._found is None:
            return
        open_first = sorted(self._found.findings, key=lambda each: list(Severity).index(each.severity))
        self.list.lay([self._item(each) for each in open_first])
        count = len(self._left())
        self.head.setText(say("checking", "head", n=count, files=len(self._found.files)))

    def _item(self, each: FileFinding) -> TrayItem:
        accepted = each.code in self._notes
        return TrayItem(
            each.code,
            each.words,
            small=self._notes.get(each.code) or ("" if accepted else each.to_do),
            place=say("file_check", f"severity-{each.severity.value}"),
            checked=None if each.is_fine else accepted,
        )

    @Slot()
    def _tell_finding(self) -> None:
        """The finding in hand in full: a row of the list is shortened."""
        each = self._current()
        self.sentence.setText(each.words if each else "")
        self.to_do.setText(each.to_do if each else "")
        self.why.setText(self._notes.get(each.code, "") if each else "")
        self.why.setEnabled(each is not None and not each.is_fine)

    @Slot()
    def _accept(self) -> None:
        each, why = self._current(), self.why.text().strip()
        if each is None or each.is_fine:
            self.focus_next()
            return
        if each.severity is Severity.STOP and not why:
            self.refused.emit(WrongInput(say("file_check", "why"), why, say("entered", "few_words")))
            return
        self._notes[each.code] = why
        self._lay()
        self._tell_finding()
        self.focus_next()

    @Slot(str)
    def _turn(self, code: str) -> None:
        """A click on the sign of a finding: accepted, or not any more."""
        self.list.stand_on(code)
        if code in self._notes:
            del self._notes[code]
            self._lay()
            self._tell_finding()
        else:
            self._accept()

    @Slot()
    def _sign(self) -> None:
        name = self.name.text().strip()
        if not name:
            self.name.setFocus()
            wrong = WrongInput(say("file_check", "by"), name, say("file_check", "a-name"))
            self.refused.emit(wrong)
        elif self._left():
            first = self._left()[0]
            self.focus_next()
            self.refused.emit(WrongInput(first.words, self.why.text(), say("checking", "accept_first")))
        else:
            self.wanted.emit(SignOffEntry(name, dict(self._notes)))

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(self.head)
        column.addWidget(self.list, 1)
        column.addWidget(self.sentence)
        column.addWidget(self.to_do)
        column.addWidget(labelled(self.why, say("checking", "why")))
        column.addWidget(labelled(self.name, say("checking", "by")))
        column.addWidget(self.save)
        self.list.setMinimumHeight(18 * theme.UNIT)

    def _connect(self) -> None:
        self.list.moved.connect(self._tell_finding)
        self.list.ticked.connect(self._turn)
        self.why.returnPressed.connect(self._accept)
        self.name.returnPressed.connect(self._sign)
        self.save.clicked.connect(self._sign)
        for field in (self.why, self.name):
            field.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        return self.list.steered_by(event)
