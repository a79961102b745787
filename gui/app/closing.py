"""Closing the window: what was typed is kept first, and where it cannot be, the person decides."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QWidget

from core.wording.messages import say
from gui.toolkit.plain_text import plain_message

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMessageBox, QPushButton

    from gui.toolkit.screen import Screen
    from gui.toolkit.workers import Work

LONGEST_WAIT_MS = 5000
"""How long closing waits for the records to answer before it asks (an assumption)."""


class Closing(QObject):
    """Says whether the window may go; asks once where something would be lost."""

    wanted = Signal()
    """The person decided: close after all, or try once more."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._gives_up = False
        self._is_waiting = False
        self._box: QMessageBox | None = None
        self._lose: QPushButton | None = None
        self._again: QPushButton | None = None

    @property
    def is_under_way(self) -> bool:
        """Whether the window is being closed, and only waits for the records."""
        return self._is_waiting

    def may_close(self, work: Work, screens: Iterable[Screen]) -> bool:
        """Whether all is kept that was typed, or the person gave it up; the screens have been left."""
        if self._gives_up:
            return True
        self._is_waiting = True
        try:
            work.wait_for_records(LONGEST_WAIT_MS)
        finally:
            self._is_waiting = False
        found = tuple(screens)
        stakes = [what for screen in found for what in screen.at_stake]
        if any(screen.has_unkept for screen in found):
            self._ask(say("window", "closing_not_kept"), may_help=True)
        elif stakes:
            from core.wording.locale_figures import listed  # not before the first paint

            self._ask(say("window", "closing_unfinished", what=listed(stakes)))
        return self._box is None

    def ask_nothing(self) -> None:
        """Nobody is there to be asked: the next closing closes, whatever is lost by it."""
        self._gives_up = True

    def _ask(self, sentence: str, *, may_help: bool = False) -> None:
        """``may_help``: to try again may keep what was typed."""
        from PySide6.QtWidgets import QMessageBox

        if self._box is not None:
            return
        box = self._box = plain_message(self._window)
        box.setObjectName("closing")
        box.setWindowTitle(say("window", "closing_title"))
        box.setText(sentence)
        again, role = say("window", "closing_again"), QMessageBox.ButtonRole
        self._again = box.addButton(again, role.AcceptRole) if may_help else None
        self._lose = box.addButton(say("window", "closing_lose"), role.DestructiveRole)
        stay = box.addButton(say("window", "closing_stay"), role.RejectRole)
        box.setDefaultButton(self._again or stay)
        box.setEscapeButton(stay)
        box.finished.connect(self._was_answered)
        box.open()

    @Slot()
    def _was_answered(self) -> None:
        box, self._box = self._box, None
        assert box is not None
        chosen = box.clickedButton()
        box.deleteLater()
        self._gives_up = chosen is self._lose
        is_again = self._again is not None and chosen is self._again
        if self._gives_up or is_again:
            self.wanted.emit()
