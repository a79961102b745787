"""What is known, under its heads: the head at the left, its lines at the right."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from gui.toolkit import theme
from gui.widgets.layouts import words


class FactList(QWidget):
    """Heads and lines of a slip."""

    def __init__(self, head_wide: int = 11 * theme.UNIT, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(2 * theme.UNIT)
        self._grid.setVerticalSpacing(6)
        self._grid.setColumnStretch(1, 1)
        self._grid.setColumnMinimumWidth(0, head_wide)

    def add(self, head: str, lines: Sequence[str], role: str = "", *, struck: bool = False) -> None:
        """Some lines under one head, struck out where they no longer hold; nothing when there are none."""
        for number, line in enumerate(lines):
            row = self._grid.rowCount()
            if number == 0 and head:
                label = words(head, "small", wrap=False)
                label.setContentsMargins(0, 2, 0, 0)
                self._grid.addWidget(label, row, 0, Qt.AlignmentFlag.AlignTop)
            said = words(as_sentence(line), role)
            if struck:
                said.setStyleSheet("text-decoration: line-through;")
            self._grid.addWidget(said, row, 1)


def as_sentence(line: str) -> str:
    """The line with a capital in front, for short words of a list."""
    return line[:1].upper() + line[1:]
