"""Payments and refunds without a pickup: the button, the form it opens, and the step that records them."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from core.model.job_records import Job
from core.services import payments
from gui.pickup.payment_form import PaymentForm
from gui.toolkit.text import money, say
from gui.toolkit.workers import Work
from gui.widgets.layouts import give_key, stacked


class PaymentPanel(QWidget):
    """Records money of the job in hand; a journal entry is never altered, only followed by another."""

    recorded = Signal(str)
    """What was paid or refunded, as a sentence."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, work: Work) -> None:
        super().__init__()
        self._work = work
        self._job: Job | None = None
        self.button = QPushButton(say("pickup", "money_button"))
        self.button.setObjectName("money-by-itself")
        give_key(self.button, "F6")
        self.form = PaymentForm()
        column = stacked(self)
        column.addWidget(self.form)
        self.button.clicked.connect(self._begin)
        self.form.paid.connect(self._pay)
        self.form.refunded.connect(self._refund)
        self.form.refused.connect(self.failed)

    def show_job(self, job: Job | None) -> None:
        """Offer payments for this job, or none; an open form stays with its job."""
        is_other = job is None or self._job is None or self._job.number != job.number
        self._job = job
        self.setVisible(job is not None)
        self.button.setVisible(job is not None)
        if is_other:
            self.form.hide()
        elif job is not None:
            self.form.show_paid(job)

    def close_form(self) -> bool:
        """Close the form; returns whether it was open."""
        was_open = self.form.isVisible()
        self.form.hide()
        return was_open

    @Slot()
    def _begin(self) -> None:
        if self._job is not None:
            self.form.show()
            self.form.begin(self._job)

    @Slot(int, str)
    def _pay(self, minor: int, reason: str) -> None:
        self._record(payments.take, minor, reason, "money_taken")

    @Slot(int, str)
    def _refund(self, minor: int, reason: str) -> None:
        self._record(payments.refund, minor, reason, "money_given")

    def _record(self, step: Callable[..., Job], minor: int, reason: str, key: str) -> None:
        if self._job is not None:
            self._work.run(
                step,
                self._job.number,
                minor,
                note=reason,
                then=partial(self._was_recorded, minor, key),
                otherwise=self.failed.emit,
            )

    def _was_recorded(self, minor: int, key: str, job: Job) -> None:
        currency = job.quote.price.currency
        self.form.hide()
        paid = money(job.paid_minor, currency)
        self.recorded.emit(say("pickup", key, amount=money(minor, currency), paid=paid))
