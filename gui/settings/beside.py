"""A page and what belongs to it: side by side where there is room, else one below the other."""

from __future__ import annotations

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QWidget

from gui.toolkit import sizes, theme

SIDE = theme.Length(33)
"""Width of what stands beside, in logical pixels."""
FOLD_BELOW = 108 * sizes.UNIT


class Beside(QWidget):
    """Two widgets; the second is narrow."""

    def __init__(self, page: QWidget, side: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._side = side
        self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setSpacing(theme.UNIT)
        self._row.addWidget(page, 1)
        self._row.addWidget(side)
        side.setFixedWidth(SIDE.px)

    def resizeEvent(self, event: QResizeEvent) -> None:
        is_narrow = event.size().width() < FOLD_BELOW
        way = QBoxLayout.Direction.TopToBottom if is_narrow else QBoxLayout.Direction.LeftToRight
        if way is not self._row.direction():
            self._row.setDirection(way)
            self._side.setMinimumWidth(0 if is_narrow else SIDE.px)
            self._side.setMaximumWidth(16_777_215 if is_narrow else SIDE.px)
        super().resizeEvent(event)
