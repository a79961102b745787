"""The not-for-reuse label of one tape, printed from the bench."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from core.model.job_records import Job
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopFront
from core.model.tape_records import TapeRecord
from core.services import jobs
from gui.toolkit import paper_writing
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say


class LabelPrinting(QObject):
    """Reads the order of a tape, writes the label on the paper thread and shows the file."""

    printed = Signal(str)
    """The sentence that says where the label was written."""
    failed = Signal(object)
    """A `TapewrightError`: nothing was written."""

    def __init__(self, desk: Desk, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk

    def print_label(self, tape: TapeRecord, front: ShopFront) -> None:
        """Write the label of this tape; `printed` follows, or `failed`."""
        number = JobNumber(tape.code[:6])
        self._desk.work.ask(jobs.get, number, then=partial(self._write, tape, front))

    def _write(self, tape: TapeRecord, front: ShopFront, job: Job) -> None:
        self._desk.write_paper_of(
            job.number,
            paper_writing.writing_label(job, tape, front, self._desk.papers),
            then=self._show,
            otherwise=self.failed.emit,
        )

    def _show(self, path: Path) -> None:
        self.printed.emit(say("bench", "printed", path=path))
        self._desk.show_file(path)
