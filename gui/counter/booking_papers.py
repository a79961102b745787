"""The papers of a box that was just booked: written on the paper thread, shown when asked for."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, Signal, Slot

from core.model.errors import TapewrightError
from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront, ShopSettings
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
        self._booked: tuple[Job, ShopFront] | None = None

    def write(self, job: Job) -> None:
        """Write the papers the shop prints on the paper thread; `written` follows, or `failed`.

        Their head is that of the moment of the quote, so that the same papers come out later.
        """
        self._files, self._booked = (), None
        self._desk.work.ask(
            decks.settings_then,
            job.quote.made_at,
            then=partial(self._write, job),
            otherwise=self.failed.emit,
        )

    def _write(self, job: Job, settings: ShopSettings) -> None:
        self._booked = (job, settings.front)
        self._render(partial(paper_files.of_booking, *self._booked), self._keep)

    def _render(self, make: Callable[[Path], Any], then: Callable[[Any], None]) -> None:
        """Make papers in the folder of papers on the paper thread; `failed` when that is not possible."""
        assert self._booked is not None
        folder, number = self._desk.papers, self._booked[0].number

        def render() -> Any:
            try:
                return make(paper_files.prepare(folder))
            except OSError as error:
                why = error.strerror or str(error)
                raise TapewrightError(say("counter", "papers_failed", number=number, why=why)) from error

        self._desk.write_paper_of(number, render, then=then, otherwise=self.failed.emit)

    def _keep(self, files: tuple[Path, ...]) -> None:
        self._files = files
        self.written.emit()
        for kind in paper_files.BOOKING_PAPERS:
            if self._booked is not None and getattr(self._booked[1].printing, kind) == "yes":
                self._show(kind)
        if self._booked is not None and self._booked[1].printing.claim_slip == "yes":
            for file in files:
                if file.name.startswith(paper_files.AGREEMENT):
                    self._desk.show_file(file)

    @Slot()
    def show_claim_slip(self) -> None:
        """Hand the claim slip to the system's viewer."""
        self._show("claim_slip")

    @Slot()
    def show_labels(self) -> None:
        """Hand the labels to the system's viewer."""
        self._show("labels")

    def _show(self, kind: str) -> None:
        """The paper of the order booked last; one that is not usually printed is made now."""
        stem = paper_files.stem_of(kind)
        found = [file for file in self._files if file.name.startswith(stem)]
        for file in found:
            self._desk.show_file(file)
        if not found and self._booked is not None:
            self._render(partial(paper_files.one_of_booking, kind, *self._booked), self._desk.show_file)
