"""Hears a wedge scanner wherever the keyboard is.

A scanner types a tape's code and Return, far faster than a hand (some 8 ms a character measured,
a hand needs 80 ms or more; common practice, no source: 50 ms tells them apart), or it begins each code with
signs that the shop has set. What the scanner typed into some field on the way is taken back.
"""

from __future__ import annotations

import time
from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QApplication, QWidget
from shiboken6 import isValid

from gui.toolkit.before_scan import TAKEN_BACK, remember

CODE_LENGTH = 10
NUMBER_LENGTH = 6
"""Digits of the number of an order, as the claim slip bears it."""
_GAP = 0.050
"""Longest pause inside one code, in seconds: generous to a slow cable, too short for a hand."""
_PAUSE = 0.3
"""After which typing is taken to begin anew: within one word a hand is faster (an assumption)."""
_ENDS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab)


class ScanWatch(QObject):
    """Watches the keys in one window and those over it, and tells each code that was scanned."""

    scanned = Signal(str)

    def __init__(self, window: QWidget, clock: Callable[[], float] = time.monotonic) -> None:
        super().__init__(window)
        self._window = window
        self._clock = clock
        self.prefix = ""
        """What the scanner types before each code; a code that begins so is heard at any speed."""
        self._listening = False
        self._heard: QWidget | None = None
        self._run = ""
        """What was typed that may be a scan."""
        self._last = 0.0
        self._target: QWidget | None = None
        """Where the run began."""
        self._restore: Callable[[], None] | None = None
        self._is_passed_on = False
        """The next key is the last one again, which a table passes on to the cell that it has opened."""

    def begin(self) -> None:
        """The window is in front."""
        if not self._listening:
            self._listening = True
            _application().focusChanged.connect(self._follow)
        self._listen_to(QApplication.focusWidget())

    def end(self) -> None:
        """The window is away."""
        if self._listening:
            self._listening = False
            _application().focusChanged.disconnect(self._follow)
        self._listen_to(None)
        self._forget()

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
        self._heard = widget if self._is_ours(widget) else None
        if self._heard is not None:
            self._heard.installEventFilter(self)
        is_cell = isinstance(self._target, QAbstractItemView) and self._heard is not None
        opened = is_cell and isValid(self._target) and self._target.isAncestorOf(self._heard)  # type: ignore[union-attr, arg-type]
        self._is_passed_on = bool(opened and self._run)
        if not opened:
            self._forget()

    def _is_ours(self, widget: QWidget | None) -> bool:
        while widget is not None and widget is not self._window:
            widget = widget.parentWidget()
        return widget is not None

    def _hear(self, event: QKeyEvent, target: QWidget) -> bool:
        if self._is_passed_on:
            self._is_passed_on = False
            return False
        now = self._clock()
        pause, self._last = now - self._last, now
        if pause > _GAP and not self._is_prefixed:
            self._forget()
        if event.key() in _ENDS:
            return self._finish()
        self._go_on(event.text(), target, pause > _PAUSE)
        return False

    @property
    def _is_prefixed(self) -> bool:
        return bool(
            self.prefix and self._run and self._run[: len(self.prefix)] == self.prefix[: len(self._run)]
        )

    def _go_on(self, sign: str, target: QWidget, is_after_pause: bool) -> None:
        if self._run and not self._may_follow(sign):
            self._forget()
        if not self._run:
            if not self._may_follow(sign):
                return
            self._target, self._restore = target, remember(target, is_after_pause=is_after_pause)
        self._run += sign

    def _may_follow(self, sign: str) -> bool:
        if not sign:
            return False
        whole = self._run + sign
        if self.prefix and (self.prefix.startswith(whole) or whole.startswith(self.prefix)):
            whole = whole[len(self.prefix) :]
        return not whole or (whole.isascii() and whole.isdigit())

    def _finish(self) -> bool:
        run, restore, target = self._run, self._restore, self._target
        is_prefixed = bool(self.prefix) and run.startswith(self.prefix)
        code = run[len(self.prefix) :] if is_prefixed else run
        self._forget()
        lengths = (CODE_LENGTH, NUMBER_LENGTH) if is_prefixed else (CODE_LENGTH,)
        if len(code) not in lengths or restore is None:
            return False
        if target is not None and isValid(target):
            restore()
            QCoreApplication.sendEvent(target, QEvent(TAKEN_BACK))
        self.scanned.emit(code)
        return True

    def _forget(self) -> None:
        self._run, self._target, self._restore, self._is_passed_on = "", None, None, False


def _application() -> QApplication:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    return app
