"""What takes long and must be done on the window's own thread: piece by piece, each in a turn of its own."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator

from PySide6.QtCore import QObject, QTimer, Slot


class Turns(QObject):
    """Between two pieces the window paints, and hears keys and clicks."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._waiting: deque[Iterator[None]] = deque()
        self._timer = QTimer(self, interval=0)
        self._timer.timeout.connect(self._go_on)

    @property
    def is_idle(self) -> bool:
        """Whether nothing is left to be done."""
        return not self._waiting

    def take(self, pieces: Iterator[None]) -> None:
        """Go on with ``pieces`` whenever it is their turn; what was taken before is done first."""
        self._waiting.append(pieces)
        self._timer.start()

    def end(self) -> None:
        """Nobody wants the rest any more."""
        self._timer.stop()
        self._waiting.clear()

    @Slot()
    def _go_on(self) -> None:
        pieces, is_over = self._waiting[0], True
        try:
            next(pieces)
            is_over = False
        except StopIteration:
            """That was the last one."""
        finally:
            if is_over and pieces in self._waiting:
                self._waiting.remove(pieces)
            if not self._waiting:
                self._timer.stop()
