"""Between the bench and the repair record: joints, what else was tried, the look afterwards, the label."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property, partial
from typing import Any

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.capture.check_records import TapeCheck
from core.capture.file_report import CapturedFile
from core.catalogue import condition
from core.model.dispositions import Disposition
from core.model.errors import TapewrightError
from core.model.names import DonorPart, Finding, FindingKey, Look, TapeCode
from core.model.repair_records import Donor, Splice
from core.model.tape_records import TapeRecord
from core.services import donors, recordings, repair_attempts, repair_record, tape_dispositions, tapes
from core.services.checking import sign_offs
from gui.bench.as_measured import AsMeasured
from gui.bench.bench_side import BenchSide
from gui.bench.entry_withdrawal import SignedBy, Withdrawal
from gui.bench.repair_form import RepairFormResult
from gui.bench.repair_sentences import lost
from gui.bench.splice_form import SpliceEntry
from gui.toolkit.text import say
from gui.toolkit.workers import Work
from gui.widgets import tray_rows
from gui.widgets.donor_stock_dialog import DonorDelivery, DonorStockDialog


class BenchRepairs(QObject):
    """Keeps what is said of the tape in hand."""

    kept = Signal(object, str)
    """The `TapeRecord` after it, and what was kept in one sentence."""
    failed = Signal(object)
    """A `TapewrightError` the person at the bench must see."""
    files_known = Signal(object)
    """The `CapturedFile`s of the tape in hand."""

    def __init__(self, side: BenchSide, work: Work, screen: QWidget) -> None:
        super().__init__(screen)
        self._side = side
        self._work = work
        self._screen = screen
        self._measured = AsMeasured(work, screen)
        self._tape: TapeRecord | None = None
        self._connect()

    @cached_property
    def shelf(self) -> DonorStockDialog:
        """The donor parts, in a window of their own."""
        made = DonorStockDialog(self._screen)
        made.wanted.connect(self._put_on_shelf)
        return made

    def hold(self, tape: TapeRecord) -> None:
        """This tape is in hand now."""
        self._tape = tape
        self._work.ask(donors.fitting, tape.format, then=self._know_shelf)
        self._work.ask(recordings.of_tape, tape.code, then=partial(self._know_files, tape.code))

    def _know_files(self, code: TapeCode, files: tuple[CapturedFile, ...]) -> None:
        if self._tape is not None and self._tape.code == code:
            self._side.know_files(files)
            self.files_known.emit(files)

    def _know_shelf(self, left: dict[DonorPart, int]) -> None:
        self._side.repair.know_shelf(left)

    def _do(self, step: Callable[..., TapeRecord], *args: Any, sentence: Sentence, **named: Any) -> None:
        if self._tape is not None:
            code = self._tape.code
            kept = partial(self._told, sentence)
            send = self._measured.run if step is repair_record.splice else self._work.run
            send(step, code, *args, then=kept, otherwise=self._refused, **named)

    def _told(self, sentence: Sentence, tape: TapeRecord) -> None:
        self.kept.emit(tape, sentence(tape))

    def _refused(self, failure: TapewrightError) -> None:
        self.failed.emit(failure)

    # --- joints --------------------------------------------------------------------------

    @Slot(object)
    def _splice(self, joint: SpliceEntry) -> None:
        self._do(
            repair_record.splice,
            cut_cm=joint.cut_cm,
            joined_with=joint.joined_with,
            section=joint.section,
            redone=joint.redone,
            sentence=_spliced,
            **joint.place,
        )

    @Slot()
    def _label_key(self) -> None:
        """One key for the label: it is on, or, where it no longer belongs, it is off."""
        if self._tape is not None and self._tape.label_astray:
            self._do(repair_record.take_label_off, sentence=partial(_titled, "repair", "label_off_said"))
        else:
            self._do(repair_record.mark, sentence=partial(_titled, "bench", "marked"))

    @Slot(object)
    def _take_back(self, back: Withdrawal) -> None:
        if isinstance(back.what, (Finding, FindingKey)):
            self._do(repair_record.clear_finding, back.what, back.because, sentence=_taken_back)
        elif isinstance(back.what, Splice):
            self._do(repair_record.undo_splice, because=back.because, which=back.what, sentence=_taken_back)
        elif isinstance(back.what, Disposition):
            self._do(tape_dispositions.reopen, because=back.because, sentence=_taken_back)
        elif isinstance(back.what, CapturedFile):
            self._strike_file(back.what, back.because)
        elif isinstance(back.what, SignedBy):
            self._withdraw_sign_off(back.because)
        else:
            self._do(repair_attempts.strike, because=back.because, sentence=_taken_back)

    def _withdraw_sign_off(self, because: str) -> None:
        if self._tape is not None:
            step = sign_offs.withdraw
            code, then = self._tape.code, self._sign_off_withdrawn
            self._work.run(step, code, because=because, then=then, otherwise=self._refused)

    def _sign_off_withdrawn(self, found: TapeCheck) -> None:
        said = partial(_titled, "checking", "taken_back")
        self._work.ask(tapes.get, found.tape, then=partial(self._told, said), otherwise=self._refused)

    def _strike_file(self, file: CapturedFile, because: str) -> None:
        self._work.run(
            recordings.strike,
            file.tape,
            because=because,
            then=partial(self._file_struck, file),
            otherwise=self._refused,
        )

    def _file_struck(self, file: CapturedFile, _: tuple[CapturedFile, ...]) -> None:
        struck = partial(_titled, "capture", "struck", name=file.report.name)
        self._work.ask(tapes.get, file.tape, then=partial(self._told, struck), otherwise=self._refused)

    # --- what else was tried -------------------------------------------------------------

    @Slot(object)
    def _record(self, attempt: RepairFormResult) -> None:
        self._do(
            repair_attempts.record,
            attempt.repair,
            succeeded=attempt.succeeded,
            part=attempt.part,
            from_elsewhere=attempt.from_elsewhere,
            note=attempt.note,
            sentence=partial(_recorded, attempt),
        )

    @Slot()
    def _say_good(self) -> None:
        self._look(Look.OK, "looked_ok")

    @Slot()
    def _say_bad(self) -> None:
        self._look(Look.AGAIN, "looked_again")

    def _look(self, verdict: Look, key: str) -> None:
        note = self._side.moves.note.text().strip()
        self._do(repair_attempts.look, verdict, note=note, sentence=partial(_titled, "repair", key))

    # --- the shelf -----------------------------------------------------------------------

    @Slot()
    def _open_shelf(self) -> None:
        self._work.ask(donors.stock, then=self._show_shelf)

    def _show_shelf(self, stock: tuple[Donor, ...]) -> None:
        if self._tape is not None:
            self.shelf.begin(self._tape.format, stock)

    @Slot(object)
    def _put_on_shelf(self, delivery: DonorDelivery) -> None:
        self._work.run(
            donors.add,
            delivery.format,
            delivery.part,
            delivery.count,
            came_from=delivery.came_from,
            then=self._on_shelf,
            otherwise=self._not_on_shelf,
        )

    def _on_shelf(self, _: Donor) -> None:
        self._work.ask(donors.stock, then=self.shelf.know)
        if self._tape is not None:
            self._work.ask(donors.fitting, self._tape.format, then=self._know_shelf)

    def _not_on_shelf(self, failure: TapewrightError) -> None:
        self.shelf.complain(failure.sentence)

    def _connect(self) -> None:
        side = self._side
        side.spliced.connect(self._splice)
        side.labelled.connect(self._label_key)
        side.taken_back.connect(self._take_back)
        side.repair.recorded.connect(self._record)
        side.repair.shelf_wanted.connect(self._open_shelf)
        side.after.good.connect(self._say_good)
        side.after.bad.connect(self._say_bad)


Sentence = Callable[[TapeRecord], str]
"""What is said once a tape was changed."""


def _titled(room: str, key: str, tape: TapeRecord, **fill: str) -> str:
    return say(room, key, title=tray_rows.tape_title(tape), **fill)


def _spliced(tape: TapeRecord) -> str:
    last = tape.splices[-1]
    if last.in_leader:
        return say("repair", "kept_leader")
    return say("bench", "spliced", removed=lost(last.seconds_removed, last.removed))


def _taken_back(tape: TapeRecord) -> str:
    return say("repair", "struck_label") if tape.label_astray else say("bench", "taken_back")


def _recorded(attempt: RepairFormResult, tape: TapeRecord) -> str:
    what = condition.repair(attempt.repair, tape.format).words
    what = what[:1].upper() + what[1:]
    if not attempt.succeeded:
        return say("repair", "kept_failed", what=what)
    return say("repair", "kept_held" if tape.look_due else "kept_done", what=what)
