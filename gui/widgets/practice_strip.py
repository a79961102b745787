"""The strip across the top of every screen of a shop to practise in: nothing on it is real."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QPushButton

from core.wording.messages import say
from gui.toolkit import actions, theme
from gui.toolkit.plain_text import plain_label

_WAYS = (actions.AFRESH, actions.LEAVE_PRACTICE)


class PracticeStrip(QFrame):
    """The words; for whoever works here also the two ways on. Hidden in a real shop."""

    def __init__(self, size: float | None = None, *, leads_on: bool = True) -> None:
        super().__init__()
        self.setObjectName("practice-strip")
        self.setProperty("role", "practice")
        self._row = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        self._row.setContentsMargins(2 * theme.UNIT, theme.UNIT // 2, 2 * theme.UNIT, theme.UNIT // 2)
        self._row.setSpacing(theme.UNIT // 2)
        self._words = plain_label()
        self._words.setWordWrap(True)
        self._words.setFont(theme.font(theme.BODY if size is None else size, QFont.Weight.Bold))
        self._row.addWidget(self._words, 1)
        self.ways = {key.name: _way(key) for key in _WAYS} if leads_on else {}
        beside = QHBoxLayout()
        beside.setSpacing(2 * theme.UNIT)
        for way in self.ways.values():
            beside.addWidget(way)
        self._row.addLayout(beside)
        self.hide()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Where the words would have to wrap beside the ways on, these stand below them."""
        margins = self._row.contentsMargins()
        room = event.size().width() - margins.left() - margins.right()
        beside = sum(way.sizeHint().width() + 2 * theme.UNIT for way in self.ways.values())
        fits = self._words.fontMetrics().horizontalAdvance(self.words) + beside <= room
        way = QBoxLayout.Direction.LeftToRight if fits else QBoxLayout.Direction.TopToBottom
        self._row.setDirection(way)
        super().resizeEvent(event)

    def enlarge(self, points: float) -> None:
        """Stand there in type of this size, on another screen."""
        self._words.setFont(theme.font(points, QFont.Weight.Bold))

    @property
    def words(self) -> str:
        return self._words.text()

    def tell(self, is_practice: bool) -> None:
        """Stand there in the language of now, or go."""
        self.setVisible(is_practice)
        if not is_practice:
            return
        self._words.setText(say("settings", "first-practice-strip"))
        self.setAccessibleName(self._words.text())
        for key in _WAYS if self.ways else ():
            self.ways[key.name].setText(key.words_with_keys)
            self.ways[key.name].setAccessibleName(key.words)


def _way(key: actions.Key) -> QPushButton:
    button = QPushButton(key.words_with_keys)
    button.setObjectName(key.name)
    button.setProperty("role", "word")
    button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    return button
