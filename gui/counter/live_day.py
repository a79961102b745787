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
    """Works out the promised day of a `LiveQuote` off the window's thread whenever its tapes change."""

    came = Signal()
    """The quote is whole: its day belongs to its tapes."""
    became_late = Signal()
    """The day on show has been that of other tapes for so long that it must be marked."""

    def __init__(self, desk: Desk, live: LiveQuote, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._live = live
        self.is_late = False
        self._pause_timer = QTimer(self, interval=PAUSE_MS, singleShot=True)
        self._pause_timer.timeout.connect(self._work_out)
        self._late_timer = QTimer(self, interval=LATE_MS, singleShot=True)
        self._late_timer.timeout.connect(self._became_late)

    def update(self) -> None:
        """Work out the day of the quote asked for last, unless it is settled."""
        if self._live.is_settled:
            self._stop()
        else:
            self._pause_timer.start()
            if not self.is_late and not self._late_timer.isActive():
                self._late_timer.start()

    @Slot()
    def _work_out(self) -> None:
        asked = self._live.open
        if asked is not None:
            self._desk.work.compute_latest(
                partial(asked.quote, self._desk.clock()),
                then=partial(self._settle, asked),
                otherwise=partial(self._refuse, asked),
            )

    def _settle(self, asked: PendingDay, quote: Quote) -> None:
        if self._live.settle(asked, quote):
            self._stop()
            self.came.emit()

    def _refuse(self, asked: PendingDay, failure: TapewrightError) -> None:
        assert isinstance(failure, WrongInput)
        if self._live.refuse(asked, failure):
            self._stop()
            self.came.emit()

    def _stop(self) -> None:
        self.is_late = False
        self._pause_timer.stop()
        self._late_timer.stop()

    @Slot()
    def _became_late(self) -> None:
        self.is_late = True
        self.became_late.emit()
