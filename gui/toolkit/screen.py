"""What every screen of a moment can do."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QTimer, Signal, Slot
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QWidget

from core.model.errors import TapewrightError
from core.model.names import ELSEWHERE
from gui.toolkit.screen_context import Desk

LATER_MS = 500
"""How soon after the typing a screen shows what was changed elsewhere meanwhile."""


class Screen(QWidget):
    """A screen named by its moment. It reads when it is entered, and goes stale while it is hidden."""

    said = Signal(str)
    """Something done, to be told in one sentence."""
    wants_moment = Signal(str, str)
    """To go on on the screen of this name with this tape's code, or the number of this order."""
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
        self._later = QTimer(self, interval=LATER_MS, singleShot=True)
        self._later.timeout.connect(self._read_later)

    @property
    def has_unkept(self) -> bool:
        """Whether something typed here is not kept yet, as far as anybody knows."""
        return False

    @property
    def at_stake(self) -> tuple[str, ...]:
        """What was done here, in words, and is kept nowhere before it is finished."""
        return ()

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
        self._stale = True
        if self._shown:
            self._read_when_free(ELSEWHERE in changed)

    def holds_typing(self) -> bool:
        """Whether reading again would lose what somebody is just typing."""
        return False

    @Slot()
    def _read_later(self) -> None:
        if self._shown and self._stale:
            self._read_when_free(True)

    def _read_when_free(self, waits: bool) -> None:
        """Read again; what was changed elsewhere ``waits`` until the typing is done."""
        if waits and self.holds_typing():
            self._later.start()
            return
        self._stale = False
        self.refresh()

    def refresh(self) -> None:
        """Ask for the records this screen shows."""

    def hear_scan(self, code: str) -> bool:
        """The scanner read a tape's code, or the number of an order; whether that is of use here."""
        return False

    def bars(self, name: str) -> str:
        """Why the action or button of this name cannot be used now; empty where it is not barred."""
        return ""

    def places(self) -> tuple[tuple[str, Callable[[], object]], ...]:
        """Places within the screen by their titles, and what turns to each."""
        return ()

    def take_focus(self) -> None:
        """Put the keyboard where the next key belongs."""

    @Slot(object)
    def show_failure(self, failure: TapewrightError) -> None:
        """Pass a named failure on to the window's banner."""
        self.refused.emit(failure)


def is_typed_in(within: QWidget) -> bool:
    """Whether a field on show inside ``within`` holds something typed that nobody took yet."""
    lines = [field for field in within.findChildren(QLineEdit) if field.isModified() and field.text()]
    texts = [text for text in within.findChildren(QPlainTextEdit) if text.document().isModified()]
    return any(field.isVisibleTo(within) for field in (*lines, *texts))
