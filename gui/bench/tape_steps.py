"""What is done to the tape in hand: it goes to a station, or a finding is recorded."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, Signal, Slot

from core.capture.file_report import Report
from core.model.deck_showing import Shown
from core.model.names import AnyFinding
from core.model.spoken_names import spoken
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.services import deck_findings, repair_record, tape_dispositions, tapes
from gui.bench.as_measured import AsMeasured
from gui.bench.disposition_form import Settlement
from gui.bench.next_station import NextStationForm
from gui.toolkit.text import say, sentence_case
from gui.toolkit.workers import Work
from gui.widgets import tray_rows


class TapeSteps(QObject):
    """Runs one step on the records and hands on the tape as it is afterwards."""

    moved = Signal(object, str)
    """The `TapeRecord`, and the sentence that says where it is now."""
    found = Signal(object, str)
    """The `TapeRecord`, and the sentence that says what was found."""
    settled = Signal(object, str)
    """The `TapeRecord`, and the sentence that says what became of it."""
    failed = Signal(object)
    """A `TapewrightError`: nothing was changed."""

    def __init__(self, form: NextStationForm, work: Work, parent: QObject) -> None:
        super().__init__(parent)
        self._form = form
        self._work = work
        self.measured = AsMeasured(work, form)
        self._tape: TapeRecord | None = None

    def hold(self, tape: TapeRecord) -> None:
        """This tape is in hand now."""
        self._tape = tape

    @Slot(object)
    def move(self, station: Station) -> None:
        """Send the tape on, with what the form says; WrongInput for minutes that are no figure."""
        if self._tape is None:
            return
        form = self._form
        self.measured.run(
            tapes.move,
            self._tape.code,
            station,
            minutes=form.played_minutes(),
            shown=form.shown(),
            note=form.note.text().strip(),
            tell=form.tell.isChecked(),
            deck=form.deck_for(station),
            without_splice=form.instead_of_splice,
            counts_as_look=False,
            then=self._was_moved,
            otherwise=self.failed.emit,
        )

    @Slot(object)
    def settle(self, wanted: Settlement) -> None:
        """Keep what became of the tape."""
        if self._tape is None:
            return
        self._work.run(
            tape_dispositions.settle,
            self._tape.code,
            wanted.disposition,
            note=wanted.note,
            tell=wanted.tell,
            then=self._was_settled,
            otherwise=self.failed.emit,
        )

    @Slot(object)
    def find(self, finding: AnyFinding) -> None:
        """Record one finding."""
        if self._tape is None:
            return
        self._work.run(
            repair_record.find,
            self._tape.code,
            (finding,),
            then=partial(self._was_found, finding),
            otherwise=self.failed.emit,
        )

    @Slot(object)
    def see(self, shown: Shown) -> None:
        """Keep what the deck shows while the tape plays."""
        if self._tape is not None:
            self._work.run(
                deck_findings.see,
                self._tape.code,
                shown,
                then=self._was_seen,
                otherwise=self.failed.emit,
            )

    def _was_seen(self, tape: TapeRecord) -> None:
        title, minutes = tray_rows.tape_title(tape), round(tape.minutes.likely)
        if tape.station is not Station.PLAYING:
            self._was_moved(tape)
        else:
            self.moved.emit(tape, say("agreeing", "seen_said", title=title, minutes=minutes))

    def _was_moved(self, tape: TapeRecord) -> None:
        title = tray_rows.tape_title(tape)
        self.moved.emit(tape, say("bench", "moved", title=title, station=spoken(tape.station)))

    def _was_settled(self, tape: TapeRecord) -> None:
        if tape.disposition is not None:
            title, became = tray_rows.tape_title(tape), spoken(tape.disposition)
            next_step = say("dispositions", f"next-{tape.disposition.value}")
            self.settled.emit(tape, say("bench", "became_said", title=title, became=became, next=next_step))

    def _was_found(self, finding: AnyFinding, tape: TapeRecord) -> None:
        title = tray_rows.tape_title(tape)
        self.found.emit(tape, say("bench", "found_said", finding=sentence_case(spoken(finding)), title=title))


def attached_sentence(report: Report, tape: TapeRecord) -> str:
    """That a file was kept with a tape, and how many minutes of it are billed."""
    minutes = f"{report.billable_minutes:.1f}"
    key = "attached" if report.billable_minutes else "attached_blank"
    return say("capture", key, name=report.name, title=tray_rows.tape_title(tape), minutes=minutes)
