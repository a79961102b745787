"""From the key that books to the booked job on the slip: what is missing, the step, the papers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot

from core.model.agreement_records import AgreedHow
from core.model.errors import Refused, WrongInput
from core.model.inventory import Inventory
from core.model.job_records import Job
from core.model.typed_draft import TypedBox
from gui.counter.amending import Amending
from gui.counter.booking_check import NotComplete, first_obstacle
from gui.counter.booking_papers import BookingPapers
from gui.counter.box_quote import BoxQuote
from gui.counter.counter_layout import CounterLayout
from gui.counter.draft_history import Draft
from gui.counter.line_entry import LineEntry
from gui.counter.signing import Signing
from gui.counter.slip_writer import SlipWriter
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say

if TYPE_CHECKING:
    from core.services.quoting import ShopSnapshot
    from gui.counter.booking import Booking


class CounterBooking(QObject):
    """Books the box of the Counter, shows the job, and has its papers written."""

    booked = Signal(object)
    """The `Job`."""
    said = Signal(str)
    """What was booked, as a sentence."""
    failed = Signal(object)
    """A `TapewrightError`; for missing input the keyboard is in its cell or field."""

    def __init__(
        self,
        desk: Desk,
        booking: Booking,
        parts: CounterLayout,
        draft: Draft,
        box: BoxQuote,
        slip: SlipWriter,
        amending: Amending,
        line: LineEntry,
    ) -> None:
        super().__init__(booking.parent())
        self._parts = parts
        self._draft = draft
        self._box = box
        self._slip = slip
        self._booking = booking
        self._amending = amending
        self._line = line
        self._papers = BookingPapers(desk, self)
        self.signing = Signing(desk, parts.booking_bar.signing, self)
        self._connect()

    @Slot()
    def book(self) -> None:
        """Book the box, or say what is missing and go there."""
        self._settle()
        if self._booking.is_under_way:
            return
        if self._amending.is_open:
            self._amend()
        elif self.signing.is_open:
            self.signing.book()
        else:
            self._begin(self._booking.begin)

    @Slot()
    def have_signed(self) -> None:
        """Show the customer what is agreed, to be signed before it is booked; or say what is missing."""
        self._settle()
        if not (self._booking.is_under_way or self._amending.is_open):
            self._begin(self.signing.begin)

    def _settle(self) -> None:
        """Take over what is being typed: a cell, a field, a line that was understood to its last word."""
        self._parts.table.commit()
        self._parts.form.settle()
        self._line.take_whole()

    def _begin(self, step: Callable[[TypedBox, ShopSnapshot, Inventory, int], None]) -> None:
        try:
            deposit = self._ready_to_book()
        except WrongInput as failure:
            self.failed.emit(failure)
            return
        assert self._box.snapshot is not None
        step(self._draft.box, self._box.snapshot, self._box.reading.inventory, deposit)

    @Slot()
    def _show_signing(self) -> None:
        bar = self._parts.booking_bar
        bar.show_signing(self.signing.is_open)
        if self.signing.is_open:
            self._parts.bring(bar.signing.buttons[AgreedHow.SIGNATURE])

    def _amend(self) -> None:
        """Change the order that is open, or say what is missing and go there."""
        obstacle = first_obstacle(self._box.reading, self._box.quote, is_told=True)
        if obstacle is not None:
            self._parts.go_to(obstacle.row, obstacle.field)
            self.failed.emit(NotComplete(obstacle.sentence))
        else:
            self._amending.keep()

    def _ready_to_book(self) -> int:
        """The deposit in minor units; WrongInput says what is missing, with the keyboard put there."""
        obstacle = first_obstacle(self._box.reading, self._box.quote, self._parts.telling.is_settled)
        if obstacle is not None:
            self._parts.go_to(obstacle.row, obstacle.field)
            raise NotComplete(obstacle.sentence)
        try:
            return self._parts.booking_bar.deposit_minor()
        except WrongInput:
            self._parts.go_to(None, "deposit")
            raise

    @Slot(object, object)
    def _was_booked(self, job: Job, booked: TypedBox) -> None:
        """Show the job; an empty tray follows, unless something was typed while the box was booked."""
        self.signing.end()
        self._slip.show_job(job)
        if _is_the_same(self._draft.box, booked):
            self._draft.begin(TypedBox())
            self._parts.table.put_cursor(0, 0)
        elif self._draft.box.command == booked.command:
            self._draft.become_another()
        self._parts.show_booked()
        self.booked.emit(job)
        self.said.emit(self._told(job))
        self._papers.write(job)

    def _told(self, job: Job) -> str:
        count = say("counter", "tapes_count", count=len(job.tapes))
        return say("counter", "booked", number=job.number, tapes=count, name=job.customer.name)

    @Slot(object, object)
    def _was_stored_before(self, job: Job, typed: TypedBox) -> None:
        """Show the order that is there; what was changed since stays, and is another box from now on."""
        self.signing.end()
        self._slip.show_job(job)
        if self._draft.box.command == typed.command:
            self._draft.become_another()
        self.booked.emit(job)
        self._papers.write(job)
        self.failed.emit(Refused(say("counter", "stored_before", booked=self._told(job))))

    def _connect(self) -> None:
        bar = self._parts.booking_bar
        bar.book_wanted.connect(self.book)
        bar.sign_wanted.connect(self.have_signed)
        self.signing.changed.connect(self._show_signing)
        self.signing.book_wanted.connect(self._booking.begin_agreed)
        self.signing.said.connect(self.said)
        self.signing.failed.connect(self.failed)
        bar.slip_wanted.connect(self._papers.show_claim_slip)
        bar.labels_wanted.connect(self._papers.show_labels)
        self._papers.written.connect(bar.show_papers)
        self._papers.failed.connect(self.failed)
        self._booking.booked.connect(self._was_booked)
        self._booking.stored_before.connect(self._was_stored_before)
        self._booking.failed.connect(self.failed)
        self._amending.failed.connect(self.failed)
        self._amending.said.connect(self.said)


def _is_the_same(now: TypedBox, booked: TypedBox) -> bool:
    """Whether nothing was typed while the box was booked; what was told is no typing."""
    return replace(now, told=()) == replace(booked, told=())
