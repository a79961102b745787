"""A sentence under a field that gives way to the layout: it never makes the screen wider."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

from gui.toolkit.plain_text import tip


class Hint(QLabel):
    """Wraps inside the room it is given; whole as accessible name and tool tip."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        self.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def say(self, sentence: str) -> None:
        """Show this sentence."""
        if sentence != self.text():
            self.setText(sentence)
            self.setToolTip(tip(sentence))
            self.setAccessibleName(sentence)
