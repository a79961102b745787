"""Bench: take a tape by its code, see all of it, say what was done, and send it on."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QLineEdit, QWidget

from core import bench, decks, tapes
from core.errors import TapewrightError
from core.names import Finding, TapeCode
from core.records import Fittings, Happening, TapeRecord
from core.stations import Station
from gui import pieces, theme
from gui.desk import Desk
from gui.screens.screen import Screen
from gui.text import say
from gui.widgets.bench_side import BenchSide
from gui.widgets.layouts import Columns, labelled, scrolled, stacked, words
from gui.widgets.scan import ScanWatch
from gui.widgets.spliceform import Joint
from gui.widgets.tapecard import TapeCard, seconds
from gui.widgets.tray import Tray


class Bench(Screen):
    """One tape in hand at a time; after every move the next scan is expected."""

    name = "Bench"
    kinds = frozenset({"tapes", "jobs", "shop"})
    taken = Signal(object)
    """A `TapeRecord` is in hand now."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.tape: TapeRecord | None = None
        self._build()
        self._connect()

    def take_focus(self) -> None:
        self.box.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.box.selectAll()

    def refresh(self) -> None:
        self.desk.work.ask(decks.fittings, then=self._know_shop)
        self.desk.work.ask(tapes.at_work, then=self._lay_list)
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
        self.side.offer(tape)
        if not same:
            self.box.clear()
            self.side.rest()
            self._focus_on(tape)
        self.taken.emit(tape)

    def _focus_on(self, tape: TapeRecord) -> None:
        if tape.station is Station.PLAYING:
            self.side.moves.minutes.setFocus()
        else:
            self.take_focus()

    def _show_card(self, tape: TapeRecord, history: tuple[Happening, ...]) -> None:
        if self.tape is tape:
            self.card.show_tape(tape, history, self.desk.clock())

    # --- what is done to it --------------------------------------------------------------

    @Slot(object)
    def _move(self, station: Station) -> None:
        if self.tape is None:
            return
        self.desk.work.run(
            tapes.move,
            self.tape.code,
            station,
            minutes=self.side.moves.played_minutes(),
            note=self.side.moves.note.text().strip(),
            then=self._moved,
            otherwise=self.show_failure,
        )

    def _moved(self, tape: TapeRecord) -> None:
        self._in_hand(tape)
        self.take_focus()
        self.said.emit(say("bench", "moved", title=pieces.tape_title(tape), station=tape.station.words))

    @Slot(object)
    def _find(self, finding: Finding) -> None:
        if self.tape is None:
            return
        self.desk.work.run(
            bench.find,
            self.tape.code,
            (finding,),
            then=partial(self._found, finding),
            otherwise=self.show_failure,
        )

    def _found(self, finding: Finding, tape: TapeRecord) -> None:
        self._in_hand(tape)
        self.side.begin_finding()
        title = pieces.tape_title(tape)
        self.said.emit(say("bench", "found_said", finding=finding.words.capitalize(), title=title))

    @Slot(object)
    def _splice(self, joint: Joint) -> None:
        if self.tape is None:
            return
        self.desk.work.run(
            bench.splice,
            self.tape.code,
            at_minutes=joint.at_minutes,
            cut_cm=joint.cut_cm,
            joined_with=joint.joined_with,
            then=self._spliced,
            otherwise=self.show_failure,
        )

    def _spliced(self, tape: TapeRecord) -> None:
        self._in_hand(tape)
        self.side.rest()
        self.take_focus()
        self.said.emit(say("bench", "spliced", removed=seconds(tape.splices[-1].seconds_removed)))

    @Slot()
    def _mark(self) -> None:
        if self.tape is not None:
            self.desk.work.run(bench.mark, self.tape.code, then=self._marked, otherwise=self.show_failure)

    def _marked(self, tape: TapeRecord) -> None:
        self._in_hand(tape)
        self.take_focus()
        self.said.emit(say("bench", "marked", title=pieces.tape_title(tape)))

    # --- the tray ------------------------------------------------------------------------

    def _know_shop(self, fittings: Fittings) -> None:
        self.card.timezone = fittings.front.timezone

    def _lay_list(self, at_work: tuple[TapeRecord, ...]) -> None:
        self.list.lay(pieces.by_station(at_work, self.desk.clock()))
        self._list_words.setText(say("bench", "list") if at_work else say("bench", "none_at_work"))

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        self.box = QLineEdit()
        self.box.setObjectName("code")
        self.box.setPlaceholderText(say("bench", "ask_hint"))
        self.box.setFont(theme.font(theme.LEAD))
        self.box.setMinimumHeight(5 * theme.UNIT)
        self.list = Tray("at-work", say("bench", "list"))
        self._list_words = words(say("bench", "list"), "small")
        self.card = TapeCard("UTC")
        self.side = BenchSide()
        self._watch = ScanWatch(self)
        outer = stacked(self)
        outer.addWidget(labelled(self.box, say("bench", "ask")))
        columns = Columns(fold_below=112 * theme.UNIT)
        columns.add(self._build_list(), 4)
        columns.add(scrolled(self.card), 6)
        columns.add(self.side, 4)
        outer.addWidget(columns, 1)

    def _build_list(self) -> QWidget:
        side = QWidget()
        column = stacked(side)
        column.addWidget(self._list_words)
        column.addWidget(self.list, 1)
        return side

    def _connect(self) -> None:
        self.box.returnPressed.connect(self._box_returned)
        self.list.taken.connect(self.take)
        self._watch.scanned.connect(self.take)
        self.side.moves.wanted.connect(self._move)
        self.side.found.connect(self._find)
        self.side.spliced.connect(self._splice)
        self.side.labelled.connect(self._mark)
        self.side.refused.connect(self.refused)
        self.side.rested.connect(self.take_focus)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._watch.begin()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._watch.end()
