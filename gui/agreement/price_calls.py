"""Opens the call card of an order, keeps the answer, and says what was kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.model.agreement_records import CeilingChoice, Consent
from core.model.copies.copy_questions import CopyChoice, CopyQuestion
from core.model.errors import TapewrightError
from core.model.job_records import Job
from core.model.names import JobNumber
from core.model.price_questions import PriceQuestion
from core.services.agreement import agreements, call_cards
from core.services.copies import copy_choices
from gui.agreement.call_card import CallAnswer, CallCard
from gui.toolkit.text import say
from gui.toolkit.workers import Work

if TYPE_CHECKING:
    from core.store.unit import Unit


class PriceCalls(QObject):
    """One card at a time, over the window of ``room``."""

    answered = Signal(str)
    """What was kept, as a sentence."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, work: Work, room: QWidget) -> None:
        super().__init__(room)
        self._work = work
        self._question: PriceQuestion | CopyQuestion | None = None
        self.card = CallCard(room)
        self.card.answered.connect(self._answer)

    def begin(self, number: JobNumber) -> None:
        """Open the card of an order; where nothing is asked, that is told as a failure."""
        self._work.ask(_question, number, then=self._open, otherwise=self.failed.emit)

    def _open(self, question: PriceQuestion | CopyQuestion) -> None:
        self._question = question
        self.card.begin(question)

    @Slot(object)
    def _answer(self, answer: CallAnswer) -> None:
        question = self._question
        if isinstance(question, CopyQuestion) and isinstance(answer.choice, CopyChoice):
            self._answer_for_copy(question, answer.choice, answer.consent)
        elif isinstance(question, PriceQuestion) and isinstance(answer.choice, CeilingChoice):
            self._answer_for_price(question, answer.choice, answer)

    def _answer_for_copy(self, question: CopyQuestion, choice: CopyChoice, consent: Consent) -> None:
        self._work.run(
            copy_choices.answer,
            question.job.number,
            question.misfit.item,
            choice,
            consent,
            based_on=question.standing.version,
            then=self._was_kept,
            otherwise=self._was_refused,
        )

    def _answer_for_price(self, question: PriceQuestion, choice: CeilingChoice, answer: CallAnswer) -> None:
        self._work.run(
            agreements.answer,
            question.job.number,
            choice,
            answer.consent,
            tape=question.asking[-1].code,
            ceiling_minor=answer.ceiling_minor,
            based_on=question.standing.version,
            then=self._was_kept,
            otherwise=self._was_refused,
        )

    def _was_kept(self, job: Job) -> None:
        self.card.accept()
        self.answered.emit(say("agreeing", "kept", number=str(job.number), name=job.customer.name))

    def _was_refused(self, failure: TapewrightError) -> None:
        self.card.show_wrong(failure.sentence)


def _question(unit: Unit, number: JobNumber) -> PriceQuestion | CopyQuestion:
    if call_cards.is_about_copy(unit, number):
        return copy_choices.question(unit, number)
    return call_cards.question(unit, number)
