"""Between the bench and the incidents: a line, a photo, the report for the insurer."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal, Slot

from core.model.incident_records import Incident, IncidentKind
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.model.tape_records import TapeRecord
from core.services import incidents, tapes
from gui.bench.incident_form import IncidentEntry, IncidentForm
from gui.toolkit import paper_writing
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets import tray_rows


class IncidentWriting(QObject):
    """Writes down what is said of the tape in hand, and prints all of it."""

    kept = Signal(object, str)
    """The `TapeRecord` after it, and the sentence that says so."""
    told = Signal(str)
    failed = Signal(object)
    """A `TapewrightError`: nothing was changed."""

    def __init__(self, form: IncidentForm, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        form.wanted.connect(self._write)
        form.report_wanted.connect(self._print_report)
        self._desk = desk
        self._tape: TapeRecord | None = None

    def hold(self, tape: TapeRecord) -> None:
        """This tape is in hand now."""
        self._tape = tape

    @Slot(object)
    def _write(self, entry: IncidentEntry) -> None:
        """Keep one line; a photo is copied among the shop's own first."""
        if self._tape is None:
            return
        code, run = self._tape.code, partial(self._desk.work.run, then=self._written)
        if entry.kind is IncidentKind.PHOTO:
            run(incidents.attach_file, code, entry.path, otherwise=self.failed.emit)
        else:
            run(incidents.add, code, entry.kind, entry.words, otherwise=self.failed.emit)

    @Slot()
    def _print_report(self) -> None:
        """Write the report of the tape in hand and show its file."""
        if self._tape is not None:
            self._desk.work.ask(
                incidents.report, self._tape.code, then=self._print, otherwise=self.failed.emit
            )

    def _print(self, report: tuple[Job, Incident, ShopFront]) -> None:
        self._desk.write_paper_of(
            report[0].number,
            paper_writing.writing_incident(*report, self._desk.papers),
            then=self._show,
            otherwise=self.failed.emit,
        )

    def _show(self, path: Path) -> None:
        self.told.emit(say("incidents", "printed", path=path))
        self._desk.show_file(path)

    def _written(self, incident: Incident) -> None:
        self._desk.work.ask(tapes.get, incident.tape, then=self._tell)

    def _tell(self, tape: TapeRecord) -> None:
        self.kept.emit(tape, say("incidents", "written", title=tray_rows.tape_title(tape)))
