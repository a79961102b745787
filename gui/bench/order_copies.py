"""The copies of the order of the tape in hand: the key that opens them, and what no longer fits."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, Signal, Slot

from core.model.copies import copy_standing
from core.model.job_records import Job
from core.model.numbers import job_of
from core.model.tape_records import TapeRecord
from core.pricing import copy_fit
from core.services import jobs
from gui.agreement.price_line import StandingPriceLine
from gui.copying.copies_at_work import COPIES_KEYS, CopiesAtWork
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.button_row import key_button


class OrderCopies(QObject):
    """One button, there while the order has copies; the line beside it says what does not fit."""

    kept = Signal(str)
    failed = Signal(object)

    def __init__(self, line: StandingPriceLine, desk: Desk, work: CopiesAtWork) -> None:
        super().__init__(work)
        self._desk, self._line = desk, line
        self._tape: TapeRecord | None = None
        self.button = key_button(
            "copies", COPIES_KEYS, say("copying", "open_button", keys=COPIES_KEYS), "action"
        )
        self.button.hide()
        self.work = work
        self.button.clicked.connect(self._open)
        self.work.kept.connect(self.kept)
        self.work.failed.connect(self.failed)

    def hold(self, tape: TapeRecord) -> None:
        """A tape is in hand: look at the copies of its order."""
        self._tape = tape
        self._desk.work.ask(jobs.get, job_of(tape.code), then=partial(self._know, tape))

    def _know(self, tape: TapeRecord, job: Job) -> None:
        if self._tape is not tape:
            return
        self.button.setVisible(bool(job.copies))
        told = [copy_fit.sentence(each) for each in copy_fit.misfits(job)]
        if not told and copy_standing.are_being_written(job):
            told = [say("copying", "to-be-written")]
        self._line.tell_copies(told, asks=bool(copy_fit.misfits(job)))

    @Slot()
    def _open(self) -> None:
        if self._tape is not None:
            self.work.begin(job_of(self._tape.code))
