"""Opens a shop whose server does not answer as soon as it does."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer, Slot

from core.wording.messages import say
from gui.app.main_window import Window

PAUSES_S = (1, 2, 4, 8, 15)
"""Between two attempts; the last one again and again."""


class OpeningAgain(QObject):
    """Tells each pause in the middle of the window, and asks for another attempt after it."""

    def __init__(self, window: Window, attempt: Callable[[], None]) -> None:
        super().__init__(window)
        self._window = window
        self._attempt = attempt
        self._failed = 0
        self._left_s = 0
        self._second = QTimer(self, interval=1000)
        self._second.timeout.connect(self._count_down)

    def pause(self) -> None:
        """An attempt failed."""
        self._left_s = PAUSES_S[min(self._failed, len(PAUSES_S) - 1)]
        self._failed += 1
        self._window.say_waiting(say("window", "opening_again", seconds=self._left_s))
        self._second.start()

    @Slot()
    def end(self) -> None:
        """The shop is open, or nobody waits for it any more."""
        self._second.stop()
        self._failed = 0

    @Slot()
    def _count_down(self) -> None:
        self._left_s -= 1
        if self._left_s > 0:
            self._window.say_waiting(say("window", "opening_again", seconds=self._left_s))
            return
        self._second.stop()
        self._window.say_waiting(say("window", "opening"))
        self._attempt()
