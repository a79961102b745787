"""The papers of a box that was just booked: written on the paper thread, shown when asked for."""

from __future__ import annotations

from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal, Slot

from core.model.errors import TapewrightError
from core.model.job_records import Job
from core.model.settings_records import ShopSettings
from core.services import decks, paper_files
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say


class BookingPapers(QObject):
    """The papers of the box booked last."""

    written = Signal()
    failed = Signal(object)

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self._files: tuple[Path, ...] = ()

    def write(self, job: Job) -> None:
        """Write quote, claim slip and labels on the paper thread; `written` follows, or `failed`.

        Their head is that of the moment of the quote, so that the same papers come out later.
        """
        self._files = ()
        self._desk.work.ask(
            decks.settings_then,
            job.quote.made_at,
            then=partial(self._write, job),
            otherwise=self.failed.emit,
        )

    def _write(self, job: Job, settings: ShopSettings) -> None:
        front = settings.front
        folder = self._desk.papers

        def render() -> tuple[Path, ...]:
            try:
                return paper_files.of_booking(job, front, paper_files.prepare(folder))
            except OSError as error:
                why = error.strerror or str(error)
                raise TapewrightError(say("counter", "papers_failed", number=job.number, why=why)) from error

        self._desk.work.write_paper(render, then=self._keep, otherwise=self.failed.emit)

    def _keep(self, files: tuple[Path, ...]) -> None:
        self._files = files
        self.written.emit()

    @Slot()
    def show_claim_slip(self) -> None:
        """Hand the claim slip to the system's viewer."""
        self._show("claim-slip")

    @Slot()
    def show_labels(self) -> None:
        """Hand the labels to the system's viewer."""
        self._show("labels")

    def _show(self, stem: str) -> None:
        for file in self._files:
            if file.name.startswith(stem):
                self._desk.show_file(file)
