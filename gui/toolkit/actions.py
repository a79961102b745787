"""Every action of the window once: its words, its key and what it is for."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QWidget

from core.wording.messages import say
from gui.toolkit.plain_text import tip


class Key(NamedTuple):
    """An action by name and the keys that do it; its words are in the wording file ``window``."""

    name: str
    keys: str

    @property
    def words(self) -> str:
        return say("window", self.name)

    @property
    def words_with_keys(self) -> str:
        """As a button along the top shows it."""
        return say("window", "moment", words=self.words, keys=self.keys)


MOMENTS = (
    Key("counter", "F1"),
    Key("phone", "F2"),
    Key("bench", "F3"),
    Key("pickup", "F4"),
    Key("shop", "F5"),
)
CUSTOMER_SIDE = Key("customer-side", "F9")
LOOK = Key("look", "F11")
SIGN_IN = Key("sign-in", "Ctrl+I")
QUIT = Key("quit", "Ctrl+Q")
AFRESH = Key("begin-afresh", "Ctrl+Shift+N")
LEAVE_PRACTICE = Key("leave-practice", "Ctrl+Shift+Q")
WAY_OUT = Key("way-out", "Ctrl+G")

BOOK = Key("book-box", "Ctrl+Return")
SIGN = Key("have-signed", "Ctrl+S")
NEW_BOX = Key("new-box", "Ctrl+N")
UNDO = Key("undo", "Ctrl+Z")
REDO = Key("redo", "Ctrl+Y")
REPEAT = Key("repeat-row", "Ctrl+D")
REMOVE = Key("remove-row", "Ctrl+Del")
LOOK_OVER = Key("look-over-row", "Ctrl+L")
MEASURE = Key("measure-packs", "Ctrl+M")
HELP_DAY = Key("help-day", "Ctrl+H")
LINE = Key("type-line", "F6")
FINDINGS = Key("go-to-findings", "F7")
TOLD = Key("say-told", "F8")
OF_THE_TRAY = (REPEAT, REMOVE, UNDO, REDO, NEW_BOX, BOOK, LOOK_OVER, MEASURE, HELP_DAY)
"""The keys of the Counter's tray, as they are told on it."""


def action(key: Key, parent: QWidget) -> QAction:
    """The `QAction` of one key, added to ``parent`` so that its shortcut works there."""
    made = QAction(parent)
    made.setObjectName(key.name)
    made.setShortcut(QKeySequence(key.keys))
    reword(made, key)
    parent.addAction(made)
    return made


def reword(made: QAction, key: Key) -> None:
    """Write the words of ``key`` in the language of now."""
    made.setText(key.words)
    made.setToolTip(tip(say("window", "action_hint", words=key.words, keys=key.keys)))
