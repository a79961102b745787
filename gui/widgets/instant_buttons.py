"""Buttons and ticks whose key acts at once: Qt's own wait a tenth of a second to show a press."""

from __future__ import annotations

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QKeyEvent, QShortcutEvent
from PySide6.QtWidgets import QAbstractButton, QCheckBox, QPushButton


class InstantButton(QPushButton):
    """A push button; its access key clicks it without delay."""

    def event(self, event: QEvent) -> bool:
        return _clicked_by_key(self, event) or super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return presses a button as well as Space does."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not event.modifiers():
            self.click()
        else:
            super().keyPressEvent(event)


class InstantCheckBox(QCheckBox):
    """A check box; its access key ticks it without delay."""

    def event(self, event: QEvent) -> bool:
        return _clicked_by_key(self, event) or super().event(event)


def _clicked_by_key(button: QAbstractButton, event: QEvent) -> bool:
    if not isinstance(event, QShortcutEvent) or event.isAmbiguous() or not button.isEnabled():
        return False
    button.click()
    return True
