"""The keys that do something everywhere, beside the moments: as many as there is room for."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QToolButton, QWidget

from core.wording.messages import say
from gui.toolkit import actions
from gui.toolkit.plain_text import tip


class KeysInSight(QWidget):
    """The first stays the longest; it is never without room, so that the mouse comes to every command."""

    def __init__(self, window: QWidget) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        self.buttons = [_button(key, window) for key in actions.IN_SIGHT]
        for button in self.buttons:
            row.addWidget(button)
        row.addStretch(1)

    def sizeHint(self) -> QSize:
        return self._room_for(self.buttons)

    def minimumSizeHint(self) -> QSize:
        return self._room_for(self.buttons[:1])

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        for n, button in enumerate(self.buttons):
            button.setVisible(n == 0 or self._room_for(self.buttons[: n + 1]).width() <= self.width())

    def _room_for(self, buttons: list[QToolButton]) -> QSize:
        hints = [button.sizeHint() for button in buttons]
        return QSize(sum(each.width() for each in hints), max(each.height() for each in hints))


def _button(key: actions.Key, window: QWidget) -> QToolButton:
    """Short words and the key; name and tip say all of it."""
    action = window.findChild(QAction, key.name)
    assert isinstance(action, QAction)
    button = QToolButton()
    button.setObjectName(f"{key.name}-button")
    button.setText(say("commands", f"short-{key.name}", keys=key.keys))
    button.setToolTip(tip(say("window", "action_hint", words=key.words, keys=key.keys)))
    button.setAccessibleName(key.words)
    button.setProperty("role", "in-sight")
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    button.clicked.connect(action.trigger)
    return button
