"""What can be done in a window now, read from the actions and buttons that it has."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QWidget

from core.wording.messages import knows, say
from gui.help.likeness import likeness
from gui.toolkit import actions
from gui.toolkit.text import sentence_case

if TYPE_CHECKING:
    from gui.toolkit.screen import Screen


class Command(NamedTuple):
    """One thing that can be done, or could be at another time."""

    words: str
    keys: str
    """As they are written on this system; empty where it has none."""
    why_not: str
    """Why it cannot be done now; empty where it can."""
    is_here: bool
    """Whether it belongs to the screen in front; else it can be done anywhere in the window."""
    do: Callable[[], object]
    name: str = ""
    """Of the action or button."""
    also: str = ""
    """Further words by which it is found."""

    @property
    def spoken(self) -> str:
        """The whole card for a screen reader."""
        return ". ".join(part for part in (self.words, self.keys, self.why_not) if part)


def of_window(window: QWidget, screen: Screen | None) -> tuple[Command, ...]:
    """Every command once: those of the screen in front, then those of the window."""
    here = () if screen is None else (*_of_screen(screen), *_places(screen))
    everywhere = (_of_action(action, "", is_here=False) for action in window.actions() if action.text())
    return tuple(_once([*here, *everywhere]))


def found(commands: tuple[Command, ...], wanted: str) -> tuple[Command, ...]:
    """Those that answer ``wanted``, the likest first; all of them, as they lie, where nothing is wanted."""
    if not wanted.strip():
        return commands
    rated = [(_rating(each, wanted), each) for each in commands]
    likely = [(rating, each) for rating, each in rated if rating > 0]
    return tuple(each for _, each in sorted(likely, key=lambda pair: -pair[0]))


# --- inside ------------------------------------------------------------------------------


def _rating(command: Command, wanted: str) -> float:
    whole = likeness(wanted, (command.words, command.keys))
    other = 0.9 * likeness(wanted, (command.words, command.keys, command.also))
    return max(whole, other) * (0.99 if command.why_not else 1.0)


def _of_screen(screen: Screen) -> Iterator[Command]:
    for action in screen.actions():
        yield _of_action(action, screen.bars(action.objectName()), is_here=True)
    for button in screen.findChildren(QAbstractButton):
        command = _of_button(button, screen)
        if command is not None:
            yield command


def _places(screen: Screen) -> Iterator[Command]:
    for words, turn in screen.places():
        yield Command(say("commands", "open-place", place=words), "", "", True, turn)


def _of_action(action: QAction, barred: str, *, is_here: bool) -> Command:
    name = action.objectName()
    shown = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
    why_not = barred or ("" if action.isEnabled() else _reason(name))
    words = knows("window", name) and say("window", name)
    return Command(
        words or actions.plain(action.text()), shown, why_not, is_here, action.trigger, name, _also(name)
    )


def _of_button(button: QAbstractButton, screen: Screen) -> Command | None:
    """None for what is no command of its own: parts of fields and tables, and what stands on other pages."""
    keys = actions.keys_of(button)
    words = sentence_case(actions.told_on(button) or actions.plain(button.text(), keys))
    is_there = not button.isHidden() if actions.has_key_elsewhere(button) else button.isVisibleTo(screen)
    if not words or button.window() is not screen.window() or not (is_there or _is_of_screen(keys)):
        return None
    if isinstance(button.parentWidget(), QAbstractItemView):
        return None
    name = button.objectName()
    barred = screen.bars(name)
    can = is_there and button.isEnabled()
    shown = QKeySequence(keys).toString(QKeySequence.SequenceFormat.NativeText)
    why_not = "" if can else barred or _reason(name)
    return Command(words, shown, why_not, True, button.click, name, _also(name))


def _is_of_screen(keys: str) -> bool:
    """Whether a button of these keys belongs to the screen also while it is hidden; letters are of forms."""
    return keys.startswith(("Ctrl+", "F"))


def _reason(name: str) -> str:
    """What is told of a button that is not there, or not enabled."""
    return say("commands", f"why-{name}" if knows("commands", f"why-{name}") else "not-now")


def _also(name: str) -> str:
    return say("commands", f"also-{name}") if knows("commands", f"also-{name}") else ""


def _once(commands: list[Command]) -> Iterator[Command]:
    """A thing that has an action and a button is one command; that which can be done stands for both."""
    kept: dict[str, Command] = {}
    by_words: dict[str, str] = {}
    for each in commands:
        key = each.keys or each.words.casefold()
        key = by_words.setdefault(each.words.casefold(), key)
        before = kept.get(key)
        if before is None or (before.why_not and not each.why_not):
            kept[key] = each if before is None else each._replace(keys=each.keys or before.keys)
    return iter(kept.values())
