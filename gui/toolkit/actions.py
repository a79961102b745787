"""Every action of the window once: its words, its key and what it is for."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QWidget


@dataclass(frozen=True, slots=True)
class Key:
    """An action by name: the words on it and the keys that do it."""

    name: str
    words: str
    keys: str


MOMENTS = (
    Key("counter", "Counter", "F1"),
    Key("phone", "Phone", "F2"),
    Key("bench", "Bench", "F3"),
    Key("pickup", "Pickup", "F4"),
    Key("shop", "Shop", "F5"),
)
CUSTOMER_SIDE = Key("customer-side", "Turn to the customer", "F9")
LOOK = Key("look", "Change the light", "F11")
QUIT = Key("quit", "Close Tapewright", "Ctrl+Q")

BOOK = Key("book-box", "Book the box", "Ctrl+Return")
NEW_BOX = Key("new-box", "Start a new box", "Ctrl+N")
UNDO = Key("undo", "Undo", "Ctrl+Z")
REDO = Key("redo", "Do it again", "Ctrl+Y")
REPEAT = Key("repeat-row", "Repeat the row above", "Ctrl+D")
REMOVE = Key("remove-row", "Take the row out", "Ctrl+Del")
LOOK_OVER = Key("look-over-row", "Look a tape over", "Ctrl+L")
MEASURE = Key("measure-packs", "Measure its packs", "Ctrl+M")
HELP_DAY = Key("help-day", "What would help the day", "Ctrl+H")
OF_THE_TRAY = (REPEAT, REMOVE, UNDO, REDO, NEW_BOX, BOOK, LOOK_OVER, MEASURE, HELP_DAY)
"""The keys of the Counter's tray, as they are told on it."""


def action(key: Key, parent: QWidget) -> QAction:
    """The `QAction` of one key, added to ``parent`` so that its shortcut works there."""
    made = QAction(key.words, parent)
    made.setObjectName(key.name)
    made.setShortcut(QKeySequence(key.keys))
    made.setToolTip(f"{key.words} ({key.keys})")
    parent.addAction(made)
    return made
