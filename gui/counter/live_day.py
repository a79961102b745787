"""The day on the slip: worked out beside the window when the keys pause, marked when it is long in coming."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from core.model.errors import TapewrightError, WrongInput
from core.model.quote_records import Quote
from gui.counter.live_quote import LiveQuote, PendingDay
from gui.toolkit.screen_context import Desk

PAUSE_MS = 60
"""After the last key: a fast typist leaves longer gaps, so no day is begun that the next key outdates."""
LATE_MS = 150
"""A day that comes sooner replaces the one before without a word; a mark so short would only flicker."""


class LiveDay(QObject):
    """Keeps the day of a `LiveQuote` up with its tapes, off the window's thread."""

    came = Signal()
    """The quote is whole: its day belongs to its tapes."""
    was_late = Signal()
    """The day on show is still the one before, and has been for so long that it must say so."""

    def __init__(self, desk: Desk, live: LiveQuote, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._live = live
        self.is_late = False
        self._pause = QTimer(self, interval=PAUSE_MS, singleShot=True)
        self._pause.timeout.connect(self._work_out)
        self._patience = QTimer(self, interval=LATE_MS, singleShot=True)
        self._patience.timeout.connect(self._lose_patience)

    def keep_up(self) -> None:
        """The quote was asked for once more; its day may be another."""
        if self._live.is_settled:
            self._rest()
        else:
            self._pause.start()
            if not self.is_late and not self._patience.isActive():
                self._patience.start()

    @Slot()
    def _work_out(self) -> None:
        asked = self._live.open
        if asked is not None:
            self._desk.work.follow(
                partial(asked.quote, self._desk.clock()),
                then=partial(self._settle, asked),
                otherwise=partial(self._refuse, asked),
            )

    def _settle(self, asked: PendingDay, quote: Quote) -> None:
        if self._live.settle(asked, quote):
            self._rest()
            self.came.emit()

    def _refuse(self, asked: PendingDay, failure: TapewrightError) -> None:
        assert isinstance(failure, WrongInput)
        if self._live.refuse(asked, failure):
            self._rest()
            self.came.emit()

    def _rest(self) -> None:
        self.is_late = False
        self._pause.stop()
        self._patience.stop()

    @Slot()
    def _lose_patience(self) -> None:
        self.is_late = True
        self.was_late.emit()
