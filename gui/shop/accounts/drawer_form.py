"""The cash drawer: what should be in it, what was counted, and two keys that keep the count."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from core.model.accounts.drawer_records import DrawerNow
from core.model.errors import WrongInput
from core.services.accounts import account_words
from gui.toolkit import theme
from gui.toolkit.text import money, say
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.figure_field import MoneyField
from gui.widgets.layouts import labelled, stacked, words


class DrawerForm(QWidget):
    """Counted, taken out, a note; the difference is told while it is typed."""

    float_counted = Signal(int, str)
    """Minor units, and the note."""
    day_closed = Signal(int, int, str)
    """Minor units counted and taken out, and the note."""
    refused = Signal(object)
    """A `WrongInput`, with the keyboard in the field it is about."""

    def __init__(self) -> None:
        super().__init__()
        self._now: DrawerNow | None = None
        self.expected = words("", "lead")
        self.expected.setObjectName("drawer-expected")
        self.counted = MoneyField("drawer-counted")
        self.taken_out = MoneyField("drawer-taken-out")
        self.note = QLineEdit()
        self.note.setObjectName("drawer-note")
        self.difference = words("")
        self.difference.setObjectName("drawer-difference")
        self.float = key_button("drawer-float", "F6", say("accounts", "count-float"))
        self.close_day = key_button("drawer-close", "F8", say("accounts", "close-day"), "action")
        self._lay_out()
        self.counted.textChanged.connect(self._tell_difference)
        self.float.clicked.connect(self._count)
        self.close_day.clicked.connect(self._close)

    def show_now(self, found: DrawerNow, currency: str) -> None:
        """What should be in the drawer; the fields are empty again."""
        self._now = found
        self.counted.currency = self.taken_out.currency = currency
        if found.last is None:
            self.expected.setText(say("accounts", "never-counted"))
        else:
            self.expected.setText(account_words.now(found, currency))
        for field in (self.counted, self.taken_out, self.note):
            field.clear()
        self._tell_difference()

    @Slot()
    def _tell_difference(self) -> None:
        """Nothing while there is nothing to compare, or what is typed is no amount yet."""
        minor = self.counted.minor_or_none()
        if minor is None or self._now is None or self._now.last is None:
            self.difference.setText("")
            return
        difference = minor - self._now.expected_minor
        short = "yes" if difference < 0 else "no"
        amount = money(abs(difference), self.counted.currency)
        self.difference.setText(
            say("accounts", "difference", difference=difference, amount=amount, is_short=short)
        )

    @Slot()
    def _count(self) -> None:
        minor = self._typed(self.counted)
        if minor is not None:
            self.float_counted.emit(minor, self.note.text().strip())

    @Slot()
    def _close(self) -> None:
        minor = self._typed(self.counted)
        out = None if minor is None else self._typed(self.taken_out, empty=0)
        if minor is not None and out is not None:
            self.day_closed.emit(minor, out, self.note.text().strip())

    def _typed(self, field: MoneyField, empty: int | None = None) -> int | None:
        """Minor units; None after `refused`."""
        try:
            if not field.text().strip() and empty is None:
                field.setFocus()
                raise WrongInput(field.accessibleName(), "", field.accepted)
            return field.minor()
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return None

    def _lay_out(self) -> None:
        column, row = stacked(self, theme.UNIT), QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self.counted, say("accounts", "field-counted")), 1)
        row.addWidget(labelled(self.taken_out, say("accounts", "field-taken-out")), 1)
        row.addWidget(labelled(self.note, say("accounts", "field-note")), 2)
        column.addWidget(self.expected)
        column.addLayout(row)
        column.addWidget(self.difference)
        column.addWidget(ButtonRow([self.float, self.close_day]))
