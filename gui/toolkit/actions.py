"""Every action of the window once: its words, its key and what it is for."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence, QShortcut
from PySide6.QtWidgets import QAbstractButton, QWidget

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
    Key("counter", "Ctrl+1"),
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
FIND_COMMAND = Key("find-command", "Ctrl+K")
HELP = Key("help", "F1")
IN_SIGHT = (FIND_COMMAND, HELP, CUSTOMER_SIDE, LOOK)
"""What stands beside the moments, with short words, as far as there is room: the first the longest."""

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


# --- buttons: the key they are given, and their words while their name says what they do to what --------


_KEYS, _TOLD, _NAMED = "keys", "told", "named"


def note_key(button: QAbstractButton, keys: str) -> None:
    """A shortcut that is not the button's own presses it."""
    button.setProperty(_KEYS, keys)


def has_key_elsewhere(button: QAbstractButton) -> bool:
    """Whether its key works while the button's place is taken by something else."""
    return bool(button.property(_KEYS))


def key_given(button: QAbstractButton) -> str:
    """The key of a shortcut that presses the button, or nothing."""
    noted = button.property(_KEYS)
    if noted:
        return str(noted)
    own = button.findChild(QShortcut, options=Qt.FindChildOption.FindDirectChildrenOnly)
    return "" if own is None else own.key().toString(QKeySequence.SequenceFormat.PortableText)


def keys_of(button: QAbstractButton) -> str:
    """The key that presses a button, however it was given."""
    given = key_given(button)
    sequence = QKeySequence(given) if given else button.shortcut()
    return sequence.toString(QKeySequence.SequenceFormat.PortableText)


def plain(words: str, keys: str = "") -> str:
    """The words on a button without its keys and the mark of its access key."""
    told = words.replace("&&", "\0").replace("&", "").replace("\0", "&")
    return told.removesuffix(keys).strip() if keys else told.strip()


def told_on(button: QAbstractButton) -> str:
    """What the button does, without what it does it to: its name, or nothing where its text says it."""
    name = button.accessibleName()
    return str(button.property(_TOLD)) if name and name == button.property(_NAMED) else name


def name_with_target(button: QAbstractButton, told: str, name: str) -> None:
    """Say to a screen reader what the button does to what; its card goes on telling ``told``."""
    button.setProperty(_TOLD, told)
    button.setProperty(_NAMED, name)
    button.setAccessibleName(name)
