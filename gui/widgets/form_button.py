"""A button of the bench whose key works while a form stands in its place."""

from __future__ import annotations

from PySide6.QtCore import Slot
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QPushButton, QWidget

from gui.toolkit import actions


class FormButton(QPushButton):
    """The key belongs to ``room`` and works as long as that is there and the button itself was not hidden."""

    def __init__(self, room: QWidget, name: str, words: str, keys: str) -> None:
        super().__init__(words)
        self.setObjectName(name)
        self.setProperty("role", "action")
        actions.note_key(self, keys)
        shortcut = QShortcut(QKeySequence(keys), room)
        shortcut.setAutoRepeat(False)
        shortcut.activated.connect(self.press)

    @Slot()
    def press(self) -> None:
        """Click, if it is offered now."""
        if not self.isHidden():
            self.click()
