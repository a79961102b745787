"""Bench: take a tape by its code, see all of it, say what was done, and send it on."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt, QTimer, Signal, Slot
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from core.capture.file_report import CapturedFile
from core.model.errors import TapewrightError
from core.model.job_records import Job
from core.model.names import Finding, JobNumber, TapeCode
from core.model.settings_records import ShopSettings
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import JournalEntry, TapeRecord
from core.playtime.habits import ShopHabits
from core.scheduling.deck_choice import suited
from core.services import deck_queue, decks, decks_to_load, jobs, repair_record, tapes
from gui.bench.bench_side import BenchSide
from gui.bench.cassette_looks import BenchLooks
from gui.bench.file_reading import FileReader
from gui.bench.load_now import LoadNow
from gui.bench.repairing import BenchRepairs
from gui.bench.tape_card import TapeCard
from gui.toolkit import paper_errands, theme
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say, sentence_case
from gui.widgets import tray_rows
from gui.widgets.layouts import Columns, labelled, scroll_by_page, scrolled, stacked, words
from gui.widgets.scanner import ScanWatch
from gui.widgets.tray import Tray

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

    def refresh(self) -> None:
        self.desk.work.ask(decks.settings, then=self._know_shop)
        self.desk.work.ask(tapes.at_work, then=self._lay_list)
        self._ask_what_to_load()
        if self.tape is not None:
            self._take(self.tape.code)

    # --- a tape in hand ------------------------------------------------------------------

    @Slot(str)
    def take(self, code: str) -> None:
        """Take the tape with this code from the tray or the scanner."""
        self.box.clear()
        self._take(code)

    @Slot()
    def _box_returned(self) -> None:
        code = "".join(self.box.text().split())
        if code:
            self._take(code)

    def _take(self, code: str) -> None:
        self.desk.work.ask(
            tapes.get, TapeCode(code), then=self._in_hand, otherwise=partial(self._not_taken, code)
        )

    def _not_taken(self, code: str, failure: TapewrightError) -> None:
        self.box.setText(code)
        self.take_focus()
        self.show_failure(failure)

    def _in_hand(self, tape: TapeRecord) -> None:
        same = self.tape is not None and self.tape.code == tape.code and self.tape.station is tape.station
        self.tape = tape
        self.desk.work.ask(tapes.history, tape.code, then=partial(self._show_card, tape))
        self.side.offer(tape, self._free_decks(tape))
        if tape.station is Station.PLAYING:
            self.desk.work.ask(deck_queue.habits_of_tape, tape.code, then=partial(self._know_box, tape))
        self.reading.hold(tape.code)
        self.looks.hold(tape)
        self.repairing.hold(tape)
        if not same:
            self.box.clear()
            self.side.rest()
            self._focus_on(tape)
        self.taken.emit(tape)

    def _know_box(self, tape: TapeRecord, believed: ShopHabits) -> None:
        if self.tape is tape:
            self.side.moves.readout.know(believed)

    def _focus_on(self, tape: TapeRecord) -> None:
        if tape.station is Station.PLAYING:
            self.side.moves.minutes.setFocus()
        else:
            self.take_focus()

    def _show_card(self, tape: TapeRecord, history: tuple[JournalEntry, ...]) -> None:
        if self.tape is tape:
            self.card.show_tape(tape, history, self.desk.clock())

    # --- what is done to it --------------------------------------------------------------

    def _do(
        self, step: Callable[..., TapeRecord], *args: Any, then: Callable[[TapeRecord], None], **named: Any
    ) -> None:
        """Run one step on the tape in hand."""
        if self.tape is not None:
            code = self.tape.code
            self.desk.work.run(step, code, *args, then=then, otherwise=self.show_failure, **named)

    @Slot(object)
    def _move(self, station: Station) -> None:
        moves = self.side.moves
        self._do(
            tapes.move,
            station,
            minutes=moves.played_minutes(),
            shown=moves.shown(),
            note=moves.note.text().strip(),
            deck=moves.deck_for(station),
            without_splice=moves.instead_of_splice,
            counts_as_look=False,
            then=self._moved,
        )

    def _moved(self, tape: TapeRecord) -> None:
        self._in_hand(tape)
        self.take_focus()
        self.said.emit(say("bench", "moved", title=tray_rows.tape_title(tape), station=spoken(tape.station)))

    @Slot(object)
    def _find(self, finding: Finding) -> None:
        self._do(repair_record.find, (finding,), then=partial(self._found, finding))

    def _found(self, finding: Finding, tape: TapeRecord) -> None:
        self._in_hand(tape)
        self.side.begin_finding()
        title = tray_rows.tape_title(tape)
        self.said.emit(say("bench", "found_said", finding=sentence_case(spoken(finding)), title=title))

    @Slot(object)
    def _attached(self, file: CapturedFile) -> None:
        if self.tape is None or self.tape.code != file.tape:
            return
        report, title = file.report, tray_rows.tape_title(self.tape)
        self.side.rest()
        self.take_focus()
        minutes = f"{report.billable_minutes:.1f}"
        key = "attached" if report.billable_minutes else "attached_blank"
        self.said.emit(say("capture", key, name=report.name, title=title, minutes=minutes))

    @Slot(object, str)
    def _kept(self, tape: TapeRecord, sentence: str) -> None:
        self._settle(tape)
        self.said.emit(sentence)

    def _settle(self, tape: TapeRecord) -> None:
        """Something was kept; the next scan is expected."""
        self._in_hand(tape)
        self.side.rest()
        self.take_focus()

    @Slot()
    def _print_label(self) -> None:
        if self.tape is not None:
            self.desk.work.ask(jobs.get, JobNumber(self.tape.code[:6]), then=partial(self._print, self.tape))

    def _print(self, tape: TapeRecord, job: Job) -> None:
        if self._fittings is None:
            return
        self.desk.work.write_paper(
            paper_errands.writing_mark(job, tape, self._fittings.front, self.desk.papers),
            then=self._printed,
            otherwise=self.show_failure,
        )

    def _printed(self, path: Path) -> None:
        self.said.emit(say("bench", "printed", path=path))
        self.desk.show_file(path)

    # --- the tray ------------------------------------------------------------------------

    def _know_shop(self, fittings: ShopSettings) -> None:
        self._fittings = fittings
        self.card.timezone = fittings.front.timezone

    def _free_decks(self, tape: TapeRecord) -> tuple[str, ...]:
        """Decks in service that could play this tape and have none in them."""
        if self._fittings is None:
            return ()
        fitted, draft = self._fittings.decks, tape.draft
        could = suited(fitted, draft.format, draft.recorded_as, draft.tv, draft.speed).decks
        names = (fitted[place].name for place in could)
        return tuple(name for name in names if name not in self._taken_decks)

    @Slot()
    def _ask_what_to_load(self) -> None:
        self.desk.work.ask(decks_to_load.read, then=self.load_now.tell)

    def _lay_list(self, at_work: tuple[TapeRecord, ...]) -> None:
        self._taken_decks = frozenset(tape.deck for tape in at_work if tape.deck)
        self.list.lay(tray_rows.by_station(at_work, self.desk.clock()))
        self._list_words.setText(say("bench", "list") if at_work else say("bench", "none_at_work"))

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        self.box = QLineEdit()
        self.box.setObjectName("code")
        self.box.setPlaceholderText(say("bench", "ask_hint"))
        self.box.setFont(theme.font(theme.LEAD))
        self.box.setMinimumHeight(5 * theme.UNIT)
        self.load_now = LoadNow(self)
        self.list = Tray("at-work", say("bench", "list"))
        self._list_words = words(say("bench", "list"), "small")
        self.card = TapeCard("UTC")
        self.side = BenchSide()
        self.reading = FileReader(self.side.file, self.desk.work, self)
        self.looks = BenchLooks(self.desk.work, self)
        self.repairing = BenchRepairs(self.side, self.desk.work, self)
        self._watch = ScanWatch(self)
        self._look_again = QTimer(self)
        self._look_again.setInterval(_LOOK_AGAIN_MS)
        outer = stacked(self)
        outer.addWidget(labelled(self.box, say("bench", "ask")))
        columns = Columns(fold_below=112 * theme.UNIT)
        columns.add(self._build_list(), 4)
        self.card_area = scrolled(self.card)
        columns.add(self.card_area, 6, rank=2)
        columns.add(self.side, 4, rank=1)
        outer.addWidget(columns, 1)

    def _build_list(self) -> QWidget:
        side = QWidget()
        column = stacked(side)
        column.addWidget(self.load_now)
        column.addWidget(self._list_words)
        column.addWidget(self.list, 1)
        return side

    def _connect(self) -> None:
        self.box.returnPressed.connect(self._box_returned)
        self.list.taken.connect(self.take)
        self.load_now.taken.connect(self.take)
        self._look_again.timeout.connect(self._ask_what_to_load)
        self._watch.scanned.connect(self.take)
        self.side.moves.wanted.connect(self._move)
        self.side.found.connect(self._find)
        self.side.wants_label.connect(self._print_label)
        self.side.refused.connect(self.refused)
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

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not scroll_by_page(self.card_area, event):
            super().keyPressEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._watch.begin()
        self._look_again.start()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._watch.end()
        self._look_again.stop()
