"""Bench: take a tape by its code, see all of it, say what was done, and send it on."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt, QTimer, Signal, Slot
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from core.capture.file_report import CapturedFile
from core.catalogue.next_steps import Around
from core.model.agreement_records import StandingPrice
from core.model.errors import TapewrightError
from core.model.names import TapeCode
from core.model.numbers import CODE_DIGITS, job_of
from core.model.own_shop.settings_records import ShopSettings
from core.model.stations import Station
from core.model.tape_records import JournalEntry, TapeRecord
from core.playtime.habits import ShopHabits
from core.services import deck_queue, decks, decks_to_load, tapes
from core.services.agreement import ceiling_watch
from gui.agreement.price_calls import PriceCalls
from gui.agreement.price_line import StandingPriceLine
from gui.bench import tape_menu
from gui.bench.at_work_list import AtWorkList
from gui.bench.bench_side import BenchSide
from gui.bench.cassette_looks import BenchLooks
from gui.bench.file_reading import FileReader
from gui.bench.file_signing import FileSigning
from gui.bench.free_decks import free_decks
from gui.bench.incident_writing import IncidentWriting
from gui.bench.label_printing import LabelPrinting
from gui.bench.leading_step import LeadingStep
from gui.bench.load_now import LoadNow
from gui.bench.order_copies import OrderCopies
from gui.bench.repairing import BenchRepairs
from gui.bench.tape_card import TapeCard
from gui.bench.tape_steps import TapeSteps, attached_sentence
from gui.copying.copies_at_work import CopiesAtWork
from gui.copying.copies_form import CopiesForm
from gui.toolkit import theme
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.layouts import Columns, scroll_by_page, scrolled, stacked, words
from gui.widgets.named_buttons import name_for_tape

_LOOK_AGAIN_MS = 5 * 60_000
"""What still ends before closing changes with the clock alone."""


class BenchScreen(Screen):
    """One tape in hand at a time; after every move the next scan is expected."""

    name = "Bench"
    kinds = frozenset({"tapes", "jobs", "shop"})
    taken = Signal(object)
    """A `TapeRecord` is in hand now."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.tape: TapeRecord | None = None
        self._fittings: ShopSettings | None = None
        self._taken_decks: frozenset[str] = frozenset()
        self._build()
        self._connect()

    def enter(self) -> None:
        if not self._stale:
            self._ask_what_to_load()
        super().enter()

    def take_focus(self) -> None:
        self.box.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.box.selectAll()

    def bars(self, name: str) -> str:
        return say("commands", "no-tape-in-hand") if self.tape is None else ""

    def refresh(self) -> None:
        self.desk.work.ask(decks.settings, then=self._know_shop)
        self.desk.work.ask(tapes.at_work, then=self._lay_list)
        self._ask_what_to_load()
        if self.tape is not None:
            self._ask_for(self.tape.code, then=self._renew)

    def hear_scan(self, code: str) -> bool:
        if len(code) == CODE_DIGITS:
            self.take(code)
        return len(code) == CODE_DIGITS

    # --- a tape in hand ------------------------------------------------------------------

    @Slot(str)
    def take(self, code: str) -> None:
        """Take the tape with this code from the tray or the scanner."""
        self.box.clear()
        self._ask_for(code, then=self._taken_up)

    @Slot()
    def _box_returned(self) -> None:
        code = "".join(self.box.text().split())
        if code:
            self._ask_for(code, then=self._taken_up)

    def _ask_for(self, code: str, then: Callable[[TapeRecord], None]) -> None:
        self.desk.work.ask(tapes.get, TapeCode(code), then=then, otherwise=partial(self._not_taken, code))

    def _taken_up(self, tape: TapeRecord) -> None:
        """A tape that plays is taken up for its minutes, also when it was in hand already."""
        self._in_hand(tape)
        if self.box.hasFocus():
            self.box.clear()
            self._focus_on(tape)

    def _not_taken(self, code: str, failure: TapewrightError) -> None:
        self.box.setText(code)
        self.take_focus()
        self.show_failure(failure)

    def _in_hand(self, tape: TapeRecord) -> None:
        same = self.tape is not None and self.tape.code == tape.code and self.tape.station is tape.station
        self.tape = tape
        self.desk.work.ask(tapes.history, tape.code, then=partial(self._show_card, tape))
        fitted = self._fittings.decks if self._fittings is not None else ()
        wants_file = self._fittings is not None and self._fittings.file_for_ready
        around = Around(self.desk.clock(), wants_file=wants_file)
        self.side.offer(tape, free_decks(fitted, self._taken_decks, tape), around)
        if tape.station is Station.PLAYING:
            self.desk.work.ask(deck_queue.habits_of_tape, tape.code, then=partial(self._know_box, tape))
        self.desk.work.ask(ceiling_watch.standing, job_of(tape.code), then=partial(self._know_price, tape))
        self.reading.hold(tape.code)
        self.steps.hold(tape)
        self.looks.hold(tape)
        self.repairing.hold(tape)
        self.incidents.hold(tape)
        self.copies.hold(tape)
        self.signing.hold(tape)
        if not same:
            self.box.clear()
            self.side.rest()
            self._focus_on(tape)
        name_for_tape(self.side, tape.code)
        self.taken.emit(tape)

    def _renew(self, tape: TapeRecord) -> None:
        """The records changed; while the tape in hand did not, what is typed about it stays."""
        if tape != self.tape or not self.side.moves.is_begun:
            self._in_hand(tape)

    def _know_box(self, tape: TapeRecord, believed: ShopHabits) -> None:
        if self.tape is tape:
            self.side.moves.readout.know(believed)

    def _know_price(self, tape: TapeRecord, standing: StandingPrice) -> None:
        if self.tape is tape:
            self.price.tell(standing)
            self.side.moves.know(is_over=standing.over_minor > 0)

    def _focus_on(self, tape: TapeRecord) -> None:
        if tape.station is Station.PLAYING:
            self.side.moves.minutes.setFocus()
        else:
            self.take_focus()

    def _show_card(self, tape: TapeRecord, history: tuple[JournalEntry, ...]) -> None:
        if self.tape is tape:
            self.card.show_tape(tape, history, self.desk.clock())

    # --- what is done to it --------------------------------------------------------------

    @Slot(object, str)
    def _moved(self, tape: TapeRecord, sentence: str) -> None:
        self._in_hand(tape)
        self.take_focus()
        self.said.emit(sentence)

    @Slot(str)
    def _answered(self, sentence: str) -> None:
        """The customer answered: the tape in hand may be elsewhere now."""
        if self.tape is not None:
            self._ask_for(self.tape.code, then=self._in_hand)
        self.take_focus()
        self.said.emit(sentence)

    @Slot(object, str)
    def _found(self, tape: TapeRecord, sentence: str) -> None:
        self._in_hand(tape)
        self.side.begin_finding()
        self.said.emit(sentence)

    @Slot(object)
    def _attached(self, file: CapturedFile) -> None:
        if self.tape is None or self.tape.code != file.tape:
            return
        self.side.rest()
        self.take_focus()
        self.said.emit(attached_sentence(file.report, self.tape))

    @Slot(object, str)
    def _kept(self, tape: TapeRecord, sentence: str) -> None:
        """Something was kept; the next scan is expected."""
        self._in_hand(tape)
        self.side.rest()
        self.take_focus()
        self.said.emit(sentence)

    @Slot()
    def _print_label(self) -> None:
        if self.tape is not None and self._fittings is not None:
            self.printing.print_label(self.tape, self._fittings.front)

    # --- the tray ------------------------------------------------------------------------

    def _know_shop(self, settings: ShopSettings) -> None:
        self._fittings = settings
        self.card.timezone = settings.front.timezone

    @Slot()
    def _ask_what_to_load(self) -> None:
        self.desk.work.ask(decks_to_load.read, then=self.load_now.tell)

    def _lay_list(self, at_work: tuple[TapeRecord, ...]) -> None:
        self._taken_decks = frozenset(tape.deck for tape in at_work if tape.deck)
        self.at_work.lay(at_work, self.desk.clock())

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        self.box = QLineEdit()
        self.box.setObjectName("code")
        self.box.setPlaceholderText(say("bench", "ask_hint"))
        self.box.setFont(theme.font(theme.LEAD))
        self.box.setMinimumHeight(5 * theme.UNIT)
        self.load_now = LoadNow(self)
        self.at_work = AtWorkList(self.load_now)
        self.list = self.at_work.tray
        self.card = TapeCard("UTC")
        self.side = BenchSide()
        self.steps = TapeSteps(self.side.moves, self.desk.work, self)
        self.printing = LabelPrinting(self.desk, self)
        self.reading = FileReader(self.side.file, self.desk.work, self)
        self.signing = FileSigning(self.side, self.desk, self)
        self.looks = BenchLooks(self.desk.work, self)
        self.repairing = BenchRepairs(self.side, self.desk.work, self)
        self.incidents = IncidentWriting(self.side.incident, self.desk, self)
        self._look_again = QTimer(self)
        self._look_again.setInterval(_LOOK_AGAIN_MS)
        outer = stacked(self)
        self.price = StandingPriceLine()
        LeadingStep(self.side, self.price, self)
        self.calls = PriceCalls(self.desk.work, self)
        form = CopiesForm(self)
        at_work = CopiesAtWork(self.desk, form, PriceCalls(self.desk.work, form))
        self.copies = OrderCopies(self.price, self.desk, at_work)
        outer.addLayout(self._head())
        outer.addWidget(self.box)
        columns = Columns(fold_below=112 * theme.UNIT)
        columns.add(self.at_work, 4)
        self.card_area = scrolled(self.card)
        columns.add(self.card_area, 6, rank=2)
        columns.add(self.side, 4, rank=1)
        outer.addWidget(columns, 1)

    def _head(self) -> QHBoxLayout:
        """What belongs into the box, and beside it what the order of the tape in hand comes to."""
        asked = words(say("bench", "ask"), "field", wrap=False)
        asked.setBuddy(self.box)
        self.box.setAccessibleName(say("bench", "ask"))
        head = QHBoxLayout()
        head.setSpacing(3 * theme.UNIT)
        head.addWidget(asked)
        head.addWidget(self.price, 1)
        head.addWidget(self.copies.button)
        return head

    def _connect(self) -> None:
        self.box.returnPressed.connect(self._box_returned)
        tape_menu.attach(self.list, self.side, self.wants_moment)
        self.list.taken.connect(self.take)
        self.load_now.taken.connect(self.take)
        self._look_again.timeout.connect(self._ask_what_to_load)
        self.side.moves.wanted.connect(self.steps.move)
        self.side.found.connect(self.steps.find)
        self.side.wants_label.connect(self._print_label)
        self.side.refused.connect(self.refused)
        self.steps.moved.connect(self._moved)
        self.steps.found.connect(self._found)
        self.side.became.wanted.connect(self.steps.settle)
        self.steps.settled.connect(self._kept)
        self.incidents.kept.connect(self._kept)
        self.signing.kept.connect(self._kept)
        self.signing.failed.connect(self.show_failure)
        self.incidents.told.connect(self.said)
        self.incidents.failed.connect(self.show_failure)
        self.steps.failed.connect(self.show_failure)
        self.printing.printed.connect(self.said)
        self.printing.failed.connect(self.show_failure)
        self.reading.attached.connect(self._attached)
        self.reading.failed.connect(self.show_failure)
        self.side.look_wanted.connect(self.looks.begin_look_over)
        self.side.packs_wanted.connect(self.looks.begin_packs)
        self.looks.kept.connect(self._kept)
        self.looks.failed.connect(self.show_failure)
        self.repairing.kept.connect(self._kept)
        self.repairing.files_known.connect(self.card.know_files)
        self.repairing.failed.connect(self.show_failure)
        self.side.rested.connect(self.take_focus)
        self.side.moves.seen.connect(self.steps.see)
        self.price.card_wanted.connect(self.calls.begin)
        self.calls.answered.connect(self._answered)
        self.calls.failed.connect(self.show_failure)
        self.copies.kept.connect(self._answered)
        self.copies.failed.connect(self.show_failure)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not scroll_by_page(self.card_area, event):
            super().keyPressEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._look_again.start()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._look_again.stop()
