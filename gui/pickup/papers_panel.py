"""The papers of a pickup: the receipt, and the list of files; written on the paper thread, then shown."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from functools import partial
from pathlib import Path

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from core.capture.file_report import CapturedFile
from core.model.errors import Refused
from core.model.job_records import Job, Pickup
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopFront, ShopSettings
from core.services import decks, pickups, recordings
from gui.toolkit import paper_writing
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.button_row import key_button


class PapersPanel(QWidget):
    """Buttons for the quote, the list of files and the last receipt, as far as there are any."""

    written = Signal(str)
    """Which paper is at which path, as a sentence."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._job: Job | None = None
        self._files: tuple[CapturedFile, ...] = ()
        self.quote_button = key_button("quote-again", "F10", say("pickup", "quote_again"))
        self.files_button = key_button("list-of-files", "F12", say("pickup", "files_button"))
        self.receipt_button = key_button("receipt-again", "F7", say("pickup", "receipt_again"))
        self.buttons = (self.quote_button, self.files_button, self.receipt_button)
        """Whoever lays the screen out gives them their places."""
        self.hide()
        self.quote_button.clicked.connect(self._write_quote)
        self.files_button.clicked.connect(self._write_files)
        self.receipt_button.clicked.connect(self._write_last_receipt)

    def show_job(self, job: Job | None, has_receipt: bool = False) -> None:
        """Offer the papers of this job, or none."""
        if job is None or self._job is None or job.number != self._job.number:
            self._files = ()
        self._job = job
        self.receipt_button.setVisible(has_receipt and job is not None)
        self._show_buttons()

    def read_files(self, number: JobNumber) -> None:
        """Look whether the job has captured files."""
        self._desk.work.ask(recordings.of_job, number, then=partial(self._keep_files, number))

    def write_receipt(self, pickup: Pickup, summary: str) -> None:
        """Write the receipt of a pickup, and show it; ``summary`` says what was handed back."""
        self._as_of(
            pickup.job.number,
            pickup.at,
            lambda front: paper_writing.writing_receipt(pickup, front, self._desk.papers),
            partial(self._show_receipt, summary, pickup.signature.name),
        )

    def _as_of(
        self,
        number: JobNumber,
        moment: datetime,
        writing: Callable[[ShopFront], Callable[[], Path]],
        then: Callable[[Path], None],
    ) -> None:
        """Write a paper with the head it had at a moment, so that the same one comes out again."""

        def write(settings: ShopSettings) -> None:
            paper = writing(settings.front)
            self._desk.write_paper_of(number, paper, then=then, otherwise=self.failed.emit)

        self._desk.work.ask(decks.settings_then, moment, then=write, otherwise=self.failed.emit)

    def _keep_files(self, number: JobNumber, files: tuple[CapturedFile, ...]) -> None:
        if self._job is not None and self._job.number == number:
            self._files = files
            self._show_buttons()

    def _show_buttons(self) -> None:
        self.files_button.setVisible(bool(self._files) and self._job is not None)
        self.quote_button.setVisible(self._job is not None)

    def _show_receipt(self, summary: str, name: str, path: Path) -> None:
        self.written.emit(say("pickup", "done", name=name, what=summary, path=path))
        self._desk.show_file(path)

    @Slot()
    def _write_last_receipt(self) -> None:
        if self._job is not None:
            number = self._job.number
            self._desk.work.ask(pickups.latest, number, then=partial(self._write_again, number))

    def _write_again(self, number: JobNumber, pickup: Pickup | None) -> None:
        if pickup is None:
            self.failed.emit(Refused(say("pickup", "no_receipt", number=number)))
        else:
            self.write_receipt(pickup, say("pickup", "tapes_many", count=len(pickup.handed_back)))

    @Slot()
    def _write_files(self) -> None:
        job, files = self._job, self._files
        if job is not None and files:
            self._as_of(
                job.number,
                max(each.at for each in files),
                lambda front: paper_writing.writing_files(job, files, front, self._desk.papers),
                self._show_files,
            )

    @Slot()
    def _write_quote(self) -> None:
        job = self._job
        if job is not None:
            self._as_of(
                job.number,
                job.quote.made_at,
                lambda front: paper_writing.writing_quote(job, front, self._desk.papers),
                self._show_quote,
            )

    def _show_quote(self, path: Path) -> None:
        self.written.emit(say("pickup", "quote_written", path=path))
        self._desk.show_file(path)

    def _show_files(self, path: Path) -> None:
        self.written.emit(say("pickup", "files_written", path=path))
        self._desk.show_file(path)
