"""Whether the ways to agree on the price are at hand: the Customer side shows them while they are."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QApplication, QWidget


class WaysAtHand(QObject):
    """They are from when the keyboard comes to them until it goes back to the box; what is pressed below
    them, a deposit or Book, leaves them on show."""

    changed = Signal(bool)

    def __init__(self, ways: QWidget, before: tuple[QWidget, ...], parent: QObject) -> None:
        """``before``: where the box itself is counted."""
        super().__init__(parent)
        self._ways = ways
        self._before = before
        self.are_at_hand = False
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._follow)

    @Slot(QWidget, QWidget)
    def _follow(self, _: QWidget | None, now: QWidget | None) -> None:
        if now is None:
            return
        if self._ways.isAncestorOf(now) or now is self._ways:
            self._tell(True)
        elif any(part.isAncestorOf(now) or now is part for part in self._before):
            self._tell(False)

    def _tell(self, are_at_hand: bool) -> None:
        if are_at_hand is not self.are_at_hand:
            self.are_at_hand = are_at_hand
            self.changed.emit(are_at_hand)
