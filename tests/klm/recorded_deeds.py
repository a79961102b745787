"""What really went into the window while a task was done: keys, presses of the mouse, scans."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPoint, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractItemView, QApplication, QLineEdit, QTableView, QWidget

from tests.klm.operators import Deed, Did, keys_of
from tests.support.screens import press, press_text

_HELD = (Qt.Key.Key_Control, Qt.Key.Key_Alt, Qt.Key.Key_Shift, Qt.Key.Key_Meta)
_TERMINATORS = {
    Qt.Key.Key_Return: "return",
    Qt.Key.Key_Enter: "enter",
    Qt.Key.Key_Tab: "tab",
    Qt.Key.Key_Down: "down",
}
_COMMANDING = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier


class Recorder(QObject):
    """Sees what goes to whoever has the keyboard or lies under the pointer."""

    def __init__(self) -> None:
        super().__init__()
        self.deeds: list[Deed] = []
        self._down: set[int] = set()
        self._held = 0
        self._is_scanned = False

    def eventFilter(self, receiver: QObject, event: QEvent) -> bool:
        kind = event.type()
        # Each key is announced so, first to whoever has the keyboard; a table hands it on to its editor.
        if kind == QEvent.Type.ShortcutOverride and receiver is QApplication.focusWidget():
            assert isinstance(event, QKeyEvent)
            self._note_key(event)
        elif kind == QEvent.Type.KeyRelease and isinstance(event, QKeyEvent):
            self._down.discard(event.key())
        elif kind == QEvent.Type.MouseButtonPress and isinstance(receiver, QWidget):
            self.deeds.append(Deed(Did.PLACE if _takes_text(receiver) else Did.POINT, receiver.objectName()))
        return False

    def scan(self, code: str) -> None:
        """A scanner types the code: one deed of the hand, whatever keys the window gets."""
        self.deeds.append(Deed(Did.SCAN, code))
        self._is_scanned = True
        press_text(code)
        press(Qt.Key.Key_Return)
        self._is_scanned = False

    def _note_key(self, event: QKeyEvent) -> None:
        if event.key() in self._down or self._is_scanned:
            return
        self._down.add(event.key())
        if event.key() in _HELD:
            self._held += 1
            return
        is_text = bool(event.text().strip() or event.text() == " ") and not event.modifiers() & _COMMANDING
        is_text = is_text and event.key() not in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape)
        if is_text and _writes(QApplication.focusWidget(), event):
            self.deeds.append(Deed(Did.WRITE, "", keys_of(event.text()) + self._held))
        else:
            named = None if event.modifiers() & _COMMANDING else _TERMINATORS.get(Qt.Key(event.key()))
            unit = named or f"{event.modifiers().value}+{event.key()}"
            self.deeds.append(Deed(Did.COMMAND, unit, 1 + self._held))
        self._held = 0


def _writes(focus: QWidget | None, event: QKeyEvent) -> bool:
    """Whether the key is a letter of a text: a space on a tick box, or in a checklist, is none."""
    return isinstance(focus, QLineEdit | QTableView)


def _takes_text(widget: QWidget) -> bool:
    return isinstance(widget, QLineEdit) or isinstance(widget.parent(), QAbstractItemView)


def recorded(task: Callable[[Recorder], object]) -> list[Deed]:
    """What the task sent to the window."""
    application = QApplication.instance()
    assert application is not None
    recorder = Recorder()
    application.installEventFilter(recorder)
    try:
        task(recorder)
    finally:
        application.removeEventFilter(recorder)
    return recorder.deeds


def click(widget: QWidget, place: QPoint | None = None) -> None:
    """Point at the middle of a widget, or at a place in it, and click."""
    QTest.mouseClick(
        widget, Qt.MouseButton.LeftButton, pos=widget.rect().center() if place is None else place
    )
