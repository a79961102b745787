"""A new day for a box: why it changes, and who heard it."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton

from core.model.errors import WrongInput
from core.model.job_records import Job
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import PaperFrame, labelled, words


class NewDayForm(PaperFrame):
    """The day itself is worked out when it is kept: the first one that is sure enough as things stand."""

    wanted = Signal(str, str)
    """The reason, and who heard it (nothing when nobody did yet)."""
    refused = Signal(object)

    def __init__(self) -> None:
        super().__init__("new-day")
        self.reason = QLineEdit()
        self.reason.setObjectName("new-day-reason")
        self.reason.setPlaceholderText(say("phone", "new_day_reason_hint"))
        self.who = QLineEdit()
        self.who.setObjectName("new-day-who")
        self._save = QPushButton(say("phone", "new_day_save"))
        self._save.setObjectName("new-day-save")
        self._save.setProperty("role", "main")
        self._lay_out()
        self.reason.returnPressed.connect(self._go_on)
        self.who.returnPressed.connect(self._keep)
        self._save.clicked.connect(self._keep)

    def begin(self, job: Job) -> None:
        """Empty the form for a job."""
        self.reason.clear()
        self.who.setText(job.customer.name)
        self.reason.setFocus()

    @Slot()
    def _go_on(self) -> None:
        self.who.setFocus()

    @Slot()
    def _keep(self) -> None:
        reason = self.reason.text().strip()
        if not reason:
            self.reason.setFocus()
            self.refused.emit(WrongInput(self.reason.accessibleName(), "", say("bench", "few_words")))
            return
        self.wanted.emit(reason, self.who.text().strip())

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self.reason, say("phone", "new_day_reason")), 3)
        row.addWidget(labelled(self.who, say("phone", "new_day_who")), 2)
        self.column.addLayout(row)
        self.column.addWidget(words(say("phone", "new_day_how"), "small"))
        self.column.addWidget(self._save)
