"""What a change of a booked order leads to, before it is agreed; and who agrees to it, how and why."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QScrollArea, QWidget

from core.model.errors import WrongInput
from core.model.job_records import Job
from core.papers import agreement_words
from core.pricing.agreement_differences import AgreementPart
from core.pricing.amendment_records import Amended
from gui.agreement.consent_field import ConsentField
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import hinted, labelled, scrolled, stacked, words

_FIRST = (AgreementPart.TOTAL, AgreementPart.CEILING, AgreementPart.DATE)


class AmendPanel(QWidget):
    """Lies below the tray in place of the questions while an order is changed."""

    def __init__(self) -> None:
        super().__init__()
        self._head = words("", "field", wrap=False)
        self._why = QLineEdit()
        self._why.setObjectName("amend-reason")
        hinted(self._why, say("agreeing", "amend_reason_hint"))
        self.consent = ConsentField("amend")
        self._lines = words("")
        self._lines.setObjectName("amend-differences")
        self.area: QScrollArea = scrolled(self._lines, "amend-changes")
        self.area.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # so that the arrows scroll it
        self.area.setAccessibleName(say("agreeing", "amend_changes"))
        column = stacked(self, theme.UNIT)
        column.addWidget(self._head)
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self._why, say("agreeing", "amend_reason")), 3)
        row.addWidget(self.consent, 4)
        column.addLayout(row)
        column.addWidget(self.area, 1)
        self.hide()

    @property
    def told(self) -> str:
        """The differences as they stand on the panel."""
        return self._lines.text()

    def begin(self, job: Job) -> None:
        """For an order just opened."""
        self._why.clear()
        self.consent.begin(job.customer.name)
        self.show_nothing()

    def head(self, number: str, version: int) -> None:
        """Say which order is changed."""
        self._head.setText(say("agreeing", "amend_head", number=number, n=version))

    def reason(self) -> str:
        """Why it changes; WrongInput, with the keyboard in the field, when nothing is said."""
        reason = self._why.text().strip()
        if not reason:
            self._why.setFocus()
            raise WrongInput(self._why.accessibleName(), reason, say("bench", "few_words"))
        return reason

    def show_nothing(self) -> None:
        """Nothing can be told yet."""
        self._lines.setText(say("agreeing", "amend_wait"))

    def show_differences(self, amended: Amended) -> None:
        """What differs from what is agreed, line by line."""
        currency = amended.version.quote.price.currency
        shown = sorted(amended.differences, key=lambda each: each.part not in _FIRST)
        told = [agreement_words.told(each, currency).sentence for each in shown]
        self._lines.setText("\n".join(told) or say("agreeing", "amend_nothing"))

    def show_refusal(self, sentence: str) -> None:
        """Why the order cannot be so."""
        self._lines.setText(sentence)
