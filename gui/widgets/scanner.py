"""Hears a wedge scanner wherever the keyboard is.

A scanner types a tape's code and Return, far faster than a hand (some 8 ms a character measured,
a hand needs 80 ms or more; common practice, no source: 20 ms tells them apart). What the scanner
typed into some other field on the way is taken back.
"""

from __future__ import annotations

import time
from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from shiboken6 import isValid

CODE_LENGTH = 10
_GAP = 0.050
"""Longest pause inside one code, in seconds: generous to a slow cable, too short for a hand."""


class ScanWatch(QObject):
    """Watches the keys of one screen, and tells each code that was scanned."""

    scanned = Signal(str)

    def __init__(self, screen: QWidget, clock: Callable[[], float] = time.monotonic) -> None:
        super().__init__(screen)
        self._screen = screen
        self._clock = clock
        self._listening = False
        self._heard: QWidget | None = None
        self._digits = ""
        self._last = 0.0
        self._before = ""
        self._field: QLineEdit | None = None

    def begin(self) -> None:
        """The screen is in front."""
        if not self._listening:
            self._listening = True
            _application().focusChanged.connect(self._follow)
        self._listen_to(QApplication.focusWidget())

    def end(self) -> None:
        """The screen is away."""
        if self._listening:
            self._listening = False
            _application().focusChanged.disconnect(self._follow)
        self._listen_to(None)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self._heard and isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            return self._hear(event, self._heard)
        return False

    @Slot(QWidget, QWidget)
    def _follow(self, _: QWidget | None, now: QWidget | None) -> None:
        self._listen_to(now)

    def _listen_to(self, widget: QWidget | None) -> None:
        if self._heard is not None and isValid(self._heard):
            self._heard.removeEventFilter(self)
        self._heard = widget if widget is not None and self._screen.isAncestorOf(widget) else None
        if self._heard is not None:
            self._heard.installEventFilter(self)
        self._digits = ""

    def _hear(self, event: QKeyEvent, target: QWidget) -> bool:
        now = self._clock()
        if now - self._last > _GAP:
            self._digits = ""
        self._last = now
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            return self._finish()
        if not (event.text().isascii() and event.text().isdigit()):
            self._digits = ""
            return False
        if not self._digits:
            self._field = target if isinstance(target, QLineEdit) else None
            self._before = self._field.text() if self._field is not None else ""
        self._digits += event.text()
        return False

    def _finish(self) -> bool:
        code, self._digits = self._digits, ""
        if len(code) != CODE_LENGTH:
            return False
        if self._field is not None:
            self._field.setText(self._before)
        self.scanned.emit(code)
        return True


def _application() -> QApplication:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    return app
