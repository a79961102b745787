"""The search for the caller's order: asked shortly after the last key, and only the newest answer counts."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from core.model.errors import TapewrightError
from core.model.job_records import CallerMatch
from core.services import calls
from gui.toolkit.workers import Work

_PAUSE_MS = 90
"""After a key before the records are asked: below the tenth of a second that feels immediate."""
_COMPLETE = (6, 10)
"""Digits of a job number and of a tape code: nothing more is to come, so the search does not wait."""


class CallerSearch(QObject):
    """Searches orders by number, tape code, name or phone digits."""

    answered = Signal(str, object)
    """The text asked for, and a tuple of `CallerMatch`."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, work: Work, parent: QObject) -> None:
        super().__init__(parent)
        self._work = work
        self._text = ""
        self._asked = 0
        """Number of the newest question; answers to older ones are dropped."""
        self._pause = QTimer(self, interval=_PAUSE_MS, singleShot=True)
        self._pause.timeout.connect(self.ask)

    @property
    def is_waiting(self) -> bool:
        """Whether the search waits for another key."""
        return self._pause.isActive()

    def follow(self, text: str) -> None:
        """Search for what is typed, at once when it is complete; an empty text ends the search."""
        self._asked += 1
        self._text = text.strip()
        if not self._text:
            self._pause.stop()
        elif self._text.isdecimal() and len(self._text) in _COMPLETE:
            self.ask()
        else:
            self._pause.start()

    @Slot()
    def ask(self) -> None:
        """Search now; `answered` or `failed` follows, neither for an empty text."""
        self._pause.stop()
        if not self._text:
            return
        self._asked += 1
        self._work.ask(
            calls.status,
            self._text,
            then=partial(self._answer, self._asked, self._text),
            otherwise=partial(self._fail, self._asked),
        )

    def _answer(self, asked: int, text: str, found: tuple[CallerMatch, ...]) -> None:
        if asked == self._asked:
            self.answered.emit(text, found)

    def _fail(self, asked: int, failure: TapewrightError) -> None:
        if asked == self._asked:
            self.failed.emit(failure)
