"""Pickup: every tape counted back one by one, the customer told, the balance paid, the receipt signed."""

from __future__ import annotations

from functools import partial
from pathlib import Path
from uuid import uuid4

from PySide6.QtCore import QEvent, QObject, Qt, Slot
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QLabel, QLineEdit, QPushButton, QWidget

from core.capture.file_report import CapturedFile
from core.model.errors import Refused, TapewrightError
from core.model.job_records import CallerMatch, Job
from core.model.names import CommandId, JobNumber
from core.model.pickup_records import Pickup as Handed
from core.model.quote_records import Price
from core.model.settings_records import ShopSettings
from core.model.tape_records import TapeRecord
from core.services import calls, decks, jobs, pickups, recordings, repair_record
from gui.pickup import farewell
from gui.pickup.check_off import Checkoff
from gui.pickup.hand_over import Handover
from gui.pickup.payments_form import Till
from gui.toolkit import paper_errands, theme
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets import tray_rows
from gui.widgets.layouts import Columns, give_key, labelled, scrolled, stacked, words
from gui.widgets.scanner import CODE_LENGTH, ScanWatch
from gui.widgets.tray import Tray, TrayItem


class PickupScreen(Screen):
    """One job at a time: found, checked off, said, paid, signed, handed back."""

    name = "Pickup"
    kinds = frozenset({"jobs", "tapes", "shop"})

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.list: Checkoff | None = None
        self._fittings: ShopSettings | None = None
        self._found: tuple[CallerMatch, ...] = ()
        self._files: tuple[CapturedFile, ...] = ()
        self._command = CommandId("")
        self._handing_back = False
        self._build()
        self._connect()
        self._put_back()

    def take_focus(self) -> None:
        self.box.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.box.selectAll()

    def refresh(self) -> None:
        self.desk.work.ask(decks.fittings, then=self._know_shop)
        if self.list is not None:
            self._read(self.list.job.number)

    # --- finding the job -----------------------------------------------------------------

    @Slot()
    def _box_returned(self) -> None:
        text = self.box.text().strip()
        code = "".join(text.split())
        if not text:
            return
        if self.list is not None and code.isdecimal() and len(code) == CODE_LENGTH:
            self.scan(code)
        else:
            self.desk.work.ask(
                calls.status, text, then=partial(self._answered, text), otherwise=self.show_failure
            )

    def _answered(self, text: str, found: tuple[CallerMatch, ...]) -> None:
        if len(found) == 1:
            self._begin(found[0].job, text)
            return
        if not found:
            self.show_failure(Refused(say("pickup", "none_found", text=text)))
            self.box.selectAll()
            return
        self._put_back()
        self._found = found
        self.tray.lay([tray_rows.found_piece(one) for one in found])
        self._count.setText(say("pickup", "choose", count=len(found)))
        self.tray.setFocus()

    def _begin(self, job: Job, text: str = "") -> None:
        self._found = ()
        self.list = Checkoff(job)
        self._command = CommandId(uuid4().hex)
        self.handover.begin(job)
        self._files = ()
        self._show_job()
        self._look_at_price(job)
        self._look_for_files(job.number)
        self.box.clear()
        self._scanned_already(text)
        self.take_focus()

    def _scanned_already(self, text: str) -> None:
        """A tape that led to its job lies on the counter already."""
        code = "".join(text.split())
        if self.list is not None and self.list.is_open(code):
            self._change(self.list.scan(code))

    def _read(self, number: JobNumber) -> None:
        self.desk.work.ask(jobs.get, number, then=self._renew)

    def _renew(self, job: Job) -> None:
        if self.list is not None and self.list.job.number == job.number:
            self._change(self.list.renewed(job))
            self._look_at_price(job)
            self._look_for_files(job.number)

    def _look_at_price(self, job: Job) -> None:
        self.desk.work.ask(jobs.reprice, job.number, then=partial(self._reckon, job))

    def _reckon(self, job: Job, price: Price) -> None:
        if self.list is not None and self.list.job is job:
            self.handover.reckon(price, job.paid_minor)

    def _put_back(self) -> None:
        """No job in hand."""
        self.list = None
        self._found = ()
        self.tray.lay([])
        self._count.setText(say("pickup", "start"))
        self._ask_words.setText(say("pickup", "ask"))
        self.box.setPlaceholderText(say("pickup", "ask_hint"))
        self.box.clear()
        self.handover_area.hide()
        self.label_side.hide()
        for widget in (self.again, self.files_button):
            widget.hide()
        self.till.hold(None)

    # --- checking off --------------------------------------------------------------------

    @Slot(str)
    def scan(self, code: str) -> None:
        """A tape of the job in hand, or the tape that leads to a job."""
        self.box.clear()
        if self.list is None:
            self.box.setText(code)
            self._box_returned()
            return
        try:
            self._change(self.list.scan(code))
        except TapewrightError as failure:
            self.show_failure(failure)
            return
        self.tray.stand_on(code)

    @Slot(str)
    def _toggle(self, key: str) -> None:
        if self.list is not None:
            self._change(self.list.toggle(key))
            self.tray.step(1)

    @Slot(str)
    def _take(self, key: str) -> None:
        chosen = next((one for one in self._found if one.job.number == key), None)
        if chosen is not None:
            self._begin(chosen.job)
        else:
            self._toggle(key)

    def _change(self, checkoff: Checkoff) -> None:
        self.list = checkoff
        self._show_job()

    def _show_job(self) -> None:
        checkoff = self.list
        assert checkoff is not None
        self._ask_words.setText(say("pickup", "ask_scan"))
        self.box.setPlaceholderText(say("pickup", "ask_scan_hint"))
        self.tray.lay(self._pieces(checkoff))
        all_open = len(checkoff.open_keys)
        counted = say("pickup", "counted", checked=len(checkoff.keys), all=all_open)
        self._count.setText(counted if all_open else say("pickup", "gone_home"))
        self.handover.tell(checkoff.to_tell)
        self.handover.name_what(checkoff.words)
        self.handover_area.show()
        self.again.setVisible(checkoff.has_gone)
        self.till.hold(checkoff.job)
        self.files_button.setVisible(bool(self._files))
        self._ask_for_label()

    def _pieces(self, checkoff: Checkoff) -> list[TrayItem]:
        now, job = self.desk.clock(), checkoff.job
        laid = [TrayItem("", say("pickup", "tapes_head"))]
        laid += [tray_rows.tape_piece(tape, now, checkoff.checked(tape.code)) for tape in job.tapes]
        if job.copies:
            laid.append(TrayItem("", say("pickup", "copies_head")))
        laid += tray_rows.copy_pieces(job.copies, checkoff.checked)
        return laid

    # --- the label -----------------------------------------------------------------------

    def _label_at_hand(self) -> TapeRecord | None:
        """The tape whose label is to be seen to next: where the keyboard stands, else the first that goes.

        A missing label comes first; nothing leaves without it, while one that is astray only has to come off.
        """
        if self.list is None:
            return None
        going = [tape for tape in self.list.job.tapes if self.list.is_open(tape.code)]
        wanting = farewell.unmarked(going) or farewell.astray(going)
        here = [tape for tape in wanting if tape.code == self.tray.current]
        return (*here, *wanting)[0] if wanting else None

    @Slot()
    def _ask_for_label(self) -> None:
        tape = self._label_at_hand()
        self.label_side.setVisible(tape is not None)
        if tape is not None:
            title = f"{tray_rows.tape_title(tape)} ({tray_rows.spaced(tape.code)})"
            key = "label_astray" if tape.label_astray else "label_missing"
            self._label_words.setText(say("pickup", key, title=title))
            room, key = ("repair", "label_off") if tape.label_astray else ("pickup", "label_button")
            self.label_button.setText(say(room, key))

    @Slot()
    def _mark(self) -> None:
        tape = self._label_at_hand()
        if tape is not None:
            step = repair_record.take_label_off if tape.label_astray else repair_record.mark
            then = self._label_is_off if tape.label_astray else self._marked
            self.desk.work.run(step, tape.code, then=then, otherwise=self.show_failure)

    def _marked(self, tape: TapeRecord) -> None:
        self.said.emit(say("pickup", "labelled", title=tray_rows.tape_title(tape)))

    def _label_is_off(self, tape: TapeRecord) -> None:
        self.said.emit(say("repair", "label_off_said", title=tray_rows.tape_title(tape)))

    # --- handing back --------------------------------------------------------------------

    @Slot()
    def _hand_back(self) -> None:
        checkoff = self.list
        if checkoff is None or self._handing_back:
            return
        try:
            if not checkoff.words and checkoff.open_keys:
                raise Refused(say("pickup", "nothing_checked"))
            signature, paid = self.handover.signature(), self.handover.paid.minor()
        except TapewrightError as failure:
            self.show_failure(failure)
            return
        self._handing_back = True
        self.desk.work.run(
            pickups.hand_back,
            checkoff.job.number,
            codes=checkoff.codes,
            copies=checkoff.copies,
            signature=signature,
            paid_minor=paid,
            command=self._command,
            then=partial(self._handed_back, checkoff.words),
            otherwise=self._not_handed_back,
        )

    def _not_handed_back(self, failure: TapewrightError) -> None:
        self._handing_back = False
        self.show_failure(failure)

    def _handed_back(self, what: str, handed: Handed) -> None:
        self._handing_back = False
        self.said.emit(say("pickup", "stored", name=handed.signature.name, what=what))
        self._begin(handed.job)
        self._write(what, handed)

    @Slot()
    def _write_again(self) -> None:
        if self.list is not None:
            number = self.list.job.number
            self.desk.work.ask(pickups.latest, number, then=partial(self._again, number))

    def _again(self, number: JobNumber, handed: Handed | None) -> None:
        if handed is None:
            self.show_failure(Refused(say("pickup", "no_receipt", number=number)))
        else:
            self._write(say("pickup", "tapes_many", count=len(handed.handed_back)), handed)

    def _write(self, what: str, handed: Handed) -> None:
        if self._fittings is None:
            return
        self.desk.work.write_paper(
            paper_errands.writing_receipt(handed, self._fittings.front, self.desk.papers),
            then=partial(self._written, what, handed.signature.name),
            otherwise=self.show_failure,
        )

    def _written(self, what: str, name: str, path: Path) -> None:
        self.said.emit(say("pickup", "done", name=name, what=what, path=path))
        self.desk.show_file(path)

    @Slot(str)
    def _money_moved(self, sentence: str) -> None:
        self.take_focus()
        self.said.emit(sentence)

    # --- the files -----------------------------------------------------------------------

    def _look_for_files(self, number: JobNumber) -> None:
        self.desk.work.ask(recordings.of_job, number, then=partial(self._know_files, number))

    def _know_files(self, number: JobNumber, files: tuple[CapturedFile, ...]) -> None:
        if self.list is not None and self.list.job.number == number:
            self._files = files
            self.files_button.setVisible(bool(files))

    @Slot()
    def _write_files(self) -> None:
        if self.list is None or self._fittings is None:
            return
        self.desk.work.write_paper(
            paper_errands.writing_files(self.list.job, self._files, self._fittings.front, self.desk.papers),
            then=self._files_written,
            otherwise=self.show_failure,
        )

    def _files_written(self, path: Path) -> None:
        self.said.emit(say("pickup", "files_written", path=path))
        self.desk.show_file(path)

    # --- building ------------------------------------------------------------------------

    def _know_shop(self, fittings: ShopSettings) -> None:
        self._fittings = fittings

    def _build(self) -> None:
        self._build_box()
        self.tray = Tray("check-off", say("pickup", "tray_list"), checks=True)
        self._count = words("", "small")
        self._count.setObjectName("counted")
        self._build_label_side()
        self.again = QPushButton(say("pickup", "receipt_again"))
        self.again.setObjectName("receipt-again")
        give_key(self.again, "F7")
        self.files_button = QPushButton(say("pickup", "files_button"))
        self.files_button.setObjectName("list-of-files")
        give_key(self.files_button, "F12")
        self.till = Till(self.desk.work, self)
        self.handover = Handover()
        self.handover_area = scrolled(self.handover)
        self._watch = ScanWatch(self)
        outer = stacked(self)
        ask = labelled(self.box, say("pickup", "ask"))
        self._ask_words: QLabel = ask.findChild(QLabel)  # type: ignore[assignment]  # it has one
        outer.addWidget(ask)
        columns = Columns(fold_below=112 * theme.UNIT)
        columns.add(self._build_tray_side(), 7)
        columns.add(self.handover_area, 6)
        outer.addWidget(columns, 1)

    def _build_box(self) -> None:
        self.box = QLineEdit()
        self.box.setObjectName("collector")
        self.box.setAccessibleName(say("pickup", "ask"))
        self.box.setFont(theme.font(theme.LEAD))
        self.box.setMinimumHeight(5 * theme.UNIT)

    def _build_label_side(self) -> None:
        self.label_side = QWidget()
        column = stacked(self.label_side, 4)
        self._label_words = words("", "attention")
        self._label_words.setObjectName("label-question")
        self.label_button = QPushButton(say("pickup", "label_button"))
        self.label_button.setObjectName("label-is-on")
        give_key(self.label_button, "F8")
        column.addWidget(self._label_words)
        column.addWidget(self.label_button)

    def _build_tray_side(self) -> QWidget:
        side = QWidget()
        column = stacked(side)
        column.addWidget(self._count)
        column.addWidget(self.tray, 1)
        column.addWidget(self.label_side)
        column.addWidget(self.files_button)
        column.addWidget(self.again)
        column.addWidget(self.till.button)
        column.addWidget(self.till.form)
        return side

    def _connect(self) -> None:
        self.box.returnPressed.connect(self._box_returned)
        self.box.installEventFilter(self)
        self.tray.ticked.connect(self._toggle)
        self.tray.taken.connect(self._take)
        self.tray.moved.connect(self._ask_for_label)
        self._watch.scanned.connect(self.scan)
        self.label_button.clicked.connect(self._mark)
        self.again.clicked.connect(self._write_again)
        self.files_button.clicked.connect(self._write_files)
        self.till.moved.connect(self._money_moved)
        self.till.failed.connect(self.show_failure)
        self.handover.wanted.connect(self._hand_back)

    # --- keys ----------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is not self.box or not isinstance(event, QKeyEvent):
            return False
        if event.type() is QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Down and self.tray.pieces:
            self.tray.setFocus()
            return True
        return False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.till.put_away():
            self.take_focus()
            return
        if event.key() == Qt.Key.Key_Escape and (self.list is not None or self._found):
            self._put_back()
            self.take_focus()
            return
        super().keyPressEvent(event)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._watch.begin()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._watch.end()
