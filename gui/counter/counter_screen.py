"""Counter: a box of tapes becomes a slip while the customer watches, and is booked with one key."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Qt, QTimer, Signal, Slot
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from core.model.errors import WrongInput
from core.model.job_records import Job
from core.model.quote_records import Question, Quote
from core.model.typed_draft import TypedBox
from core.services import promises
from core.services.quoting import ShopSnapshot
from gui.counter.booking import Booking
from gui.counter.booking_papers import BookingPapers
from gui.counter.counter_layout import CounterLayout
from gui.counter.draft_history import Draft
from gui.counter.draft_keeping import DraftKeeping
from gui.counter.earlier_day import DayHelp
from gui.counter.live_day import LiveDay
from gui.counter.live_quote import LiveQuote
from gui.counter.row_looks import CounterLooks
from gui.counter.tape_table import Tape
from gui.counter.tray_edits import TrayEdits
from gui.counter.typed_box import TypedReading, read_box, read_row
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
    """The `Quote` on the slip, or None for an empty slip; and whether its day is marked as not its own."""
    job_booked = Signal(object)

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.setObjectName("counter")
        self.draft = Draft(self)
        self.quote: Quote | None = None
        self.job: Job | None = None
        """The job just booked, until the next box is begun."""
        self._live = LiveQuote()
        self._day = LiveDay(desk, self._live, self)
        self._on_slip: Quote | None = None
        self._reading: TypedReading | None = None
        self._answer: tuple[Question, int, int] | None = None
        """An answer that waits for the whole quote of the tapes it was given for."""
        self.papers = BookingPapers(desk, self)
        self.parts = CounterLayout(self, self._today)
        self.help = DayHelp(desk, self.parts.help, self)
        self.looks = CounterLooks(self.draft, self._today, self)
        self.tray = TrayEdits(self.draft, self.parts.table, self)
        self.keeping = DraftKeeping(desk, self._typed, self)
        self._booking = Booking(desk, self.keeping.key, self)
        self._again_timer = QTimer(self, interval=READ_AGAIN_MS)
        self._slip_due = QTimer(self, interval=0, singleShot=True)
        self._connect()
        self._begin_empty()

    def _begin_empty(self) -> None:
        self.parts.taking.show_price(None)
        self.parts.show_talk(None)
        self._recompute()

    # --- what every screen does ----------------------------------------------------------

    def refresh(self) -> None:
        self._read_again()
        self.keeping.restore()

    def enter(self) -> None:
        super().enter()
        self._again_timer.start()

    def leave(self) -> None:
        super().leave()
        self._again_timer.stop()
        self.parts.table.commit()
        self.keeping.now()

    def take_focus(self) -> None:
        self.parts.bring(self.parts.table)

    def _stand_in(self, now: ShopSnapshot) -> None:
        self._live.present = now
        self.parts.slip.show_front(now.fittings.front)
        self._recompute()

    @Slot(object)
    def _restore(self, kept: TypedBox) -> None:
        if self.draft.box.is_empty:
            self.draft.begin(kept)
            self.said.emit(say("counter", "restored"))

    @Slot()
    def _read_again(self) -> None:
        self.desk.work.ask(promises.snapshot, then=self._stand_in)

    def _today(self) -> date:
        present_now = self._live.present
        return present_now.today if present_now is not None else self.desk.clock().date()

    def _typed(self) -> TypedBox:
        return self.parts.form.with_half_typed(self.draft.shown)

    @property
    def has_its_day(self) -> bool:
        """Whether the day on show belongs to the tapes on show; else it is being worked out."""
        return self._live.is_settled

    # --- the quote, at every key ---------------------------------------------------------

    @Slot()
    def _recompute(self) -> None:
        box = self.draft.shown
        self._reading = read_box(box, self._today())
        self.quote, failure = self._live.of(self._reading.inventory, self.desk.clock())
        self._day.keep_up()
        self._show_rows(box, self._reading)
        self._show_quote(failure)
        self.parts.form.show_box(self.draft.box, self._reading)
        self.unsaved_changed.emit(not self.draft.box.is_empty)

    @Slot()
    def _show_whole_quote(self) -> None:
        """The day was worked out; an answer that waited for the questions of these tapes is taken now."""
        self._recompute()
        waiting, self._answer = self._answer, None
        if waiting is not None:
            self._take_answer(*waiting)

    @Slot()
    def _mark_day(self) -> None:
        if self.quote is not None and self.job is None:
            self.parts.slip.mark_day(True)
            self.quote_changed.emit(self.quote, True)

    def _show_rows(self, box: TypedBox, reading: TypedReading) -> None:
        first = {}
        if self.quote is not None:
            first = {reading.places[tape.line - 1]: tape for tape in self.quote.tapes if tape.n == 1}
        self.parts.rows.show(
            [Tape(row, read_row(row, box.tv), first.get(place)) for place, row in enumerate(box.rows)]
        )

    def _show_quote(self, failure: WrongInput | None) -> None:
        quote, parts = self.quote, self.parts
        if quote is None and self.job is not None and self.draft.shown.is_empty:
            return
        parts.show_message(self._reading, failure)
        said = self.draft.box
        parts.taking.show_price(quote.price if quote else None, said.deposit)
        parts.show_talk(quote, self._rows_of_questions(), said.told)
        if self.job is None and quote is self._on_slip:
            return
        self.job = None
        self.help.forget()
        self._slip_due.start()

    @property
    def slip_is_written(self) -> bool:
        """Whether the slip shows the quote of what is typed."""
        return not self._slip_due.isActive()

    @Slot()
    def _write_slip(self) -> None:
        """After the echo of the key, so that both together do not keep the window from the next one."""
        quote = self.quote
        if self.job is not None or quote is self._on_slip:
            return
        self._on_slip = quote
        if quote is None:
            self.parts.slip.show_nothing()
        else:
            self.parts.slip.show_quote(quote, is_late=self._day.is_late)
        self.quote_changed.emit(quote, self._day.is_late)

    def _rows_of_questions(self) -> list[int]:
        if self.quote is None or self._reading is None:
            return []
        return [self._reading.places[question.line - 1] + 1 for question in self.quote.questions]

    @Slot()
    def _say_where(self) -> None:
        self.parts.show_message(self._reading, None)

    # --- the tray ------------------------------------------------------------------------

    @Slot()
    def _go_on_below(self) -> None:
        if self.draft.box.rows[-1].is_empty and len(self.draft.box.rows) > 1:
            self._leave_tray()
        else:
            self.tray.add()

    @Slot()
    def _leave_tray(self) -> None:
        self.parts.bring(self.parts.taking.deposit)

    @Slot()
    def _back_to_form(self) -> None:
        self.parts.bring(self.parts.form.rush)

    @Slot(object, int, int)
    def _take_answer(self, question: Question, place: int, tapes: int) -> None:
        assert self._reading is not None
        self.parts.table.commit()
        if not self._live.is_settled:
            self._answer = (question, place, tapes)
            return
        if self.quote is None or question not in self.quote.questions:
            return
        row = self._reading.places[question.line - 1]
        self.tray.answer(row, question.answers[place].draft, tapes)

    @Slot(object)
    def _note_told(self, said: tuple[str, ...]) -> None:
        self.draft.write_field("told", said)

    @Slot(str)
    def _note_deposit(self, typed: str) -> None:
        self.draft.write_field("deposit", typed)

    @Slot()
    def look_over(self) -> None:
        """A quick guided look at the tapes of the current row."""
        self.looks.begin_look_over(self.tray.row)

    @Slot()
    def measure_packs(self) -> None:
        """Read the packs of a tape of the current row through its window."""
        self.looks.begin_packs(self.tray.row)

    @Slot(int, str)
    def _took_look(self, row: int, sentence: str) -> None:
        self.said.emit(sentence)
        self.parts.table.setFocus()

    @Slot(int)
    def _name_format_first(self, row: int) -> None:
        self.parts.go_to(max(row, 0), "format")
        self.show_failure(_Said(say("inspection", "need_format", row=max(row, 0) + 1)))

    @Slot()
    def what_would_help(self) -> None:
        """What would bring the day forward, in three lines under the slip."""
        self.parts.table.commit()
        if self.quote is None or self._reading is None:
            self.parts.go_to(0, "count")
            self.show_failure(_Said(say("counter", "need_tape")))
            return
        self.help.ask(self._reading.inventory)

    @Slot()
    def new_box(self) -> None:
        """An empty tray; undo brings the old one back."""
        self.parts.table.commit()
        self.job = None
        self.draft.start_new()
        self._recompute()
        self.parts.table.setFocus()
        self.parts.table.put_cursor(0, 0)

    # --- booking -------------------------------------------------------------------------

    @Slot()
    def book(self) -> None:
        """Book the box, or say what stands in the way and go there."""
        self.parts.table.commit()
        self.parts.form.settle()
        if self._booking.is_under_way:
            return
        try:
            deposit = self._ready_to_book()
        except WrongInput as failure:
            self.show_failure(failure)
            return
        assert self._reading is not None
        assert self._live.present is not None
        self.keeping.now()
        self._booking.begin(self.draft.box, self._live.present, self._reading.inventory, deposit)

    def _ready_to_book(self) -> int:
        """The deposit; WrongInput, with the keyboard put where it belongs, when something is missing."""
        assert self._reading is not None
        for row, column, sentence in self._reading.wrong:
            self.parts.go_to(row, column)
            raise _Said(sentence if row is None else say("counter", "row", row=row + 1, sentence=sentence))
        if self.quote is None:
            self.parts.go_to(0, "count")
            raise _Said(say("counter", "need_tape"))
        if self._reading.inventory.customer is None:
            self.parts.go_to(None, "name")
            raise _Said(say("counter", "need_name"))
        if not self.parts.telling.is_settled:
            self.parts.bring(self.parts.telling.told)
            raise _Said(say("counter", "need_told"))
        return self._deposit()

    def _deposit(self) -> int:
        try:
            return self.parts.taking.deposit_minor()
        except WrongInput:
            self.parts.bring(self.parts.taking.deposit)
            raise

    @Slot(object, object)
    def _was_booked(self, job: Job, booked: TypedBox) -> None:
        self.job = job
        if self.draft.box is booked:
            self.draft.begin(TypedBox())
            self.parts.table.put_cursor(0, 0)
        self._show_booked(job)
        self.job_booked.emit(job)
        count = say("counter", "tapes_count", count=len(job.tapes))
        self.said.emit(say("counter", "booked", number=job.number, tapes=count, name=job.customer.name))
        assert self._live.present is not None
        self.papers.write(job, self._live.present.fittings.front)

    def _show_booked(self, job: Job) -> None:
        self.parts.slip.show_job(job)
        self.parts.taking.show_booked()
        self.parts.show_talk(None)
        self.parts.bring(self.parts.taking.next)

    # --- wiring --------------------------------------------------------------------------

    def _connect(self) -> None:
        self._connect_quote()
        self._connect_tray()
        self._connect_talk()
        self._connect_till()
        for key, do in (
            (actions.BOOK, self.book),
            (actions.NEW_BOX, self.new_box),
            (actions.UNDO, self.tray.undo),
            (actions.REDO, self.tray.redo),
            (actions.REPEAT, self.tray.repeat),
            (actions.REMOVE, self.tray.remove),
            (actions.LOOK_OVER, self.look_over),
            (actions.MEASURE, self.measure_packs),
            (actions.HELP_DAY, self.what_would_help),
        ):
            self._on_key(key, do)

    def _connect_quote(self) -> None:
        self.draft.changed.connect(self._recompute)
        self.draft.kept.connect(self.keeping.soon)
        self.parts.form.half_typed.connect(self.keeping.soon)
        self.keeping.found.connect(self._restore)
        self._again_timer.timeout.connect(self._read_again)
        self._slip_due.timeout.connect(self._write_slip)
        self._day.came.connect(self._show_whole_quote)
        self._day.was_late.connect(self._mark_day)

    def _connect_tray(self) -> None:
        rows, table = self.parts.rows, self.parts.table
        rows.written.connect(self.draft.write)
        table.cells.typed.connect(self.draft.half_type)
        table.cells.closeEditor.connect(self.draft.drop_half_typed)
        table.row_wanted.connect(self._go_on_below)
        table.row_cleared.connect(self.tray.clear_cell)
        table.went_on.connect(self._leave_tray)
        table.went_back.connect(self._back_to_form)
        table.cell_reached.connect(self._say_where)

    def _connect_talk(self) -> None:
        parts = self.parts
        parts.form.written.connect(self.draft.write_field)
        parts.form.went_on.connect(self.take_focus)
        parts.telling.told_changed.connect(self._note_told)
        parts.asking.answered.connect(self._take_answer)
        parts.look_over.clicked.connect(self.look_over)
        parts.measure.clicked.connect(self.measure_packs)
        self.looks.taken.connect(self._took_look)
        self.looks.row_unclear.connect(self._name_format_first)
        self.help.failed.connect(self.show_failure)

    def _connect_till(self) -> None:
        taking = self.parts.taking
        taking.deposit_typed.connect(self._note_deposit)
        taking.book_wanted.connect(self.book)
        taking.next_wanted.connect(self.new_box)
        taking.slip_wanted.connect(self.papers.show_claim_slip)
        taking.labels_wanted.connect(self.papers.show_labels)
        self._booking.booked.connect(self._was_booked)
        self._booking.failed.connect(self.show_failure)
        self.papers.written.connect(taking.show_papers)
        self.papers.failed.connect(self.show_failure)

    def _on_key(self, key: actions.Key, do: Callable[[], None]) -> QAction:
        made = actions.action(key, self)
        made.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        made.triggered.connect(do)
        return made


class _Said(WrongInput):
    """A sentence that already says it all."""

    def __init__(self, sentence: str) -> None:
        super().__init__("the Counter", "", sentence)
        self.sentence = sentence
