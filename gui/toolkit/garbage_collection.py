"""Garbage is looked for on the window's own thread, and on no other.

Python looks for objects that hold each other on whichever thread happens to make one more. A widget among
them would then be freed by a worker, and Qt's widgets bear no thread but their own: the program would fall.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, QTimer, Slot

OFTEN_MS = 1_000
THOROUGH = 30
"""Every so many looks takes in what has been there for long."""
_YOUNG, _ALL = 1, 2


class MainThreadCollector(QObject):
    """From its making until `stop`, Python does not look by itself: a timer does.

    A look takes 1 to 4 ms in the invented shop, a thorough one up to 3 (measured); what importing made
    is left out (`gc.freeze` at the start of the program).
    """

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._looks = 0
        self._timer = QTimer(self)
        self._timer.timeout.connect(self.look)
        self._timer.start(OFTEN_MS)
        gc.disable()

    @Slot()
    def look(self) -> None:
        """Free what nobody holds any more."""
        self._looks += 1
        gc.collect(_YOUNG if self._looks % THOROUGH else _ALL)

    def stop(self) -> None:
        """No worker runs any more: Python may look for itself again."""
        self._timer.stop()
        gc.enable()
