"""A new promised day for an order: why it changes, and who was told."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton

from core.model.errors import WrongInput
from core.model.job_records import Job
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.keyed_form import Form
from gui.widgets.layouts import hinted, labelled, words


class NewDayForm(Form):
    """Asks for the reason only: the step works out the day, the first that is sure enough as things stand."""

    submitted = Signal(str, str)
    """The reason, and who was told (empty when nobody was yet)."""

    def __init__(self) -> None:
        super().__init__("new-day")
        self.reason = QLineEdit()
        self.reason.setObjectName("new-day-reason")
        hinted(self.reason, say("phone", "new_day_reason_hint"))
        self.who = QLineEdit()
        self.who.setObjectName("new-day-who")
        self._save = QPushButton(say("phone", "new_day_save"))
        self._save.setObjectName("new-day-save")
        self._save.setProperty("role", "main")
        self._lay_out()
        self._go_with_return((self.reason, self.who), self._save)

    def begin(self, job: Job) -> None:
        """Empty the form for a job."""
        self.reason.clear()
        self.who.setText(job.customer.name)
        self.reason.setFocus()

    def _keep(self) -> None:
        reason = self.reason.text().strip()
        if not reason:
            self.reason.setFocus()
            self.refused.emit(WrongInput(self.reason.accessibleName(), "", say("bench", "few_words")))
            return
        self.submitted.emit(reason, self.who.text().strip())

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self.reason, say("phone", "new_day_reason")), 3)
        row.addWidget(labelled(self.who, say("phone", "new_day_who")), 2)
        self.column.addLayout(row)
        self.column.addWidget(words(say("phone", "new_day_how"), "small"))
        self.column.addWidget(self._save)
