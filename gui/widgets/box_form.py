"""The fields beside the tray: who brings the box, and what is wished for all of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QSizePolicy, QVBoxLayout, QWidget

from gui import accepted, theme, wishes
from gui.box import Box, Reading
from gui.tables.choices import Choice
from gui.tables.typeahead import TypeAhead
from gui.text import say
from gui.widgets.layouts import labelled

_PLACEHOLDERS = {"tv": "unknown", "copies": "files on a stick", "needed_by": "no hurry"}


class BoxForm(QWidget):
    """One line of fields. Every key that can be read is told at once."""

    written = Signal(str, object)
    """Field of the box and its new value."""
    went_on = Signal()
    """Return in the last field."""

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = today
        self._shown = Box()
        self.fields: dict[str, QLineEdit] = {
            "name": QLineEdit(),
            "phone": QLineEdit(),
            "tv": TypeAhead(_tv_offered),
            "copies": TypeAhead(wishes.copies_offered, many=True),
            "needed_by": TypeAhead(self._days_offered),
        }
        self.rush = QCheckBox(say("counter", "rush"))
        self._build()
        self._connect()

    def show_box(self, box: Box, reading: Reading) -> None:
        """Show the fields of a box; a field that is being typed in keeps its text."""
        self._shown = box
        for name, field in self.fields.items():
            value = getattr(box, name)
            if field.text() != value and not (field.hasFocus() and isinstance(field, TypeAhead)):
                field.setText(value)
            complaint = "" if field.hasFocus() else reading.complaint(name)
            _mark_wrong(field, complaint)
        if self.rush.isChecked() != box.rush:
            self.rush.setChecked(box.rush)

    def settle(self) -> None:
        """Take over what is being typed, as if the person had gone on."""
        for field in self.fields.values():
            if isinstance(field, TypeAhead) and field.hasFocus():
                field.settled.emit(field.settle())

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(theme.UNIT)
        names = {"name": "customer-name", "phone": "customer-phone"}
        for (name, field), (least, stretch) in zip(
            self.fields.items(), ((120, 5), (96, 3), (92, 0), (120, 5), (112, 0)), strict=True
        ):
            field.setObjectName(names.get(name, f"box-{name.replace('_', '-')}"))
            field.setPlaceholderText(_PLACEHOLDERS.get(name, ""))
            field.setMinimumWidth(least)
            if not stretch:
                field.setMaximumWidth(least)
            row.addWidget(labelled(field, say("counter", name)), stretch)
        row.addWidget(self._rush_under_nothing())

    def _rush_under_nothing(self) -> QWidget:
        self.rush.setObjectName("box-rush")
        self.rush.setAccessibleName("Rush")
        both = QWidget()
        both.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)
        column = QVBoxLayout(both)
        column.setContentsMargins(0, 0, 0, 4)
        column.addStretch(1)
        column.addWidget(self.rush)
        return both

    def _connect(self) -> None:
        for name in ("name", "phone"):
            self.fields[name].textEdited.connect(self._plain_typed)
        for name in ("tv", "copies", "needed_by"):
            field = self.fields[name]
            assert isinstance(field, TypeAhead)
            field.settled.connect(self._settled)
        self.rush.toggled.connect(self._rush_toggled)

    # --- keys ----------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes on to the next field; after the last, to the tray."""
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter) or event.modifiers():
            super().keyPressEvent(event)
        elif self.rush.hasFocus():
            self.went_on.emit()
        else:
            self.focusNextPrevChild(True)

    @Slot(str)
    def _plain_typed(self, _: str) -> None:
        for name in ("name", "phone"):
            if self.fields[name].text() != getattr(self._shown, name):
                self.written.emit(name, self.fields[name].text())

    @Slot(str)
    def _settled(self, _: str) -> None:
        for name in ("tv", "copies", "needed_by"):
            text = self.fields[name].text().strip()
            if text != getattr(self._shown, name):
                self.written.emit(name, text)

    @Slot(bool)
    def _rush_toggled(self, rush: bool) -> None:
        if rush != self._shown.rush:
            self.written.emit("rush", rush)

    def _days_offered(self) -> Sequence[Choice]:
        return wishes.days_offered(self._today())


def _tv_offered() -> Sequence[Choice]:
    return accepted.TV_OFFERED


def _mark_wrong(field: QLineEdit, complaint: str) -> None:
    if bool(field.property("wrong")) != bool(complaint):
        field.setProperty("wrong", bool(complaint))
        field.style().unpolish(field)
        field.style().polish(field)
    field.setToolTip(complaint)
