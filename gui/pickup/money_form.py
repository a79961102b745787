"""Money that changes hands by itself: paid without a hand-back, or given back."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton

from core.model.errors import WrongInput
from core.model.job_records import Job
from gui.toolkit import theme
from gui.toolkit.text import money, say
from gui.widgets.figure_field import MoneyField
from gui.widgets.layouts import PaperFrame, give_key, labelled, words


class MoneyForm(PaperFrame):
    """An amount and why; one key takes it, another gives it back. Either is a line of its own, for good."""

    taken = Signal(int, str)
    given_back = Signal(int, str)
    """Minor units, and why."""
    refused = Signal(object)

    def __init__(self) -> None:
        super().__init__("money")
        self.amount = MoneyField("money-amount")
        self.why = QLineEdit()
        self.why.setObjectName("money-why")
        self.why.setPlaceholderText(say("pickup", "money_why_hint"))
        self._paid = words("", "small")
        self.take = QPushButton(say("pickup", "money_take"))
        self.give = QPushButton(say("pickup", "money_give"))
        self._lay_out()
        self.amount.returnPressed.connect(self._go_on)
        self.take.clicked.connect(self._take)
        self.give.clicked.connect(self._give)

    def begin(self, job: Job) -> None:
        """Empty the form for a job."""
        self.amount.currency = job.quote.price.currency
        self.amount.clear()
        self.why.clear()
        self.tell_paid(job)
        self.amount.setFocus()

    def tell_paid(self, job: Job) -> None:
        """What was paid for it so far."""
        self._paid.setText(say("pickup", "money_paid", amount=money(job.paid_minor, self.amount.currency)))

    @Slot()
    def _go_on(self) -> None:
        self.why.setFocus()

    @Slot()
    def _take(self) -> None:
        minor = self._typed()
        if minor:
            self.taken.emit(minor, self.why.text().strip())

    @Slot()
    def _give(self) -> None:
        minor = self._typed()
        if minor:
            self.given_back.emit(minor, self.why.text().strip())

    def _typed(self) -> int:
        """Minor units; 0 after a complaint, with the keyboard put where it belongs."""
        try:
            minor = self.amount.minor()
            if not minor:
                self.amount.setFocus()
                raise WrongInput(
                    self.amount.accessibleName(), self.amount.text(), say("pickup", "money_accepted")
                )
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return 0
        return minor

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self.amount, say("pickup", "money_amount")), 1)
        row.addWidget(labelled(self.why, say("pickup", "money_why")), 2)
        self.column.addLayout(row)
        self.column.addWidget(self._paid)
        buttons = QHBoxLayout()
        buttons.setSpacing(theme.UNIT)
        for button, name, keys in ((self.take, "money-take", "Alt+P"), (self.give, "money-give", "Alt+G")):
            button.setObjectName(name)
            give_key(button, keys)
            buttons.addWidget(button)
        buttons.addStretch(1)
        self.column.addLayout(buttons)
