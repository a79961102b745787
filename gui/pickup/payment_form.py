"""A payment or a refund by itself, without a pickup: the amount and the reason."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton

from core.model.errors import WrongInput
from core.model.job_records import Job
from gui.toolkit import theme
from gui.toolkit.text import money, say
from gui.widgets.figure_field import MoneyField
from gui.widgets.layouts import PaperFrame, give_key, labelled, words


class PaymentForm(PaperFrame):
    """An amount and a reason; one key records a payment, another a refund."""

    paid = Signal(int, str)
    """Minor units, and the reason."""
    refunded = Signal(int, str)
    """Minor units, and the reason."""
    refused = Signal(object)
    """A `WrongInput`, with the keyboard put into the field it is about."""

    def __init__(self) -> None:
        super().__init__("payment")
        self.amount = MoneyField("money-amount")
        self.reason = QLineEdit()
        self.reason.setObjectName("money-why")
        self.reason.setPlaceholderText(say("pickup", "money_why_hint"))
        self._paid_so_far = words("", "small")
        self.pay_button = QPushButton(say("pickup", "money_take"))
        self.refund_button = QPushButton(say("pickup", "money_give"))
        self._lay_out()
        self.amount.returnPressed.connect(self._go_on)
        self.pay_button.clicked.connect(self._pay)
        self.refund_button.clicked.connect(self._refund)

    def begin(self, job: Job) -> None:
        """Empty the form for a job."""
        self.amount.currency = job.quote.price.currency
        self.amount.clear()
        self.reason.clear()
        self.show_paid(job)
        self.amount.setFocus()

    def show_paid(self, job: Job) -> None:
        """Show what was paid for the job so far."""
        paid = money(job.paid_minor, self.amount.currency)
        self._paid_so_far.setText(say("pickup", "money_paid", amount=paid))

    @Slot()
    def _go_on(self) -> None:
        self.reason.setFocus()

    @Slot()
    def _pay(self) -> None:
        minor = self._typed()
        if minor:
            self.paid.emit(minor, self.reason.text().strip())

    @Slot()
    def _refund(self) -> None:
        minor = self._typed()
        if minor:
            self.refunded.emit(minor, self.reason.text().strip())

    def _typed(self) -> int:
        """Minor units; 0 after `refused`."""
        try:
            minor = self.amount.minor()
            if not minor:
                self.amount.setFocus()
                raise WrongInput(self.amount.accessibleName(), self.amount.text(), self.amount.accepted)
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return 0
        return minor

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self.amount, say("pickup", "money_amount")), 1)
        row.addWidget(labelled(self.reason, say("pickup", "money_why")), 2)
        self.column.addLayout(row)
        self.column.addWidget(self._paid_so_far)
        self.column.addLayout(self._button_row())

    def _button_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        keyed = ((self.pay_button, "money-take", "Alt+P"), (self.refund_button, "money-give", "Alt+G"))
        for button, name, keys in keyed:
            button.setObjectName(name)
            give_key(button, keys)
            row.addWidget(button)
        row.addStretch(1)
        return row
