"""The strip that says when the shop's records keep somebody waiting, or cannot be reached."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer, Slot
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QFrame, QHBoxLayout

from core.wording.messages import say
from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label

if TYPE_CHECKING:
    from gui.toolkit.workers import Work

TOLD_AFTER_S = 3.0
"""Nobody sits before a silent window for longer than five seconds: this, and the timer's rhythm."""
_LOOK_MS = 250


class LinkStrip(QFrame):
    """Hidden while the records answer."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("link-strip")
        self.setProperty("role", "caution")
        self._work: Work | None = None
        self._is_cut_off = False
        row = QHBoxLayout(self)
        row.setContentsMargins(2 * theme.UNIT, theme.UNIT // 2, 2 * theme.UNIT, theme.UNIT // 2)
        self._words = plain_label()
        self._words.setWordWrap(True)
        self._words.setFont(theme.font(theme.BODY, QFont.Weight.Bold))
        row.addWidget(self._words, 1)
        self._timer = QTimer(self, interval=_LOOK_MS)
        self._timer.timeout.connect(self._look)
        self.hide()

    @property
    def sentence(self) -> str:
        """What stands there now, or nothing."""
        return "" if self.isHidden() else self._words.text()

    def follow(self, work: Work) -> None:
        """Say from now on how long these records keep somebody waiting."""
        self._work, self._is_cut_off = work, False
        work.link_changed.connect(self._note_link)
        self._timer.start()

    @Slot()
    def end(self) -> None:
        """The shop is closed."""
        self._timer.stop()
        self._work = None
        self.hide()

    @Slot(bool)
    def _note_link(self, is_there: bool) -> None:
        if self.sender() is self._work:
            self._is_cut_off = not is_there
            self._look()

    @Slot()
    def _look(self) -> None:
        waits = self._work is not None and self._work.waited_seconds >= TOLD_AFTER_S
        if self._is_cut_off:
            self._tell(say("window", "cut_off"))
        elif waits:
            self._tell(say("window", "still_waiting"))
        else:
            self.hide()

    def _tell(self, sentence: str) -> None:
        if sentence != self.sentence:
            self._words.setText(sentence)
            self.setAccessibleName(sentence)
            self.show()
