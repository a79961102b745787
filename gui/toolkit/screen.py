"""What every screen of a moment can do."""

from __future__ import annotations

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QWidget

from core.model.errors import TapewrightError
from gui.toolkit.screen_context import Desk


class Screen(QWidget):
    """A screen named by its moment. It reads when it is entered, and goes stale while it is hidden."""

    said = Signal(str)
    """Something done, to be told in one sentence."""
    refused = Signal(object)
    """A `TapewrightError` to be shown with the way out."""
    unsaved_changed = Signal(bool)

    name = ""
    """Its word along the top."""
    kinds: frozenset[str] = frozenset()
    """Kinds of change that make it stale."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self._stale = True
        self._shown = False

    @property
    def has_unkept(self) -> bool:
        """Whether something typed here is not kept yet, as far as anybody knows."""
        return False

    def enter(self) -> None:
        """The person turned to this screen: read what is stale and take the keyboard."""
        self._shown = True
        if self._stale:
            self._stale = False
            self.refresh()
        self.take_focus()

    def leave(self) -> None:
        """The person turned away."""
        self._shown = False

    def note_change(self, changed: frozenset[str]) -> None:
        """Records changed: read again now if on show, else when next entered."""
        if not changed & self.kinds:
            return
        if self._shown:
            self.refresh()
        else:
            self._stale = True

    def refresh(self) -> None:
        """Ask for the records this screen shows."""

    def take_focus(self) -> None:
        """Put the keyboard where the next key belongs."""

    @Slot(object)
    def show_failure(self, failure: TapewrightError) -> None:
        """Pass a named failure on to the window's banner."""
        self.refused.emit(failure)
