"""Counter: a box of tapes becomes a slip while the customer watches, and is booked with one key."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import Qt, QTimer, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.model.job_records import Job
from core.model.names import JobNumber
from core.model.own_shop.settings_records import Permission
from core.model.price_ways import PriceWay
from core.model.quote_records import Question, Quote
from core.model.typed_draft import TypedBox
from core.services import shop_snapshot
from core.services.quoting import ShopSnapshot
from gui.counter import barred_commands, tray_menu
from gui.counter.amending import Amending
from gui.counter.booking import Booking
from gui.counter.booking_check import NotComplete
from gui.counter.box_quote import BoxQuote
from gui.counter.counter_booking import CounterBooking
from gui.counter.counter_layout import CounterLayout
from gui.counter.draft_autosave import DraftAutosave
from gui.counter.draft_history import Draft
from gui.counter.dropped_files import DroppedFiles
from gui.counter.earlier_day import EarlierDay
from gui.counter.known_customers import CustomerRecall
from gui.counter.line_entry import LineEntry
from gui.counter.row_inspections import RowInspections
from gui.counter.slip_writer import SlipWriter
from gui.counter.tray_edits import TrayEdits
from gui.counter.ways_at_hand import WaysAtHand
from gui.toolkit import actions
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say

READ_AGAIN_MS = 5 * 60_000
"""The queue moves on by itself: decks play while nobody books."""


class CounterScreen(Screen):
    """The slip is the screen: tapes in the tray at the left, the growing slip at the right."""

    name = "Counter"
    kinds = frozenset({"jobs", "tapes", "shop"})
    quote_changed = Signal(object, bool)
    """As `SlipWriter.quote_written`, for the customer: an order opened again, maybe for a caller, is none."""
    job_booked = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.setObjectName("counter")
        self.draft = Draft(self)
        self._box = BoxQuote(desk, self)
        self.parts = CounterLayout(self, self._box.today)
        self.tray = TrayEdits(self.draft, self.parts.table, self._box, self)
        self.line = LineEntry(self.draft, self.parts, self)
        self.dropped = DroppedFiles(desk, self._box, self)
        self._slip = SlipWriter(self.parts.slip, self._box, self)
        self.earlier_day = EarlierDay(desk, self.parts, self._box, self)
        self.inspections = RowInspections(self.draft, self.tray, self._box.today, self)
        self.autosave = DraftAutosave(desk, self._typed, self)
        booking = Booking(desk, self.autosave, self)
        self.amending = Amending(desk, self.draft, self.parts.amending, self)
        self.recall = CustomerRecall(desk, self.parts.known, self)
        self.booking = CounterBooking(
            desk, booking, self.parts, self.draft, self._box, self._slip, self.amending, self.line
        )
        self.ways_at_hand = WaysAtHand(self.parts.ways, self.parts.where_the_box_is, self)
        self._again_timer = QTimer(self, interval=READ_AGAIN_MS)
        self._connect()
        self.parts.booking_bar.show_price(None)
        self.parts.show_questions(None)
        self._recompute()

    @property
    def quote(self) -> Quote | None:
        """The quote of what is typed."""
        return self._box.quote

    @property
    def job(self) -> Job | None:
        """The job just booked, until the next box is begun."""
        return self._slip.job

    @property
    def has_its_day(self) -> bool:
        """Whether the day on show belongs to the tapes on show; else it is being worked out."""
        return self._box.is_settled

    @property
    def slip_is_written(self) -> bool:
        """Whether the slip shows the quote of what is typed."""
        return self._slip.is_written

    # --- what every screen does ----------------------------------------------------------

    def bars(self, name: str) -> str:
        return barred_commands.why_not(name, self.draft, self.quote)

    def refresh(self) -> None:
        self._read_shop()
        self.autosave.restore()

    @property
    def has_unkept(self) -> bool:
        return self.autosave.is_behind

    def enter(self) -> None:
        super().enter()
        self._again_timer.start()

    def leave(self) -> None:
        super().leave()
        self._again_timer.stop()
        self.parts.table.commit()
        self.autosave.save_now()

    def take_focus(self) -> None:
        self.parts.bring(self.parts.table)

    @Slot()
    def _read_shop(self) -> None:
        self.desk.work.ask(shop_snapshot.read, then=self._use_snapshot)

    def _use_snapshot(self, snapshot: ShopSnapshot) -> None:
        self._box.use_snapshot(snapshot)
        self.line.use_settings(snapshot.settings)
        self.parts.slip.show_front(snapshot.settings.front)
        self._recompute()

    @Slot(object)
    def _restore(self, saved: TypedBox) -> None:
        if self.draft.box.is_empty:
            self.draft.begin(saved)
            self.said.emit(say("counter", "restored"))

    def _typed(self) -> TypedBox:
        return self.parts.form.with_half_typed(self.draft.shown)

    # --- the quote, at every key ---------------------------------------------------------

    @Slot()
    def _recompute(self) -> None:
        laid_out = self.line.laid_out(self.draft.shown)
        self._box.update(laid_out)
        self.parts.rows.show(self._box.table_rows(self.draft.shown.rows))
        self._show_quote()
        self.parts.form.show_box(self.draft.box, self._box.reading)
        self.parts.show_amending(self.amending.is_open)
        self.amending.show(self._box.reading)
        self.recall.follow(laid_out)
        self.booking.signing.follow(self.draft.shown)
        self._note_unsaved()

    @Slot()
    def _note_unsaved(self) -> None:
        self.unsaved_changed.emit(not self.draft.box.is_empty)

    @Slot()
    def _recompute_with_day(self) -> None:
        self._recompute()
        self.tray.take_waiting_answer()
        if self.quote is not None and self.quote.inventory.rush and self.job is None:
            self.earlier_day.ask_whom_rush_pushes()

    def _show_quote(self) -> None:
        """Show the quote, unless a booked job is on show and nothing was typed since."""
        quote, parts, box = self.quote, self.parts, self.draft.box
        if quote is None and self.job is not None and self.draft.shown.is_empty:
            return
        parts.show_message(self._box.reading, self._box.failure)
        parts.booking_bar.show_price(quote.price if quote else None, box.deposit)
        parts.dock.show_quote(quote)
        parts.ways.show_quote(quote, box.way, tells_risk=self._tells_risk())
        parts.show_questions(quote, self._box.rows_of_questions(), box.told)
        if self._slip.show_quote():
            self.earlier_day.forget()

    def _tells_risk(self) -> bool:
        """Whether whoever stands here may see what a flat price risks."""
        snapshot = self._box.snapshot
        return snapshot is not None and snapshot.settings.permits(self.desk.who, Permission.REPORTS)

    @Slot(object, bool)
    def _tell_quote(self, quote: Quote | None, is_late: bool) -> None:
        self.quote_changed.emit(None if self.amending.is_open else quote, is_late)

    @Slot(object)
    def choose_way(self, way: PriceWay) -> None:
        """The customer touched a way to agree on the price."""
        self.draft.write_field("way", way)

    @Slot()
    def _show_cell_message(self) -> None:
        self.parts.show_message(self._box.reading, None)

    # --- what keys and buttons do --------------------------------------------------------

    @Slot()
    def _go_to_deposit(self) -> None:
        self.parts.go_to(None, "deposit")

    @Slot()
    def _go_back_to_form(self) -> None:
        self.parts.bring(self.parts.form.rush)

    @Slot(str)
    def _row_inspected(self, sentence: str) -> None:
        self.said.emit(sentence)
        self.parts.table.setFocus()

    @Slot(int)
    def _ask_for_format(self, row: int) -> None:
        self.parts.go_to(max(row, 0), "format")
        self.show_failure(NotComplete(say("inspection", "need_format", row=max(row, 0) + 1)))

    @Slot(object)
    def amend(self, number: JobNumber) -> None:
        """Open a booked order again."""
        self._slip.forget_job()
        self.amending.open(number)

    @Slot(object, int, int)
    def _answer(self, question: Question, place: int, tapes: int) -> None:
        """What is asked of a tape in the line can be written into its row once there is one."""
        self.line.take()
        self.tray.answer(question, place, tapes)

    @Slot(str, str)
    def _recalled(self, name: str, phone: str) -> None:
        """The customer was here before: name and number as the shop knows them, in one step to undo."""
        was_in_line = self.line.is_open
        box = replace(self.draft.box, name=name, phone=phone, line=self.line.without_customer())
        self.draft.put(box, say("counter", "undo_name"))
        self.parts.bring(self.parts.line) if was_in_line else self.take_focus()

    @Slot()
    def new_box(self) -> None:
        """Empty the tray; undo brings the old box back."""
        self._slip.forget_job()
        self.tray.start_new()

    # --- signals and keys ----------------------------------------------------------------

    def _connect(self) -> None:
        self._connect_quote()
        self._connect_parts()
        self._connect_booking()
        self._connect_keys()

    def _connect_quote(self) -> None:
        self.draft.changed.connect(self._recompute)
        self.draft.text_changed.connect(self.autosave.save_soon)
        self.draft.line_changed.connect(self._note_unsaved)
        self.line.said.connect(self.said)
        self.line.failed.connect(self.show_failure)
        self.dropped.order_read.connect(self.line.take_box)
        self.dropped.table_dropped.connect(self.line.take_table)
        self.dropped.failed.connect(self.show_failure)
        self.autosave.found.connect(self._restore)
        self.autosave.failed.connect(self.refused)
        self._again_timer.timeout.connect(self._read_shop)
        self._box.day_came.connect(self._recompute_with_day)
        self._slip.quote_written.connect(self._tell_quote)
        self.earlier_day.failed.connect(self.show_failure)

    def _connect_parts(self) -> None:
        parts = self.parts
        self.tray.left.connect(self._go_to_deposit)
        parts.table.went_back.connect(self._go_back_to_form)
        parts.table.cell_reached.connect(self._show_cell_message)
        parts.form.written.connect(self.draft.write_field)
        parts.form.half_typed.connect(self.autosave.save_soon)
        parts.form.went_on.connect(self.take_focus)
        parts.known.taken.connect(self._recalled)
        parts.telling.told_changed.connect(self.draft.write_told)
        parts.asking.answered.connect(self._answer)
        parts.booking_bar.deposit_typed.connect(self.draft.write_deposit)
        parts.ways.chosen.connect(self.draft.write_field)
        parts.booking_bar.next_wanted.connect(self.new_box)
        parts.look_over.clicked.connect(self.inspections.begin_look_over)
        parts.measure.clicked.connect(self.inspections.begin_packs)
        self.inspections.taken.connect(self._row_inspected)
        self.inspections.row_unclear.connect(self._ask_for_format)

    def _connect_booking(self) -> None:
        self.booking.booked.connect(self.job_booked)
        self.booking.said.connect(self.said)
        self.booking.failed.connect(self.show_failure)

    def _connect_keys(self) -> None:
        does: dict[actions.Key, Callable[[], None]] = {
            actions.BOOK: self.booking.book,
            actions.TOLD: self.parts.telling.say_told,
            actions.SIGN: self.booking.have_signed,
            actions.NEW_BOX: self.new_box,
            actions.UNDO: self.tray.undo,
            actions.REDO: self.tray.redo,
            actions.REPEAT: self.tray.repeat,
            actions.REMOVE: self.tray.remove,
            actions.LOOK_OVER: self.inspections.begin_look_over,
            actions.MEASURE: self.inspections.begin_packs,
            actions.HELP_DAY: self.earlier_day.ask,
            actions.LINE: self.line.open,
            actions.FINDINGS: self.tray.go_to_findings,
        }
        for key, do in does.items():
            made = actions.action(key, self)
            made.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            made.triggered.connect(do)
        tray_menu.attach(self.parts.table, self)
