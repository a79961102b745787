"""Calling an order off, all that is not copied yet or only some tapes: why, and who asked for it."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLineEdit, QPushButton

from core.model import numbers
from core.model.agreement_records import Consent
from core.model.errors import WrongInput
from core.model.job_records import Job
from core.model.names import TapeCode
from gui.agreement.consent_field import ConsentField
from gui.toolkit.text import say
from gui.widgets.keyed_form import Form
from gui.widgets.layouts import hinted, labelled, words


@dataclass(frozen=True, slots=True)
class Cancellation:
    """What the form holds when it is complete; ``codes`` None: all that is not copied yet."""

    codes: tuple[TapeCode, ...] | None
    reason: str
    consent: Consent


class CancelForm(Form):
    """Return goes from the reason to the tapes to the name; the last one calls off."""

    submitted = Signal(object)
    """A `Cancellation`."""

    def __init__(self) -> None:
        super().__init__("cancel-order")
        self.reason = QLineEdit()
        self.reason.setObjectName("cancel-reason")
        hinted(self.reason, say("agreeing", "cancel_hint"))
        self.tapes = QLineEdit()
        self.tapes.setObjectName("cancel-tapes")
        hinted(self.tapes, say("agreeing", "cancel_tapes_hint"))
        self.consent = ConsentField("cancel")
        self._save = QPushButton(say("agreeing", "cancel_save"))
        self._save.setObjectName("cancel-save")
        self._save.setProperty("role", "main")
        column = self.column
        column.addWidget(labelled(self.reason, say("agreeing", "cancel_reason")))
        column.addWidget(labelled(self.tapes, say("agreeing", "cancel_tapes")))
        column.addWidget(self.consent)
        column.addWidget(words(say("agreeing", "cancel_how"), "small"))
        column.addWidget(self._save)
        self._go_with_return((self.reason, self.tapes, self.consent.who), self._save)

    def begin(self, job: Job) -> None:
        """Empty the form for a job."""
        self.reason.clear()
        self.tapes.clear()
        self.consent.begin(job.customer.name)
        self.reason.setFocus()

    def _keep(self) -> None:
        try:
            self.submitted.emit(Cancellation(self._codes(), self._reason(), self.consent.consent()))
        except WrongInput as wrong:
            self.refused.emit(wrong)

    def _reason(self) -> str:
        reason = self.reason.text().strip()
        if not reason:
            self.reason.setFocus()
            raise WrongInput(self.reason.accessibleName(), "", say("bench", "few_words"))
        return reason

    def _codes(self) -> tuple[TapeCode, ...] | None:
        typed = [each for each in self.tapes.text().split(",") if each.strip()]
        try:
            return tuple(numbers.read_tape_code(each) for each in typed) or None
        except WrongInput:
            self.tapes.setFocus()
            raise
