"""Reads a recorded file for the panel at the bench, away from the main thread, and can be stopped."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QObject, Signal, Slot

from core.capture.file_report import Report
from core.model.errors import TapewrightError
from core.model.names import TapeCode
from core.services import recordings
from gui.bench.as_measured import AsMeasured
from gui.bench.capture_panel import CapturePanel
from gui.toolkit.workers import Work


class FileReader(QObject):
    """Between the panel and the worker: one file at a time, for one tape."""

    attached = Signal(object)
    """A `CapturedFile` is in the shop's books."""
    failed = Signal(object)
    """A `TapewrightError` the person at the bench must see."""

    def __init__(self, panel: CapturePanel, work: Work, parent: QObject) -> None:
        super().__init__(parent)
        self._panel = panel
        self._work = work
        self._measured = AsMeasured(work, panel)
        self._tape: TapeCode | None = None
        self._stop: Callable[[], None] | None = None
        panel.wanted.connect(self.read)
        panel.stop_wanted.connect(self.stop)
        panel.attach_wanted.connect(self.attach)

    def hold(self, tape: TapeCode) -> None:
        """Another tape is in hand: what is being read belonged to the one before."""
        if tape != self._tape:
            self.stop()
            self._tape = tape
            self._panel.begin()

    @Slot(object)
    def read(self, path: Path) -> None:
        """Read a file for the tape in hand."""
        self._panel.show_start(path)
        self._stop = self._work.run_with_progress(
            partial(_examine, path),
            told=self._panel.show_progress,
            then=partial(self._read, self._tape),
            otherwise=partial(self._not_read, self._tape),
        )

    @Slot()
    def stop(self) -> None:
        """Stop what is being read; nothing of it is kept."""
        if self._stop is not None:
            self._stop()

    @Slot(object)
    def attach(self, report: Report) -> None:
        """Keep the report with the tape in hand."""
        if self._tape is not None:
            self._measured.run(
                recordings.attach, self._tape, report, then=self.attached.emit, otherwise=self.failed.emit
            )

    def _read(self, tape: TapeCode | None, report: Report) -> None:
        self._stop = None
        if tape == self._tape:
            self._panel.show_report(report)

    def _not_read(self, tape: TapeCode | None, failure: TapewrightError) -> None:
        self._stop = None
        if tape == self._tape:
            self._panel.show_end()
            self.failed.emit(failure)


def _examine(path: Path, told: Callable[[float], None], stop: Callable[[], bool]) -> Report:
    from core.capture.examining import examine  # brings numpy and PyAV, which no other screen needs

    return examine(path, told=told, stop=stop)
