"""The border of failure: a bug becomes one dialog and a line in the log, and the program stays up."""

from __future__ import annotations

import logging
import sys
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.model import failure_trace
from core.wording.messages import say
from gui.toolkit.plain_text import plain_message

_LOG = logging.getLogger("tapewright")


class ErrorBoundary(QObject):
    """Catches what nobody expected, once per traceback."""

    def __init__(self, window: QWidget, log_file: Path) -> None:
        super().__init__(window)
        self._window = window
        self._log_file = log_file
        self._told: set[str] = set()

    def watch(self) -> None:
        """Take over `sys.excepthook`; slots and ``data()`` end up there."""
        sys.excepthook = self._caught

    def _caught(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, error, trace)
            return
        self.report(error.with_traceback(trace))

    @Slot(object)
    def report(self, error: BaseException) -> None:
        """Log it and, the first time, tell the person what is safe."""
        text = failure_trace.trace(error)
        _LOG.error("unexpected failure\n%s", text)
        if text in self._told:
            return
        self._told.add(text)
        self._tell(text)

    def _tell(self, text: str) -> None:
        box = plain_message(self._window)
        box.setWindowTitle(say("window", "wrong_title"))
        box.setText(say("window", "wrong_safe"))
        box.setInformativeText(say("window", "wrong_details", file=str(self._log_file)))
        box.setDetailedText(text)
        box.open()
