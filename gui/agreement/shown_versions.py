"""The versions of one order's agreement: read, shown in words, and what holds now printed."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.model.job_records import Job
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopSettings
from core.services import decks, jobs
from core.services.agreement import agreement_versions
from gui.agreement.version_list import VersionList, Versions
from gui.toolkit import paper_writing
from gui.toolkit.screen_context import Desk


class ShownVersions(QObject):
    """Opens the list, and writes the paper of the newest version when that is asked for."""

    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, desk: Desk, parent: QWidget) -> None:
        super().__init__(parent)
        self._desk = desk
        self._job: Job | None = None
        self._versions: Versions = ()
        self.list = VersionList(parent)
        self.list.print_wanted.connect(self._print)

    def begin(self, number: JobNumber, timezone: str) -> None:
        """Read the versions of an order, then show them."""
        self._desk.work.ask(jobs.get, number, then=self._know, otherwise=self.failed.emit)
        self._desk.work.ask(agreement_versions.with_differences, number, then=partial(self._show, timezone))

    def _know(self, job: Job) -> None:
        self._job = job

    def _show(self, timezone: str, versions: Versions) -> None:
        self._versions = versions
        self.list.begin(versions, timezone)

    @Slot()
    def _print(self) -> None:
        if self._versions:
            at = self._versions[-1][0].at
            self._desk.work.ask(decks.settings_then, at, then=self._write, otherwise=self.failed.emit)

    def _write(self, settings: ShopSettings) -> None:
        if self._job is not None:
            front, folder = settings.front, self._desk.papers
            self._desk.write_paper_of(
                self._job.number,
                paper_writing.writing_agreement(self._job, self._versions, front, folder),
                then=self._desk.show_file,
                otherwise=self.failed.emit,
            )
