"""What was done to a tape besides splicing it: which repair, whose part, did it hold."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QComboBox, QLineEdit, QPushButton, QWidget

from core.catalogue import condition, next_steps
from core.model.errors import WrongInput
from core.model.names import DonorPart
from core.model.spoken_names import spoken
from core.model.tape_records import TapeRecord
from core.services import repair_attempts
from gui.toolkit.text import minutes_range, say, sentence_case
from gui.widgets.layouts import give_key, hinted, labelled, stacked, words
from gui.widgets.tray import Tray, TrayItem


@dataclass(frozen=True, slots=True)
class RepairFormResult:
    """What the form holds: a code of `core.catalogue.findings.repair_codes`, and whether it held."""

    repair: str
    succeeded: bool
    part: DonorPart | None = None
    from_elsewhere: str | None = None
    """Where the part came from that was not on the shelf; None when it was."""
    note: str = ""


class RepairForm(QWidget):
    """Letters narrow the repairs; Return says that it held, another key that it failed."""

    recorded = Signal(object)
    """A `RepairFormResult` to be kept."""
    shelf_wanted = Signal()
    """Donor parts are to be put on the shelf."""
    refused = Signal(object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tape: TapeRecord | None = None
        self._left: Mapping[DonorPart, int] = {}
        self.field = QLineEdit()
        self.field.setObjectName("repair")
        hinted(self.field, say("repair", "what_hint"))
        self.field.installEventFilter(self)
        self.list = Tray("repair-choices", say("repair", "what"), always_lit=True)
        self.list.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.part = QComboBox()
        self.part.setObjectName("donor-part")
        self.where = QLineEdit()
        self.where.setObjectName("part-came-from")
        self.note = QLineEdit()
        self.note.setObjectName("repair-note")
        self._in_full = words("", "small")
        self._hint = words(say("repair", "splice_hint"), "small")
        self.held = _button("repair-held", say("repair", "held"), "main", "")
        self.failed = _button("repair-failed", say("repair", "failed"), "", "Alt+F")
        self.shelf = _button("donor-shelf", say("repair", "shelf_button"), "quiet", "")
        self._lay_out()
        self._connect()

    def begin(self, tape: TapeRecord) -> None:
        """Offer the repairs of a tape, those it needs first."""
        self._tape = tape
        self.field.clear()
        self.note.clear()
        self.where.clear()
        self._narrow()

    def know_shelf(self, left: Mapping[DonorPart, int]) -> None:
        """How many parts of each kind there are for cassettes of this format."""
        self._left = left
        self._offer_parts()

    @Slot()
    def _narrow(self) -> None:
        if self._tape is None:
            return
        letters, needed = self.field.text().strip().casefold(), self._needed()
        name = self._tape.format
        order = sorted(condition.repairs_offered(), key=lambda code: code not in needed)
        choices = [condition.repair(code, name) for code in order]
        self.list.lay(
            [
                TrayItem(
                    each.code,
                    each.words[:1].upper() + each.words[1:],
                    say("repair", "minutes", minutes=minutes_range(each.minutes)),
                )
                for each in choices
                if letters in f"{each.words} {each.code}".casefold()
            ]
        )
        self.list.stand_on_first()

    def _needed(self) -> frozenset[str]:
        tape = self._tape
        left = next_steps.still_to_do(tape) if tape is not None else ()
        return frozenset(each.code for each in left)

    @Slot()
    def _offer_parts(self) -> None:
        """The parts that the repair under the keyboard can take."""
        parts = repair_attempts.FITTED.get(self.list.current, ())
        self.part.clear()
        self.part.addItem(say("repair", "no_part"), None)
        for part in parts:
            name, count = sentence_case(spoken(part)), self._left.get(part, 0)
            if count:
                self.part.addItem(say("repair", "on_shelf", part=name, count=count), (part, False))
            self.part.addItem(say("repair", "elsewhere", part=name), (part, True))
        self._in_full.setText(self._words_of(self.list.current))
        for row in (self._part_row, self.shelf):
            row.setVisible(bool(parts))
        self._hint.setVisible(self.list.current == "splice")
        self.held.setEnabled(self.list.current != "splice")

    def _words_of(self, code: str) -> str:
        """The repair under the keyboard in full, where a row is too narrow for it."""
        return condition.repair(code, self._tape.format).words if code and self._tape is not None else ""

    @Slot()
    def _ask_where(self) -> None:
        chosen = self.part.currentData()
        self._where_row.setVisible(chosen is not None and chosen[1])

    @Slot()
    def _held(self) -> None:
        if self.held.isEnabled():
            self._record(succeeded=True)

    @Slot()
    def _failed(self) -> None:
        self._record(succeeded=False)

    def _record(self, *, succeeded: bool) -> None:
        if not self.list.current:
            place, accepted = say("repair", "what"), say("repair", "accepted")
            self.field.setFocus()
            self.refused.emit(WrongInput(place, self.field.text(), accepted))
            return
        part, is_elsewhere = self.part.currentData() or (None, False)
        where = self.where.text().strip() if is_elsewhere else None
        note = self.note.text().strip()
        self.recorded.emit(RepairFormResult(self.list.current, succeeded, part, where, note))

    def _lay_out(self) -> None:
        column = stacked(self)
        column.addWidget(labelled(self.field, say("repair", "what")))
        column.addWidget(self.list, 1)
        column.addWidget(self._in_full)
        self._part_row = labelled(self.part, say("repair", "part"))
        self._where_row = labelled(self.where, say("repair", "where"))
        for widget in (self._part_row, self._where_row, labelled(self.note, say("repair", "note"))):
            column.addWidget(widget)
        for widget in (self._hint, self.held, self.failed, self.shelf):
            column.addWidget(widget)
        self._where_row.hide()

    def _connect(self) -> None:
        self.field.textChanged.connect(self._narrow)
        self.list.moved.connect(self._offer_parts)
        self.part.currentIndexChanged.connect(self._ask_where)
        for line in (self.field, self.where, self.note):
            line.returnPressed.connect(self._held)
        self.held.clicked.connect(self._held)
        self.failed.clicked.connect(self._failed)
        self.shelf.clicked.connect(self.shelf_wanted)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        return self.list.steered_by(event)


def _button(name: str, text: str, role: str, keys: str) -> QPushButton:
    button = QPushButton(text)
    button.setObjectName(name)
    button.setProperty("role", role)
    if keys:
        give_key(button, keys)
    return button
