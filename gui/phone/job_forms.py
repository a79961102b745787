"""What a call may change of an order: an agreement, a new promised day, the customer's details."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from core.model.inventory import CustomerDraft
from core.model.job_records import Job
from core.services import jobs, promise_entries, promises
from gui.phone.agreement_form import AgreementForm, NewAgreement
from gui.phone.correction_form import CorrectionForm
from gui.phone.new_day_form import NewDayForm
from gui.toolkit import theme
from gui.toolkit.text import day, say, times_in_twenty
from gui.toolkit.workers import Work
from gui.widgets.layouts import give_key, stacked


class JobForms(QWidget):
    """Three buttons, the forms they open one at a time, and the steps that record what is submitted."""

    recorded = Signal(str)
    """What was recorded, as a sentence; the form is closed."""
    customer_corrected = Signal(str)
    """The number of the job: a search by the old name may not find it any more."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, work: Work) -> None:
        super().__init__()
        self._work = work
        self._job: Job | None = None
        self.agree_button = _button("agree", say("phone", "agree_button"), "F6")
        self.agreement = AgreementForm()
        self.new_day_button = _button("new-day-button", say("phone", "new_day_button"), "F7")
        self.new_day = NewDayForm()
        self.correct_button = _button("correct", say("phone", "correct_button"), "F8")
        self.correction = CorrectionForm()
        self._lay_out()
        self._connect()
        self.show_job(None)

    def show_job(self, job: Job | None) -> None:
        """Offer the changes of this job, or none."""
        self._job = job
        self.setVisible(job is not None)
        self.new_day_button.setVisible(job is not None and not promise_entries.is_done(job))

    def close_forms(self) -> bool:
        """Close the open form; returns whether there was one."""
        was_open = any(form.isVisible() for form in self._forms)
        for form in self._forms:
            form.hide()
        return was_open

    # --- opening -------------------------------------------------------------------------

    @Slot()
    def _begin_agreement(self) -> None:
        if self._job is not None:
            self._open(self.agreement)
            self.agreement.begin(self._job)

    @Slot()
    def _begin_new_day(self) -> None:
        if self._job is not None:
            self._open(self.new_day)
            self.new_day.begin(self._job)

    @Slot()
    def _begin_correction(self) -> None:
        if self._job is not None:
            self._open(self.correction)
            self.correction.begin(self._job.customer)

    def _open(self, form: QWidget) -> None:
        self.close_forms()
        form.show()

    # --- recording -----------------------------------------------------------------------

    @Slot(object)
    def _agree(self, agreed: NewAgreement) -> None:
        if self._job is not None:
            self._work.run(
                jobs.agree,
                self._job.number,
                agreed.words,
                agreed.who,
                ceiling_minor=agreed.ceiling_minor,
                tax_exempt=agreed.tax_exempt,
                then=partial(self._was_agreed, agreed.who),
                otherwise=self.failed.emit,
            )

    def _was_agreed(self, who: str, _: Job) -> None:
        self._tell(say("phone", "agreed_said", who=who))

    @Slot(str, str)
    def _promise_again(self, reason: str, who: str) -> None:
        if self._job is not None:
            self._work.run(
                promises.renew,
                self._job.number,
                reason,
                agreed_with=who or None,
                then=self._was_promised,
                otherwise=self.failed.emit,
            )

    def _was_promised(self, job: Job) -> None:
        assert job.promise.day is not None
        when, times = day(job.promise.day), times_in_twenty(job.promise.stated)
        self._tell(say("phone", "new_day_said", day=when, times=times, who=job.customer.name))

    @Slot(object)
    def _correct(self, draft: CustomerDraft) -> None:
        if self._job is not None:
            self._work.run(
                jobs.correct_customer,
                self._job.number,
                draft,
                then=self._was_corrected,
                otherwise=self.failed.emit,
            )

    def _was_corrected(self, job: Job) -> None:
        self.customer_corrected.emit(job.number)
        self._tell(say("phone", "correct_said", name=job.customer.name))

    def _tell(self, sentence: str) -> None:
        self.close_forms()
        self.recorded.emit(sentence)

    # --- building ------------------------------------------------------------------------

    @property
    def _forms(self) -> tuple[QWidget, ...]:
        return self.agreement, self.new_day, self.correction

    def _lay_out(self) -> None:
        column = stacked(self)
        buttons = QVBoxLayout()
        buttons.setSpacing(theme.UNIT // 2)
        for button in (self.agree_button, self.new_day_button, self.correct_button):
            buttons.addWidget(button)
        column.addLayout(buttons)
        for form in self._forms:
            column.addWidget(form)
            form.hide()

    def _connect(self) -> None:
        self.agree_button.clicked.connect(self._begin_agreement)
        self.new_day_button.clicked.connect(self._begin_new_day)
        self.correct_button.clicked.connect(self._begin_correction)
        self.agreement.submitted.connect(self._agree)
        self.new_day.submitted.connect(self._promise_again)
        self.correction.submitted.connect(self._correct)
        for form in (self.agreement, self.new_day, self.correction):
            form.refused.connect(self.failed)


def _button(name: str, text: str, keys: str) -> QPushButton:
    button = QPushButton(text)
    button.setObjectName(name)
    give_key(button, keys)
    button.setProperty("role", "action")
    return button
