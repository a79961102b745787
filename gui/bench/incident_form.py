"""More about a tape lost or damaged: what happened, that its owner was told, how it was settled, photos."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from core.model import regular_files
from core.model.errors import WrongInput
from core.model.incident_records import IncidentKind
from gui.toolkit.text import say
from gui.widgets.layouts import give_key, labelled, stacked, words
from gui.widgets.tray import Tray, TrayItem

_LINES = (IncidentKind.TOLD, IncidentKind.SETTLED, IncidentKind.ADDED, IncidentKind.PHOTO)


@dataclass(frozen=True, slots=True)
class IncidentEntry:
    """One line to be written down; ``words`` of a photo are the name of its file."""

    kind: IncidentKind
    words: str

    @property
    def path(self) -> Path:
        """The file of a photo."""
        return regular_files.expanded(self.words.strip('"'))


class IncidentForm(QWidget):
    """The arrows choose what is said, Return writes it down, another key prints the report."""

    wanted = Signal(object)
    """An `IncidentEntry`."""
    report_wanted = Signal()
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.list = Tray("incident-lines", say("incidents", "what-to-write"), always_lit=True)
        self.list.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.field = QLineEdit()
        self.field.setObjectName("incident-words")
        self._hint = words("", "small")
        self.save = _button("incident-save", say("incidents", "write-down"), self._write)
        self.save.setProperty("role", "main")
        self.report = _button("incident-report", say("incidents", "print-report"), self.report_wanted.emit)
        give_key(self.report, "Alt+W")
        column = stacked(self)
        column.addWidget(words(say("incidents", "title"), "attention"))
        column.addWidget(self.list, 1)
        column.addWidget(labelled(self.field, say("incidents", "in-your-words")))
        for widget in (self._hint, self.save, self.report):
            column.addWidget(widget)
        self.field.installEventFilter(self)
        self.field.returnPressed.connect(self._write)
        self.list.moved.connect(self._tell_hint)

    def begin(self) -> None:
        """Empty; what an owner waits for comes first."""
        self.field.clear()
        self.list.lay([TrayItem(kind.value, say("incidents", f"write-{kind.value}")) for kind in _LINES])
        self.list.stand_on_first()

    @Slot()
    def _tell_hint(self) -> None:
        if self.list.current:
            self._hint.setText(say("incidents", f"hint-{self.list.current}"))

    @Slot()
    def _write(self) -> None:
        said = self.field.text().strip()
        if not said:
            self.field.setFocus()
            place, accepted = say("incidents", "words"), say("entered", "few_words")
            self.refused.emit(WrongInput(place, said, accepted))
            return
        self.wanted.emit(IncidentEntry(IncidentKind(self.list.current), said))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        return self.list.steered_by(event)


def _button(name: str, text: str, then: Callable[[], None]) -> QPushButton:
    button = QPushButton(text)
    button.setObjectName(name)
    button.clicked.connect(then)
    return button
