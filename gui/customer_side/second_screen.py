"""The screen that faces the customer: found when there is one, given up when it is unplugged, taken again."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtGui import QGuiApplication, QScreen


def second_screen(screens: Sequence[QScreen], ours: QScreen | None) -> QScreen | None:
    """A screen the shop's own window is not on; None when there is only one."""
    return next((screen for screen in screens if screen is not ours), None) if len(screens) > 1 else None


class SecondScreen(QObject):
    """Tells when a screen beside the clerk's own comes or goes."""

    came = Signal()
    went = Signal()

    def __init__(self, parent: QObject, ours: Callable[[], QScreen | None]) -> None:
        """``ours``: the screen that the window of the shop is on now."""
        super().__init__(parent)
        self._ours = ours
        self._gone: QScreen | None = None
        """Qt still names a screen among the others while it tells that it goes."""
        app = QGuiApplication.instance()
        assert isinstance(app, QGuiApplication)
        app.screenAdded.connect(self._note_added)
        app.screenRemoved.connect(self._note_removed)

    def now(self) -> QScreen | None:
        """The customer's screen; None when there is only the clerk's."""
        there = [screen for screen in QGuiApplication.screens() if screen is not self._gone]
        return second_screen(there, self._ours())

    @Slot(QScreen)
    def _note_added(self, screen: QScreen) -> None:
        if screen is self._gone:
            self._gone = None
        self.came.emit()

    @Slot(QScreen)
    def _note_removed(self, screen: QScreen) -> None:
        self._gone = screen
        self.went.emit()
