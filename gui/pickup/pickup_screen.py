"""Pickup: every tape counted back one by one, the customer told, the balance paid, the receipt signed."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QEvent, QObject, Qt, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from core.model.errors import Refused, TapewrightError
from core.model.handover_records import HandoverWishes
from core.model.job_records import CallerMatch, Job, Pickup
from core.model.quote_records import Price
from core.services import calls, jobs
from core.services.after_ready import handover_wishes
from gui.agreement.price_calls import PriceCalls
from gui.copying.copies_at_work import CopiesAtWork
from gui.copying.copies_form import CopiesForm
from gui.pickup.checklist import Checklist
from gui.pickup.drop_question import DropQuestion, at_stake
from gui.pickup.facing_pickup import FacingPickup
from gui.pickup.hand_back import HandBack
from gui.pickup.pickup_layout import PickupLayout
from gui.pickup.tick_history import TickHistory
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.named_buttons import name_for_order
from gui.widgets.scanner import CODE_LENGTH


class PickupScreen(Screen):
    """One job at a time: found, checked off, told, paid, signed, handed back."""

    name = "Pickup"
    kinds = frozenset({"jobs", "tapes", "shop"})

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.checklist: Checklist | None = None
        """What is checked off of the open job; None while no job is open."""
        self._found: tuple[CallerMatch, ...] = ()
        self.parts = PickupLayout(self, desk)
        self._ticks = TickHistory(self, self.parts.box)
        self._dropping = DropQuestion(self.parts.slip, self)
        self._hand_back = HandBack(desk.work, self)
        form = CopiesForm(self)
        self.copies = CopiesAtWork(desk, form, PriceCalls(desk.work, form))
        self.facing = FacingPickup(desk, self.parts.slip, self)
        self._connect()
        self._close_job()

    @property
    def at_stake(self) -> tuple[str, ...]:
        return at_stake(self.checklist, self.parts.slip) if self.checklist is not None else ()

    def take_focus(self) -> None:
        self.parts.box.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.parts.box.selectAll()

    def bars(self, name: str) -> str:
        return say("commands", "no-order-at-pickup") if self.checklist is None else ""

    def refresh(self) -> None:
        if self.checklist is not None:
            self.desk.work.ask(jobs.get, self.checklist.job.number, then=self._renew)

    def holds_typing(self) -> bool:
        """The balance as it is now would take the place of the payment typed."""
        return self.parts.slip.paid.isModified()

    # --- finding the job -----------------------------------------------------------------

    @Slot()
    def _box_returned(self) -> None:
        text = self.parts.box.text().strip()
        code = "".join(text.split())
        if not text:
            return
        if self.checklist is not None and code.isdecimal() and len(code) == CODE_LENGTH:
            self.scan(code)
        else:
            then = partial(self._answered, text)
            self.desk.work.ask(calls.status, text, then=then, otherwise=self.show_failure)

    def _answered(self, text: str, found: tuple[CallerMatch, ...]) -> None:
        self.parts.box.selectAll()
        if not found:
            self.show_failure(Refused(say("pickup", "none_found", text=text)))
        elif len(found) > 1:
            self._dropping.ask_first(self.checklist, partial(self._offer, found))
        elif self.checklist is not None and found[0].job.number == self.checklist.job.number:
            self._renew(found[0].job)
            self.parts.box.clear()
        else:
            self._dropping.ask_first(self.checklist, partial(self._open_job, found[0].job, text))

    def _offer(self, found: tuple[CallerMatch, ...]) -> None:
        self._close_job()
        self._found = found
        self.parts.show_matches(found)

    def _open_job(self, job: Job, text: str = "") -> None:
        """Begin a pickup; a tape whose code is the ``text`` that found the job is on the counter already."""
        self._found = ()
        self._ticks.forget()
        self.facing.begin(job)
        self.parts.slip.begin(job)
        self._show(Checklist(job))
        self._read_price_and_files(job)
        self.parts.box.clear()
        code = "".join(text.split())
        if self.checklist is not None and self.checklist.is_open(code):
            self._tick(self.checklist, self.checklist.scan(code))
        self.take_focus()

    def _renew(self, job: Job) -> None:
        if self.checklist is not None and self.checklist.job.number == job.number:
            self._show(self.checklist.renewed(job))
            self._read_price_and_files(job)

    def _read_price_and_files(self, job: Job) -> None:
        self.desk.work.ask(jobs.reprice, job.number, then=partial(self._show_price, job))
        self.desk.work.ask(handover_wishes.of_job, job.number, then=partial(self._show_wishes, job))
        self.parts.papers.read_files(job.number)

    def _show_price(self, job: Job, price: Price) -> None:
        if self.checklist is not None and self.checklist.job is job:
            self.parts.slip.show_amounts(price, job.paid_minor)
            self.facing.show_price(price)

    def _show_wishes(self, job: Job, wishes: HandoverWishes) -> None:
        if self.checklist is not None and self.checklist.job is job:
            self.parts.slip.show_wishes(wishes)

    def _close_job(self) -> None:
        self.checklist = None
        self._found = ()
        self.facing.follow(None)
        self.parts.show_no_job()

    # --- checking off --------------------------------------------------------------------

    def hear_scan(self, code: str) -> bool:
        if len(code) == CODE_LENGTH:
            self.scan(code)
            self._go_to_copies()
        else:
            self.parts.box.setText(code)
            self._box_returned()
        return True

    def scan(self, code: str) -> None:
        """Check off a tape of the open job, or open the job the tape belongs to."""
        self.parts.box.clear()
        if self.checklist is None:
            self.parts.box.setText(code)
            self._box_returned()
            return
        try:
            self._tick(self.checklist, self.checklist.scan(code))
        except TapewrightError as failure:
            self.show_failure(failure)
            return
        self.parts.tray.stand_on(code)

    def _go_to_copies(self) -> None:
        """The last tape was scanned, so that only copies are left, without a code: Space checks them off."""
        if self.checklist is None:
            return
        left = (key for key in self.checklist.open_keys if key not in self.checklist.keys)
        first = next(left, "")  # tapes come before copies
        if first in self.checklist.open_copies:
            self.parts.tray.stand_on(first)
            self.parts.tray.setFocus()

    @Slot(str)
    def _toggle(self, key: str) -> None:
        if self.checklist is not None:
            self._tick(self.checklist, self.checklist.toggle(key))
            self.parts.tray.step(1)

    def _tick(self, before: Checklist, now: Checklist) -> None:
        self._ticks.note(before, now)
        self._show(now)

    @Slot(object)
    def _retake(self, step: Callable[[Checklist], Checklist]) -> None:
        if self.checklist is not None:
            self._show(step(self.checklist))

    @Slot(str)
    def _take(self, key: str) -> None:
        chosen = next((one for one in self._found if one.job.number == key), None)
        if chosen is not None:
            self._open_job(chosen.job)
        else:
            self._toggle(key)

    def _show(self, checklist: Checklist) -> None:
        self.checklist = checklist
        self.parts.show_checklist(checklist, self.desk.clock())
        self.facing.follow(checklist)
        for part in (self.parts.papers, self.parts.payments, self.parts.slip):
            name_for_order(part, checklist.job.number)

    @Slot()
    def _cursor_moved(self) -> None:
        if self.checklist is not None:
            self.parts.show_label(self.checklist)

    # --- handing back --------------------------------------------------------------------

    @Slot()
    def _hand_back_checked(self) -> None:
        checklist, slip = self.checklist, self.parts.slip
        if checklist is None or self._hand_back.is_under_way:
            return
        try:
            if not checklist.keys and checklist.open_keys:
                raise Refused(say("pickup", "nothing_checked"))
            signature, paid = slip.signature(), slip.paid.minor()
        except TapewrightError as failure:
            self.show_failure(failure)
            return
        self._hand_back.run(checklist, signature, paid, slip.what_was_shown)

    @Slot(object, str)
    def _was_handed_back(self, pickup: Pickup, summary: str) -> None:
        self.said.emit(say("pickup", "stored", name=pickup.signature.name, what=summary))
        self._open_job(pickup.job)
        self.parts.papers.write_receipt(pickup, summary)

    @Slot()
    def _open_copies(self) -> None:
        if self.checklist is not None:
            self.copies.begin(self.checklist.job.number)

    @Slot(str)
    def _payment_was_recorded(self, sentence: str) -> None:
        self.take_focus()
        self.said.emit(sentence)

    # --- signals and keys ----------------------------------------------------------------

    def _connect(self) -> None:
        parts = self.parts
        parts.box.returnPressed.connect(self._box_returned)
        parts.box.installEventFilter(self)
        parts.tray.ticked.connect(self._toggle)
        parts.tray.taken.connect(self._take)
        parts.tray.moved.connect(self._cursor_moved)
        self._ticks.wanted.connect(self._retake)
        parts.label.recorded.connect(self.said)
        parts.papers.written.connect(self.said)
        parts.payments.recorded.connect(self._payment_was_recorded)
        parts.slip.hand_back_wanted.connect(self._hand_back_checked)
        parts.copies_button.clicked.connect(self._open_copies)
        self.copies.kept.connect(self.said)
        self._hand_back.done.connect(self._was_handed_back)
        for part in (parts.label, parts.papers, parts.payments, self._hand_back, self.copies):
            part.failed.connect(self.show_failure)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is not self.parts.box or not isinstance(event, QKeyEvent):
            return False
        is_down = event.type() is QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Down
        if is_down and self.parts.tray.pieces:
            self.parts.tray.setFocus()
        return is_down and bool(self.parts.tray.pieces)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        is_escape = event.key() == Qt.Key.Key_Escape
        if is_escape and self.parts.payments.close_form():
            self.take_focus()
        elif is_escape and (self.checklist is not None or self._found):
            self._dropping.ask_first(self.checklist, self._close_job)
            self.take_focus()
        else:
            super().keyPressEvent(event)
