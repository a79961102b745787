"""F4 opens the list that has the keyboard; it is a screen's own key elsewhere."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QComboBox, QWidget
from shiboken6 import isValid


class ListKeys(QObject):
    """Watches the list with the keyboard, wherever in the program it is.

    Qt opens a list by F4 by itself, but the key of a screen comes before.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._list: QComboBox | None = None
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._follow)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            is_ours = event.key() == Qt.Key.Key_F4 and not event.modifiers()
            if is_ours:
                event.accept()
            return is_ours
        return False

    @Slot(QWidget, QWidget)
    def _follow(self, _: QWidget | None, now: QWidget | None) -> None:
        if self._list is not None and isValid(self._list):
            self._list.removeEventFilter(self)
        self._list = now if isinstance(now, QComboBox) else None
        if self._list is not None:
            self._list.installEventFilter(self)
