"""Under the slip: the deposit and the one key that books, then the papers to hand over."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation

from babel.numbers import get_currency_precision
from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QStackedWidget, QWidget

from core.model.errors import WrongInput
from core.model.quote_records import Price
from gui.toolkit import text, theme
from gui.toolkit.text import say
from gui.widgets.instant_buttons import Button
from gui.widgets.layouts import labelled, stacked, words


class Taking(QStackedWidget):
    """Deposit and Book; after booking, slip, labels and the next box."""

    deposit_typed = Signal(str)
    book_wanted = Signal()
    slip_wanted = Signal()
    labels_wanted = Signal()
    next_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._price: Price | None = None
        self.deposit = QLineEdit()
        self.deposit.setObjectName("deposit")
        self.deposit.textEdited.connect(self.deposit_typed)
        self.deposit.setProperty("role", "tall")
        self.book = _button(say("counter", "book"), "book", main=True)
        self.book.clicked.connect(self.book_wanted)
        self.slip = _button(say("counter", "show_slip"), "show-claim-slip")
        self.slip.clicked.connect(self.slip_wanted)
        self.labels = _button(say("counter", "show_labels"), "show-labels")
        self.labels.clicked.connect(self.labels_wanted)
        self.next = _button(say("counter", "next_box"), "next-box", main=True)
        self.next.clicked.connect(self.next_wanted)
        self.addWidget(self._before())
        self.addWidget(self._after())

    def show_price(self, price: Price | None, typed: str | None = None) -> None:
        """Before booking: the deposit follows the quote until somebody has typed another."""
        self._price = price
        self.setCurrentIndex(0)
        self.book.setEnabled(price is not None)
        asked = "" if price is None else _plain(price.deposit_minor, price.currency)
        wanted = asked if typed is None else typed
        if self.deposit.text() != wanted:
            self.deposit.setText(wanted)

    def show_booked(self) -> None:
        """After booking: no papers yet."""
        self.slip.setEnabled(False)
        self.labels.setEnabled(False)
        self.setCurrentIndex(1)

    @Slot()
    def show_papers(self) -> None:
        """The papers are written."""
        self.slip.setEnabled(True)
        self.labels.setEnabled(True)

    def deposit_minor(self) -> int:
        """What was taken, in minor units; WrongInput when it is no amount or above the ceiling."""
        assert self._price is not None
        return read_amount(self.deposit.text(), self._price)

    def _before(self) -> QWidget:
        side = QWidget()
        row = QHBoxLayout(side)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(theme.UNIT)
        row.addWidget(labelled(self.deposit, say("counter", "deposit")), 2, Qt.AlignmentFlag.AlignBottom)
        both = QWidget()
        column = stacked(both, 2)
        column.addWidget(words(say("counter", "book_key"), "field", wrap=False))
        column.addWidget(self.book)
        row.addWidget(both, 3, Qt.AlignmentFlag.AlignBottom)
        return side

    def _after(self) -> QWidget:
        side = QWidget()
        column = stacked(side, 2)
        column.addWidget(words(say("counter", "booked_head"), "field", wrap=False))
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        for button, stretch in ((self.slip, 2), (self.labels, 2), (self.next, 3)):
            row.addWidget(button, stretch)
        column.addLayout(row)
        return side


def read_amount(typed: str, price: Price) -> int:
    """An amount as typed, in minor units: ``40``, ``40.00``, ``$40``; nothing is zero."""
    digits = get_currency_precision(price.currency)
    bare = "".join(sign for sign in typed if sign.isdigit() or sign in ".-")
    ceiling = text.money(price.ceiling_minor, price.currency)
    wrong = WrongInput(
        say("counter", "deposit_place"),
        typed,
        say("counter", "deposit_accepted", like=_plain(price.deposit_minor, price.currency), ceiling=ceiling),
    )
    if not typed.strip():
        return 0
    try:
        minor = Decimal(bare).scaleb(digits)
    except InvalidOperation:
        raise wrong from None
    if minor != minor.to_integral_value() or not 0 <= minor <= price.ceiling_minor:
        raise wrong
    return int(minor)


def _plain(minor: int, currency: str) -> str:
    digits = get_currency_precision(currency)
    return f"{Decimal(minor).scaleb(-digits):.{digits}f}"


def _button(words_on_it: str, name: str, main: bool = False) -> Button:
    button = Button(words_on_it)
    button.setObjectName(name)
    button.setAccessibleName(words_on_it.replace("&", ""))
    button.setAutoDefault(False)
    if main:
        button.setProperty("role", "main")
    return button
