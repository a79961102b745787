"""Amounts of money in a list: words at the left, amounts at the right, the last one large."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from gui.toolkit import theme
from gui.widgets.layouts import empty, words

_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom


class AmountList(QWidget):
    """Words and amounts in two columns; read to a screen reader as one text."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("amounts")
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setVerticalSpacing(theme.UNIT // 2)
        self._grid.setHorizontalSpacing(2 * theme.UNIT)
        self._grid.setColumnStretch(0, 1)

    def show_amounts(self, lines: Sequence[tuple[str, str]], last: tuple[str, str]) -> None:
        """Write the ``lines``, each words and an amount, and below them the ``last`` one in large type."""
        empty(self._grid)
        for row, (what, amount) in enumerate(lines):
            self._grid.addWidget(words(what, "small"), row, 0)
            self._grid.addWidget(words(amount, wrap=False), row, 1, _RIGHT)
        self._grid.addWidget(words(last[0], "lead"), len(lines), 0)
        self._grid.addWidget(words(last[1], "great", wrap=False), len(lines), 1, _RIGHT)
        self.setAccessibleName(". ".join(f"{what}: {amount}" for what, amount in (*lines, last)))
