"""What a call may change of an order: an agreement, a new day, the customer's details, all of it."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QGridLayout, QWidget

from core.model.inventory import CustomerDraft
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopSettings
from core.model.stations import Station
from core.pricing import copy_fit
from core.services import jobs, promise_entries, promises
from core.services.agreement import agreements, cancellations
from gui.agreement.cancel_form import CancelForm, Cancellation
from gui.agreement.price_calls import PriceCalls
from gui.agreement.price_line import CARD_KEYS
from gui.agreement.shown_versions import ShownVersions
from gui.agreement.version_list import VersionList
from gui.phone.agreement_form import AgreementForm, NewAgreement
from gui.phone.correction_form import CorrectionForm
from gui.phone.new_day_form import NewDayForm
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import day, say, times_in_twenty
from gui.widgets.button_row import key_button
from gui.widgets.keyed_form import Form, close_all
from gui.widgets.layouts import stacked


class JobForms(QWidget):
    """Buttons, the forms they open one at a time, and the steps that record what is submitted."""

    recorded = Signal(str)
    """What was recorded, as a sentence; the form is closed."""
    customer_corrected = Signal(str)
    """The number of the job: a search by the old name may not find it any more."""
    amend_wanted = Signal(object)
    """The `JobNumber` of an order that is to be changed at the Counter."""
    form_opened = Signal(object)
    """The form that has the keyboard now."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._timezone = "UTC"
        self._work = work = desk.work
        self._job: Job | None = None
        self.agree_button = key_button("agree", "F6", say("phone", "agree_button"), "action")
        self.agreement = AgreementForm()
        self.new_day_button = key_button("new-day-button", "F7", say("phone", "new_day_button"), "action")
        self.new_day = NewDayForm()
        self.correct_button = key_button("correct", "F8", say("phone", "correct_button"), "action")
        self.correction = CorrectionForm()
        self.card_button = key_button(
            "call-card", CARD_KEYS, say("agreeing", "card_button", keys=CARD_KEYS), "action"
        )
        self.versions_button = key_button("versions", "F10", say("agreeing", "versions_button"), "action")
        self.amend_button = key_button("amend", "Ctrl+E", say("agreeing", "amend_button"), "action")
        self.cancel_button = key_button("cancel", "Ctrl+T", say("agreeing", "cancel_button"), "action")
        self.cancellation = CancelForm()
        self.calls = PriceCalls(work, self)
        self._shown = ShownVersions(desk, self)
        self._lay_out()
        self._connect()
        self.show_job(None)

    @property
    def versions(self) -> VersionList:
        """The list of what was agreed."""
        return self._shown.list

    def show_job(self, job: Job | None) -> None:
        """Offer the changes of this job, or none."""
        self._job = job
        self.setVisible(job is not None)
        self.new_day_button.setVisible(job is not None and not promise_entries.is_done(job))
        asks = job is not None and any(each.station is Station.ASKING_THE_CUSTOMER for each in job.tapes)
        self.card_button.setVisible(asks or (job is not None and bool(copy_fit.misfits(job))))
        for button in (self.amend_button, self.cancel_button):
            button.setVisible(job is not None and job.is_open)

    @property
    def has_job(self) -> bool:
        """Whether an order is open to be changed."""
        return self._job is not None

    def keep_shop(self, settings: ShopSettings) -> None:
        """The shop's country, for phone numbers, and its clock."""
        self._timezone = settings.front.timezone
        self.correction.keep_country(settings)

    @property
    def has_open_form(self) -> bool:
        return any(form.isVisible() for form in self.every)

    def close_forms(self) -> bool:
        """Close the open form; returns whether there was one."""
        return close_all(self.every)

    # --- opening -------------------------------------------------------------------------

    @Slot()
    def _begin_agreement(self) -> None:
        self._begin(self.agreement)

    @Slot()
    def _begin_new_day(self) -> None:
        self._begin(self.new_day)

    @Slot()
    def _begin_correction(self) -> None:
        self._begin(self.correction)

    @Slot()
    def _begin_cancellation(self) -> None:
        self._begin(self.cancellation)

    @Slot()
    def _begin_call(self) -> None:
        if self._job is not None:
            self.calls.begin(self._job.number)

    @Slot()
    def _show_versions(self) -> None:
        if self._job is not None:
            self._shown.begin(self._job.number, self._timezone)

    @Slot()
    def _want_amending(self) -> None:
        if self._job is not None:
            self.amend_wanted.emit(self._job.number)

    def _begin(self, form: AgreementForm | NewDayForm | CorrectionForm | CancelForm) -> None:
        if self._job is None:
            return
        self.close_forms()
        form.show()
        if isinstance(form, CorrectionForm):
            form.begin(self._job.customer)
        else:
            form.begin(self._job)
        self.form_opened.emit(form)

    # --- recording -----------------------------------------------------------------------

    @Slot(object)
    def _agree(self, agreed: NewAgreement) -> None:
        if self._job is not None:
            self._work.run(
                agreements.agree,
                self._job.number,
                agreed.words,
                agreed.consent,
                ceiling_minor=agreed.ceiling_minor,
                tax_exempt=agreed.tax_exempt,
                based_on=self._job.agreed_version,
                then=partial(self._was_agreed, agreed.consent.who),
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
                seen=self.correction.seen,
                then=self._was_corrected,
                otherwise=self.failed.emit,
            )

    def _was_corrected(self, job: Job) -> None:
        self.customer_corrected.emit(job.number)
        self._tell(say("phone", "correct_said", name=job.customer.name))

    @Slot(object)
    def _cancel(self, wanted: Cancellation) -> None:
        if self._job is not None:
            self._work.run(
                cancellations.cancel,
                self._job.number,
                wanted.codes,
                reason=wanted.reason,
                consent=wanted.consent,
                based_on=self._job.agreed_version,
                then=self._was_canceled,
                otherwise=self.failed.emit,
            )

    def _was_canceled(self, job: Job) -> None:
        name, n = job.customer.name, job.agreements[-1].version
        self._tell(say("agreeing", "canceled_said", name=name, number=str(job.number), n=n))

    @Slot(str)
    def _tell(self, sentence: str) -> None:
        self.close_forms()
        self.recorded.emit(sentence)

    # --- building ------------------------------------------------------------------------

    @property
    def every(self) -> tuple[Form, ...]:
        return self.agreement, self.new_day, self.correction, self.cancellation

    def _lay_out(self) -> None:
        column = stacked(self)
        buttons = QGridLayout()
        buttons.setSpacing(theme.UNIT // 2)
        for place, button in enumerate(
            (
                self.agree_button,
                self.card_button,
                self.new_day_button,
                self.versions_button,
                self.correct_button,
                self.amend_button,
                self.cancel_button,
            )
        ):
            buttons.addWidget(button, place // 2, place % 2)
        column.addLayout(buttons)
        for form in self.every:
            column.addWidget(form)
            form.hide()

    def _connect(self) -> None:
        self.agree_button.clicked.connect(self._begin_agreement)
        self.new_day_button.clicked.connect(self._begin_new_day)
        self.correct_button.clicked.connect(self._begin_correction)
        self.agreement.submitted.connect(self._agree)
        self.new_day.submitted.connect(self._promise_again)
        self.correction.submitted.connect(self._correct)
        self.card_button.clicked.connect(self._begin_call)
        self.versions_button.clicked.connect(self._show_versions)
        self.amend_button.clicked.connect(self._want_amending)
        self.cancel_button.clicked.connect(self._begin_cancellation)
        self.cancellation.submitted.connect(self._cancel)
        self.calls.answered.connect(self._tell)
        self.calls.failed.connect(self.failed)
        self._shown.failed.connect(self.failed)
        for form in self.every:
            form.refused.connect(self.failed)
