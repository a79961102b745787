"""Below the slip: the deposit and the key that books, then the papers to hand over."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QApplication, QHBoxLayout, QLineEdit, QStackedWidget, QWidget

from core.model.quote_records import Price
from core.wording.typed_amounts import typed_amount
from gui.counter.deposit_amount import read_deposit
from gui.counter.signing_bar import SigningBar
from gui.toolkit import actions, theme
from gui.toolkit.text import say
from gui.widgets.instant_buttons import InstantButton
from gui.widgets.layouts import labelled, stacked, words


class BookingBar(QStackedWidget):
    """Deposit, Sign and Book; while somebody signs, `SigningBar`; after booking, the papers and the next."""

    deposit_typed = Signal(str)
    sign_wanted = Signal()
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
        self.sign = _caption(say("counter", "sign", keys=actions.SIGN.keys), actions.SIGN)
        self.sign.clicked.connect(self.sign_wanted)
        self.signing = SigningBar()
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
        self.addWidget(self.signing)

    def show_price(self, price: Price | None, typed: str | None = None) -> None:
        """Before booking: the deposit follows the quote until somebody has typed another."""
        self._price = price
        if self.currentWidget() is not self.signing:
            self.setCurrentIndex(0)
        self.book.setEnabled(price is not None)
        self.sign.setEnabled(price is not None)
        asked = "" if price is None else typed_amount(price.deposit_minor, price.currency)
        wanted = asked if typed is None else typed
        if self.deposit.text() != wanted:
            self.deposit.setText(wanted)

    def show_amending(self, is_open: bool) -> None:
        """Changing a booked order takes no deposit, and the key says what it does."""
        self._deposit_field.setVisible(not is_open)
        self.sign.setVisible(not is_open)
        text = say("agreeing", "amend_save") if is_open else say("counter", "book")
        self.book.setText(text)
        self.book.setAccessibleName(text.replace("&", ""))

    def show_signing(self, is_open: bool) -> None:
        """While somebody signs: who, and what to press then."""
        if is_open:
            self.setCurrentWidget(self.signing)
        elif self.currentWidget() is self.signing:
            held = QApplication.focusWidget()
            is_here = held is not None and self.signing.isAncestorOf(held)
            self.setCurrentIndex(0)
            if is_here:
                self.book.setFocus()

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
        """The deposit typed, in minor units; WrongInput as `read_deposit`."""
        assert self._price is not None
        return read_deposit(self.deposit.text(), self._price)

    def _before(self) -> QWidget:
        side = QWidget()
        row = QHBoxLayout(side)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(theme.UNIT)
        self._deposit_field = labelled(self.deposit, say("counter", "deposit"))
        row.addWidget(self._deposit_field, 2, Qt.AlignmentFlag.AlignBottom)
        both = QWidget()
        column = stacked(both, 2)
        above = QHBoxLayout()
        above.addWidget(words(say("counter", "book_key"), "field", wrap=False), 1)
        above.addWidget(self.sign)
        column.addLayout(above)
        column.addWidget(self.book)
        row.addWidget(both, 3, Qt.AlignmentFlag.AlignBottom)
        return side

    def _after(self) -> QWidget:
        side = QWidget()
        column = stacked(side, 2)
        column.addWidget(words(say("counter", "booked_head"), "field", wrap=False))
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT // 2)
        for button, stretch in ((self.slip, 2), (self.labels, 2), (self.next, 3)):
            row.addWidget(button, stretch)
        column.addLayout(row)
        return side


def _caption(text: str, key: actions.Key) -> InstantButton:
    """Quiet words that can be clicked; their key works anywhere on the Counter."""
    button = _button(text, key.name)
    button.setAccessibleName(key.words)
    button.setProperty("role", "caption")
    button.setFont(theme.font(theme.SMALL))
    button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    button.setFixedHeight(round(2.5 * theme.UNIT))
    return button


def _button(words_on_it: str, name: str, main: bool = False) -> InstantButton:
    button = InstantButton(words_on_it)
    button.setObjectName(name)
    button.setAccessibleName(words_on_it.replace("&", ""))
    button.setAutoDefault(False)
    if main:
        button.setProperty("role", "main")
    return button
