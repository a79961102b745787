"""A button for one answer of a question, pressed by Alt and its digit."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy

from core.model.quote_records import Answer
from gui.toolkit import theme
from gui.toolkit.plain_text import tip
from gui.toolkit.text import say
from gui.widgets.instant_buttons import InstantButton


class AnswerButton(InstantButton):
    """An answer on one line; too long a one is cut on the screen and whole in the tool tip."""

    def __init__(self, n: int) -> None:
        super().__init__()
        self._n = n
        self._whole = ""
        self.setObjectName(f"answer-{n}")
        self.setProperty("role", "answer")
        self.setFont(theme.font(theme.SMALL))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def offer(self, answer: Answer) -> None:
        """Stand for this answer."""
        means = say("counter", "answer_means", words=answer.words, means=answer.means)
        both = means if answer.means else answer.words
        self._whole = say("counter", "answer", n=self._n, words=both.replace("&", "&&"))
        self.setToolTip(tip(both))
        self.setAccessibleName(f"{self._n}  {both}")
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        room = self.width() - 4 * theme.UNIT
        flags = int(Qt.TextFlag.TextShowMnemonic)
        shown = self.fontMetrics().elidedText(self._whole, Qt.TextElideMode.ElideRight, room, flags)
        if shown != self.text():
            self.setText(shown)
