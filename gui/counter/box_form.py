"""The fields beside the tray: who brings the box, and what is wished for all of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from PySide6.QtCore import QSize, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QLayout, QLineEdit, QSizePolicy, QWidget

from core.model.typed_draft import TypedBox
from gui.counter import accepted_words
from gui.counter.typed_box import ParsedBox
from gui.tables.choices import CellChoice
from gui.tables.type_ahead import TypeAhead
from gui.toolkit import theme
from gui.toolkit.plain_text import tip
from gui.toolkit.text import say
from gui.widgets import wishes
from gui.widgets.instant_buttons import InstantCheckBox
from gui.widgets.layouts import hinted, labelled

_OBJECT_NAMES = {"name": "customer-name", "phone": "customer-phone"}
_LEAST = {"name": 120, "phone": 140, "tv": 92, "copies": 120, "needed_by": 112, "tax_exempt": 120}
_TICKS = ("rush", "cold", "tax_exempt")
_TICK_PLACES = ((1, 0, 1, 1), (2, 0, 1, 2), (1, 1, 1, 1))
"""Rows and columns, with those they span."""
_PLAIN = ("name", "phone", "tax_exempt")
"""Fields whose text is taken over at every key."""
_FOLD_BELOW = 680
_Place = tuple[int, int, int, int]
"""Row, column, columns spanned, share of what is left over."""
_ON_ONE_LINE: tuple[_Place, ...] = (
    (0, 0, 1, 5),
    (0, 1, 1, 3),
    (0, 2, 1, 0),
    (0, 3, 1, 5),
    (0, 4, 1, 0),
    (1, 0, 6, 0),
    (0, 5, 1, 0),
)
_ON_TWO_LINES: tuple[_Place, ...] = (
    (0, 0, 2, 0),
    (0, 2, 2, 0),
    (1, 0, 1, 0),
    (1, 1, 1, 1),
    (1, 2, 1, 1),
    (2, 0, 4, 0),
    (1, 3, 1, 0),
)
_PLACEHOLDERS = {
    "tv": "unknown",
    "copies": "hint_copies",
    "needed_by": "hint_needed_by",
    "tax_exempt": "hint_tax_exempt",
}
_WORDS = {"tax_exempt": "tax_exempt_why"}


class BoxForm(QWidget):
    """One line of fields. Every key that can be read is told at once."""

    written = Signal(str, object)
    """Field of the box and its new value."""
    half_typed = Signal()
    """A key in a field whose text is taken over later, when it is left."""
    went_on = Signal()
    """Return in the last field."""

    def __init__(self, today: Callable[[], date], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._today = today
        self._shown = TypedBox()
        self.fields: dict[str, QLineEdit] = {
            "name": QLineEdit(),
            "phone": QLineEdit(),
            "tv": TypeAhead(_tv_offered),
            "copies": TypeAhead(wishes.copies_offered, many=True),
            "needed_by": TypeAhead(self._days_offered),
            "tax_exempt": QLineEdit(),
        }
        self.rush, self.cold, self.exempt = (InstantCheckBox(say("counter", name)) for name in _TICKS)
        self._build()
        self._connect()

    def show_box(self, box: TypedBox, reading: ParsedBox) -> None:
        """Show the fields of a box; a field that is being typed in keeps its text."""
        self._shown = box
        for name, field in self.fields.items():
            value = getattr(box, name) or ""
            if field.text() != value and not (field.hasFocus() and isinstance(field, TypeAhead)):
                field.setText(value)
                field.setCursorPosition(0 if not field.hasFocus() else len(value))
            complaint = "" if field.hasFocus() else reading.complaint(name)
            _mark_wrong(field, complaint)
        is_exempt = box.tax_exempt is not None
        for tick, is_so in ((self.rush, box.rush), (self.cold, box.cold), (self.exempt, is_exempt)):
            if tick.isChecked() != is_so:
                tick.setChecked(is_so)
        self._reason.setVisible(is_exempt)

    def with_half_typed(self, box: TypedBox) -> TypedBox:
        """The box with what is being typed in a field here and is not taken over yet."""
        typed: dict[str, Any] = {
            name: field.text()
            for name, field in self.fields.items()
            if field.hasFocus() and field.isModified()
        }
        return replace(box, **typed)

    def settle(self) -> None:
        """Take over what is being typed, as if the person had gone on."""
        for field in self.fields.values():
            if isinstance(field, TypeAhead) and field.hasFocus():
                field.settled.emit(field.settle())

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(theme.UNIT)
        self._cells: list[QWidget] = []
        for name, field in self.fields.items():
            field.setObjectName(_OBJECT_NAMES.get(name, f"box-{name.replace('_', '-')}"))
            hinted(field, say("counter", _PLACEHOLDERS[name]) if name in _PLACEHOLDERS else "")
            field.setMinimumWidth(theme.scaled(_LEAST[name]))
            field.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
            self._cells.append(labelled(field, say("counter", _WORDS.get(name, name))))
        self._reason = self._cells[-1]
        self._reason.hide()
        self._cells.append(self._ticks())
        self._places: tuple[_Place, ...] = ()
        self._lay_out(_ON_ONE_LINE)

    def _lay_out(self, places: tuple[_Place, ...]) -> None:
        """All fields on one line, or on two where the room is narrow."""
        if places == self._places:
            return
        self._places = places
        for column in range(12):
            self._grid.setColumnStretch(column, 0)
        for cell in self._cells:
            self._grid.removeWidget(cell)
        for cell, (row, column, span, stretch) in zip(self._cells, places, strict=True):
            self._grid.addWidget(cell, row, column, 1, span)
            if stretch:
                self._grid.setColumnStretch(column, stretch)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out(_ON_ONE_LINE if event.size().width() >= self._needed() else _ON_TWO_LINES)

    def _needed(self) -> int:
        """What one line of fields takes with the ticks beside them, whatever the language."""
        fields = [theme.scaled(_LEAST[name]) + theme.UNIT for name in _LEAST if name != "tax_exempt"]
        return max(theme.scaled(_FOLD_BELOW), sum(fields) + self._cells[-1].sizeHint().width())

    def minimumSizeHint(self) -> QSize:
        return QSize(0, super().minimumSizeHint().height())

    def _ticks(self) -> QWidget:
        """What is true of the whole box or not, on two rows beside the fields."""
        all_three = QWidget()
        all_three.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)
        grid = QGridLayout(all_three)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(0)
        grid.setHorizontalSpacing(theme.UNIT)
        grid.setRowStretch(0, 1)
        grid.setSizeConstraint(QLayout.SizeConstraint.SetMinimumSize)
        ticks = zip((self.rush, self.cold, self.exempt), _TICKS, _TICK_PLACES, strict=True)
        for tick, name, place in ticks:
            tick.setObjectName(f"box-{name.removeprefix('tax_')}")
            tick.setAccessibleName(say("counter", name).replace("&", ""))
            grid.addWidget(tick, *place)
        return all_three

    def _connect(self) -> None:
        for name in _PLAIN:
            self.fields[name].textEdited.connect(self._plain_typed)
        for name in ("tv", "copies", "needed_by"):
            field = self.fields[name]
            assert isinstance(field, TypeAhead)
            field.settled.connect(self._settled)
            field.textEdited.connect(self.half_typed)
        self.rush.toggled.connect(self._rush_toggled)
        self.cold.toggled.connect(self._cold_toggled)
        self.exempt.toggled.connect(self._exempt_toggled)

    # --- keys ----------------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes on to the next field; after the last, and from a tick, to the tray."""
        if event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter) or event.modifiers():
            super().keyPressEvent(event)
        elif self.rush.hasFocus() or self.cold.hasFocus() or self.exempt.hasFocus():
            self.went_on.emit()
        else:
            self.focusNextPrevChild(True)

    @Slot(str)
    def _plain_typed(self, _: str) -> None:
        for name in _PLAIN:
            if self.fields[name].text() != (getattr(self._shown, name) or ""):
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

    @Slot(bool)
    def _cold_toggled(self, cold: bool) -> None:
        if cold != self._shown.cold:
            self.written.emit("cold", cold)

    @Slot(bool)
    def _exempt_toggled(self, exempt: bool) -> None:
        if exempt != (self._shown.tax_exempt is not None):
            self.written.emit("tax_exempt", "" if exempt else None)
            if exempt:
                self.fields["tax_exempt"].setFocus(Qt.FocusReason.OtherFocusReason)

    def _days_offered(self) -> Sequence[CellChoice]:
        return wishes.days_offered(self._today())


def _tv_offered() -> Sequence[CellChoice]:
    return accepted_words.tv_offered()


def _mark_wrong(field: QLineEdit, complaint: str) -> None:
    theme.set_style_property(field, "wrong", bool(complaint))
    field.setToolTip(tip(complaint or field.placeholderText()))
