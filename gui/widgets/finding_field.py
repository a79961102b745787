"""What is wrong with a tape: a few letters, and the list says how each is seen."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QLineEdit, QWidget

from core.catalogue import condition
from core.model.names import AnyFinding, FormatName, finding_of
from gui.toolkit.text import say, sentence_case
from gui.widgets.layouts import hinted, labelled, stacked, words
from gui.widgets.tray import Tray, TrayItem


class FindingChooser(QWidget):
    """Letters narrow the list; the arrows travel it from the same field; Return adds."""

    chosen = Signal(object)
    """An `AnyFinding`."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._offered: frozenset[AnyFinding] = frozenset()
        self.field = QLineEdit()
        self.field.setObjectName("finding")
        hinted(self.field, say("bench", "find_hint"))
        self.field.installEventFilter(self)
        self.field.textChanged.connect(self._narrow)
        self.field.returnPressed.connect(self._add)
        self.list = Tray("finding-choices", say("bench", "find"), always_lit=True)
        self.list.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.list.taken.connect(self._take)
        column = stacked(self)
        column.addWidget(labelled(self.field, say("bench", "find")))
        column.addWidget(self.list, 1)
        self._seen = words("", "small")
        self.list.moved.connect(self._tell_seen)
        column.addWidget(self._seen)

    def begin(self, known: frozenset[AnyFinding], format: FormatName) -> None:
        """Offer what may be found on a thing of this format and has not been yet."""
        self._offered = condition.possible(format) - known
        self.field.clear()
        self._narrow()

    @Slot()
    def _narrow(self) -> None:
        letters = self.field.text().strip().casefold()
        self.list.lay(
            [
                TrayItem(finding.value, sentence_case(short), seen)
                for finding, short, seen in condition.choices()
                if finding in self._offered and letters in f"{short} {finding.value} {seen}".casefold()
            ]
        )
        self.list.stand_on_first()

    @Slot(str)
    def _tell_seen(self, value: str) -> None:
        """How the finding under the keyboard is seen, in full."""
        self._seen.setText(condition.how_seen(finding_of(value)) if value else "")

    @Slot()
    def _add(self) -> None:
        self._take(self.list.current)

    @Slot(str)
    def _take(self, value: str) -> None:
        if value:
            self.chosen.emit(finding_of(value))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        return self.list.steered_by(event)
