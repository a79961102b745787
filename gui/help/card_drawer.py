"""The drawer of commands: it comes out at the foot of the window, a card for each, sought at its front."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QModelIndex, QObject, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QFrame, QHBoxLayout, QLineEdit, QWidget

from core.wording.messages import say
from gui.help import screen_commands
from gui.help.card_list import CardList
from gui.help.screen_commands import Command
from gui.toolkit import actions, theme
from gui.widgets.layouts import stacked, words

if TYPE_CHECKING:
    from gui.toolkit.screen import Screen

_STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}
_COLUMNS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_PageUp: -1, Qt.Key.Key_PageDown: 1}
_NOT_TYPED = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier
_SIDEWAYS = (Qt.Key.Key_Left, Qt.Key.Key_Right)
_RETURN = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class CardDrawer(QFrame):
    """Open while it has the keyboard. What is done in it is done with the keyboard back where it was."""

    closed = Signal()

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self.setObjectName("card-drawer")
        self.setProperty("role", "drawer")
        self._before: QWidget | None = None
        """What had the keyboard when it was opened."""
        self._commands: tuple[Command, ...] = ()
        self.cards = CardList()
        self.field = QLineEdit()
        self.field.setObjectName("command-sought")
        self.field.setPlaceholderText(say("commands", "hint"))
        self.field.setAccessibleName(say("commands", "title"))
        self.foot = words("", wrap=True)
        self.foot.setObjectName("command-told")
        self._lay_out()
        self.cards.stood_on.connect(self._tell)
        self.cards.clicked.connect(self._clicked)
        self.field.textChanged.connect(self._seek)
        self.field.installEventFilter(self)
        window.installEventFilter(self)
        self.hide()

    def open(self, screen: Screen | None) -> None:
        """Lay in what can be done with ``screen`` in front, and take the keyboard."""
        self._before = QApplication.focusWidget()
        self._commands = screen_commands.of_window(self.window(), screen)
        self.field.clear()
        self._seek("")
        self._place()
        self.show()
        self.raise_()
        self.field.setFocus(Qt.FocusReason.PopupFocusReason)

    @Slot()
    def close_drawer(self) -> None:
        """Push it in; the keyboard goes back to where it was."""
        if self.isHidden():
            return
        had_keyboard = self.field.hasFocus()
        self.hide()
        before, self._before = self._before, None
        if before is not None and had_keyboard and before.isVisible():
            before.setFocus(Qt.FocusReason.PopupFocusReason)
        self.closed.emit()

    def do(self, command: Command | None) -> None:
        """Do what stands on a card, or say why that cannot be."""
        if command is None or command.why_not:
            self._tell(command)
            return
        self.close_drawer()
        QTimer.singleShot(0, self, command.do)

    # --- keys and mouse ------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.field and event.type() is QEvent.Type.ShortcutOverride:
            event.accept()  # while it is open no key does anything behind it
            return True
        if watched is self.field and event.type() is QEvent.Type.FocusOut and self.isVisible():
            QTimer.singleShot(0, self, self._close_if_left)
        elif watched is self.window() and event.type() is QEvent.Type.Resize:
            self._place()
        elif watched is self.field and isinstance(event, QKeyEvent) and event.type() is QEvent.Type.KeyPress:
            return self._key(event)
        return False

    def _key(self, event: QKeyEvent) -> bool:
        key = Qt.Key(event.key())
        is_plain = event.modifiers() in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier)
        if is_plain and key in _STEPS:
            self.cards.step(_STEPS[key])
        elif is_plain and key in _COLUMNS and not (key in _SIDEWAYS and self.field.text()):
            self.cards.step_column(_COLUMNS[key])
        elif is_plain and key in _RETURN:
            self.do(self.cards.command)
        elif key == Qt.Key.Key_Escape:
            self.close_drawer()
        elif key in (Qt.Key.Key_Tab, Qt.Key.Key_Backtab):
            self.cards.step(1 if key == Qt.Key.Key_Tab else -1)
        else:
            return self._is_key_of_a_card(event)
        return True

    def _is_key_of_a_card(self, event: QKeyEvent) -> bool:
        """A command's own key does it from here as well; the drawer's own pushes it in."""
        pressed = QKeySequence(event.keyCombination()).toString(QKeySequence.SequenceFormat.NativeText)
        command = next((each for each in self._commands if each.keys and each.keys == pressed), None)
        if command is None or (
            not event.modifiers() & _NOT_TYPED and event.text().isprintable() and event.text()
        ):
            return False
        if command.name == actions.FIND_COMMAND.name:
            self.close_drawer()
        else:
            self.do(command)
        return True

    @Slot(QModelIndex)
    def _clicked(self, index: QModelIndex) -> None:
        self.do(self.cards.command)

    @Slot()
    def _close_if_left(self) -> None:
        focus = QApplication.focusWidget()
        if focus is not None and not self.isAncestorOf(focus):
            self._before = None
            self.close_drawer()

    # --- showing -------------------------------------------------------------------------

    @Slot(str)
    def _seek(self, wanted: str) -> None:
        found = screen_commands.found(self._commands, wanted)
        self.cards.lay(found if wanted.strip() else _with_guides(found))
        if not found:
            self._tell(None)

    @Slot(object)
    def _tell(self, command: Command | None) -> None:
        if command is None:
            told = say("commands", "nothing", wanted=self.field.text().strip())
        elif command.why_not:
            told = say("commands", "why", words=command.words, why=command.why_not)
        else:
            told = say("commands", "does", words=command.words)
        self.foot.setText(told)
        self.foot.setAccessibleName(told)
        if self.isVisible():
            spoken = told if command is None else command.spoken
            QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self.field, spoken))

    def _place(self) -> None:
        room = self.window().rect()
        high = min(max(room.height() * 3 // 5, 36 * theme.UNIT), room.height())
        self.setGeometry(0, room.height() - high, room.width(), high)

    def _lay_out(self) -> None:
        whole = stacked(self, 0)
        inside = QWidget()
        column = stacked(inside)
        margin = 2 * theme.UNIT
        column.setContentsMargins(margin, theme.UNIT, margin, theme.UNIT)
        column.addWidget(self.cards)
        whole.addWidget(inside, 1)
        front = QFrame()
        front.setProperty("role", "drawer-front")
        row = QHBoxLayout(front)
        row.setContentsMargins(margin, theme.UNIT, margin, theme.UNIT)
        row.setSpacing(margin)
        row.addWidget(self.field, 2)
        row.addWidget(self.foot, 3)
        whole.addWidget(front)


def _with_guides(found: tuple[Command, ...]) -> list[Command | str]:
    """All cards behind their guide cards: of this screen, of everywhere, and what must wait."""
    now = [each for each in found if not each.why_not]
    parts = (
        ("here", [each for each in now if each.is_here]),
        ("everywhere", [each for each in now if not each.is_here]),
        ("later", [each for each in found if each.why_not]),
    )
    laid: list[Command | str] = []
    for guide, cards in parts:
        if cards:
            laid += [say("commands", f"guide-{guide}"), *cards]
    return laid
