"""Garbage is looked for on the window's own thread, and on no other.

Python looks for objects that hold each other on whichever thread happens to make one more. A widget among
them would then be freed by a worker, and Qt's widgets bear no thread but their own: the program would fall.
"""

from __future__ import annotations

import gc

from PySide6.QtCore import QObject, QTimer, Slot

from gui.toolkit import memory_given_back

OFTEN_MS = 1_000
THOROUGH = 30
"""Every so many looks takes in what has been there for long."""
FIRST = 5
"""The first of them: the shop is open then, and what that needed on the way can go."""
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
        """Free what nobody holds any more; now and then give it back to the system."""
        self._looks += 1
        is_thorough = self._looks % THOROUGH == FIRST
        gc.collect(_ALL if is_thorough else _YOUNG)
        if is_thorough:
            memory_given_back.give_back()

    def stop(self) -> None:
        """No worker runs any more: Python may look for itself again."""
        self._timer.stop()
        gc.enable()
