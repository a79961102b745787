"""The papers of a pickup: the receipt, and the list of files; written on the paper thread, then shown."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from core.capture.file_report import CapturedFile
from core.model.errors import Refused
from core.model.job_records import Job, Pickup
from core.model.names import JobNumber
from core.model.settings_records import ShopFront, ShopSettings
from core.services import decks, pickups, recordings
from gui.toolkit import paper_writing
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.layouts import give_key, stacked


class PapersPanel(QWidget):
    """Buttons for the list of files and for the last receipt, each there when there is such a paper."""

    written = Signal(str)
    """Which paper is at which path, as a sentence."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._front: ShopFront | None = None
        self._job: Job | None = None
        self._files: tuple[CapturedFile, ...] = ()
        self.files_button = _button("list-of-files", say("pickup", "files_button"), "F12")
        self.receipt_button = _button("receipt-again", say("pickup", "receipt_again"), "F7")
        column = stacked(self)
        column.addWidget(self.files_button)
        column.addWidget(self.receipt_button)
        self.files_button.clicked.connect(self._write_files)
        self.receipt_button.clicked.connect(self._write_last_receipt)

    def read_shop(self) -> None:
        """Read the head of the shop's papers."""
        self._desk.work.ask(decks.settings, then=self._keep_front)

    def show_job(self, job: Job | None, has_receipt: bool = False) -> None:
        """Offer the papers of this job, or none."""
        if job is None or self._job is None or job.number != self._job.number:
            self._files = ()
        self._job = job
        self.receipt_button.setVisible(has_receipt)
        self._show_buttons()

    def read_files(self, number: JobNumber) -> None:
        """Look whether the job has captured files."""
        self._desk.work.ask(recordings.of_job, number, then=partial(self._keep_files, number))

    def write_receipt(self, pickup: Pickup, summary: str) -> None:
        """Write the receipt of a pickup, and show it; ``summary`` says what was handed back."""
        if self._front is not None:
            self._desk.work.write_paper(
                paper_writing.writing_receipt(pickup, self._front, self._desk.papers),
                then=partial(self._show_receipt, summary, pickup.signature.name),
                otherwise=self.failed.emit,
            )

    def _keep_front(self, settings: ShopSettings) -> None:
        self._front = settings.front

    def _keep_files(self, number: JobNumber, files: tuple[CapturedFile, ...]) -> None:
        if self._job is not None and self._job.number == number:
            self._files = files
            self._show_buttons()

    def _show_buttons(self) -> None:
        self.files_button.setVisible(bool(self._files))
        self.setVisible(bool(self._files) or not self.receipt_button.isHidden())

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
        if self._job is not None and self._front is not None:
            self._desk.work.write_paper(
                paper_writing.writing_files(self._job, self._files, self._front, self._desk.papers),
                then=self._show_files,
                otherwise=self.failed.emit,
            )

    def _show_files(self, path: Path) -> None:
        self.written.emit(say("pickup", "files_written", path=path))
        self._desk.show_file(path)


def _button(name: str, text: str, keys: str) -> QPushButton:
    button = QPushButton(text)
    button.setObjectName(name)
    give_key(button, keys)
    return button
