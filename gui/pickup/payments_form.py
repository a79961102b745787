"""Money of a job that is paid or given back by itself: between the form of the Pickup and the steps."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QPushButton

from core.model.job_records import Job
from core.services import payments
from gui.pickup.money_form import MoneyForm
from gui.toolkit.text import money, say
from gui.toolkit.workers import Work
from gui.widgets.layouts import give_key


class Till(QObject):
    """A key opens the form for the job in hand; what changed hands is a line of its own and never altered."""

    moved = Signal(str)
    """What was taken or given back, as a sentence."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, work: Work, parent: QObject) -> None:
        super().__init__(parent)
        self._work = work
        self._job: Job | None = None
        self.button = QPushButton(say("pickup", "money_button"))
        self.button.setObjectName("money-by-itself")
        give_key(self.button, "F6")
        self.form = MoneyForm()
        self.button.clicked.connect(self._begin)
        self.form.taken.connect(self._take)
        self.form.given_back.connect(self._give)
        self.form.refused.connect(self.failed)

    def hold(self, job: Job | None) -> None:
        """This job is in hand, or none; an open form stays with its job."""
        is_other = job is None or self._job is None or self._job.number != job.number
        self._job = job
        self.button.setVisible(job is not None)
        if is_other:
            self.form.hide()
        elif job is not None:
            self.form.tell_paid(job)

    def put_away(self) -> bool:
        """Close the form; says whether it was open."""
        was_open = self.form.isVisible()
        self.form.hide()
        return was_open

    @Slot()
    def _begin(self) -> None:
        if self._job is not None:
            self.form.show()
            self.form.begin(self._job)

    @Slot(int, str)
    def _take(self, minor: int, why: str) -> None:
        self._run(payments.take, minor, why, "money_taken")

    @Slot(int, str)
    def _give(self, minor: int, why: str) -> None:
        self._run(payments.refund, minor, why, "money_given")

    def _run(self, step: Callable[..., Job], minor: int, why: str, key: str) -> None:
        if self._job is not None:
            self._work.run(
                step,
                self._job.number,
                minor,
                note=why,
                then=partial(self._tell, minor, key),
                otherwise=self.failed.emit,
            )

    def _tell(self, minor: int, key: str, job: Job) -> None:
        currency = job.quote.price.currency
        self.form.hide()
        paid = money(job.paid_minor, currency)
        self.moved.emit(say("pickup", key, amount=money(minor, currency), paid=paid))
