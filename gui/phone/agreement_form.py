"""What a customer agrees to after booking: recorded before it costs more."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QVBoxLayout

from core.model.agreement_records import Consent
from core.model.errors import WrongInput
from core.model.job_records import Job
from gui.agreement.consent_field import ConsentField
from gui.toolkit import theme
from gui.toolkit.text import money, say
from gui.widgets.figure_field import MoneyField
from gui.widgets.keyed_form import Form
from gui.widgets.layouts import labelled, words


@dataclass(frozen=True, slots=True)
class NewAgreement:
    """What the form holds when it is complete."""

    words: str
    consent: Consent
    ceiling_minor: int | None
    """None when the price was not the question."""
    tax_exempt: str | None = None
    """None when tax was not the question."""


class AgreementForm(Form):
    """What was agreed and how, who said so, and up to which amount."""

    submitted = Signal(object)
    """A `NewAgreement`."""

    def __init__(self) -> None:
        super().__init__("agreement")
        self.what = QLineEdit()
        self.what.setObjectName("agreed-what")
        self.what.setPlaceholderText(say("phone", "agreed_what_hint"))
        self.consent = ConsentField("agreed")
        self.who = self.consent.who
        self.ceiling = MoneyField("agreed-up-to")
        self.exempt = QLineEdit()
        self.exempt.setObjectName("agreed-exempt")
        self._exempt_before = ""
        self._agreed_before = words("", "small")
        self._save = QPushButton(say("phone", "agreed_save"))
        self._save.setObjectName("agreed-save")
        self._save.setProperty("role", "main")
        self._lay_out(self.column)
        for before, after in pairwise((self.what, self.who, self.ceiling, self.exempt, self.consent.how)):
            self.setTabOrder(before, after)
        self._go_with_return((self.what, self.who, self.ceiling), self._save)
        self.exempt.returnPressed.connect(self._save.click)

    def begin(self, job: Job) -> None:
        """Empty the form for a job."""
        currency = job.quote.price.currency
        self.what.clear()
        self.consent.begin(job.customer.name)
        self.ceiling.clear()
        self.ceiling.currency = currency
        self._exempt_before = job.tax_exempt
        self.exempt.setText(job.tax_exempt)
        ceiling = money(job.ceiling_minor, currency)
        self._agreed_before.setText(say("phone", "agreed_now", amount=ceiling))
        self.what.setFocus()

    def _keep(self) -> None:
        try:
            ceiling = self.ceiling.minor() if self.ceiling.text().strip() else None
            exempt = self.exempt.text().strip()
            changed = None if exempt == self._exempt_before else exempt
            what, consent = self._needed(self.what), self.consent.consent()
            self.submitted.emit(NewAgreement(what, consent, ceiling, changed))
        except WrongInput as wrong:
            self.refused.emit(wrong)

    def _needed(self, field: QLineEdit) -> str:
        text = field.text().strip()
        if not text:
            field.setFocus()
            raise WrongInput(field.accessibleName(), text, say("bench", "few_words"))
        return text

    def _lay_out(self, column: QVBoxLayout) -> None:
        column.addWidget(labelled(self.what, say("phone", "agreed_what")))
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(self.consent, 5)
        row.addWidget(labelled(self.ceiling, say("phone", "agreed_up_to")), 2)
        column.addLayout(row)
        column.addWidget(labelled(self.exempt, say("phone", "agreed_exempt")))
        column.addWidget(self._agreed_before)
        column.addWidget(self._save)
