"""Buttons that tell their keys, in a row; where the room is too narrow in pairs, and none is cut."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QPushButton, QSizePolicy, QWidget

from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import give_key


class ButtonRow(QWidget):
    """The last button stands at the right end of the row."""

    def __init__(self, buttons: Sequence[QWidget], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._buttons = tuple(buttons)
        self._across = 0
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(theme.UNIT)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        for button in self._buttons:
            button.installEventFilter(self)
        self._arrange(len(self._buttons))

    def minimumSizeHint(self) -> QSize:
        widest = max(button.sizeHint().width() for button in self._buttons)
        return QSize(widest, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """A button that comes, goes or changes its words may need another arrangement."""
        if event.type() in (QEvent.Type.ShowToParent, QEvent.Type.HideToParent, QEvent.Type.LayoutRequest):
            self._fit()
        return False

    def _fit(self) -> None:
        shown = [button for button in self._buttons if not button.isHidden()]
        needed = sum(button.sizeHint().width() + theme.UNIT for button in shown)
        widest = max((button.sizeHint().width() for button in shown), default=0)
        pairs = 2 if 2 * widest + theme.UNIT <= self.width() and len(shown) > 1 else 1
        across = len(self._buttons) + 1 if needed <= self.width() else pairs
        if across != self._across:
            self._arrange(across)

    def _arrange(self, across: int) -> None:
        self._across = across
        is_row = across > len(self._buttons)
        for column in range(len(self._buttons) + 1):
            self._grid.setColumnStretch(column, 1 if is_row and column == len(self._buttons) - 1 else 0)
        for place, button in enumerate(self._buttons):
            self._grid.removeWidget(button)
            if is_row:
                self._grid.addWidget(button, 0, place if button is not self._buttons[-1] else across - 1)
            else:
                self._grid.addWidget(button, place // across, place % across)
        self.updateGeometry()


def key_button(name: str, keys: str, told: str = "", role: str = "") -> QPushButton:
    """A button with a key: its words are ``told``, or the sentence of the settings called by its name."""
    button = QPushButton(told or say("settings", name, keys=keys))
    button.setObjectName(name)
    button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    if role:
        button.setProperty("role", role)
    give_key(button, keys)
    return button


def side_by_side(first: QWidget, second: QWidget) -> QHBoxLayout:
    """Two widgets that share the width, their lower edges in one line; a button takes half of it."""
    row = QHBoxLayout()
    row.setSpacing(theme.UNIT)
    row.addWidget(first, 1)
    row.addWidget(second, 1 if isinstance(second, QPushButton) else 0, Qt.AlignmentFlag.AlignBottom)
    return row
