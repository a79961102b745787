"""A sentence on one line that gives way to the layout: cut on the screen, whole for whoever asks."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget


class OneLine(QLabel):
    """Keeps the whole sentence as its accessible name and tool tip."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sentence = ""
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def say(self, sentence: str) -> None:
        """Show this sentence."""
        self.sentence = sentence
        self.setToolTip(sentence)
        self.setAccessibleName(sentence)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        shown = self.fontMetrics().elidedText(self.sentence, Qt.TextElideMode.ElideRight, self.width())
        if shown != self.text():
            self.setText(shown)
