"""Every tick of an open pickup can be taken back, and set again."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLineEdit, QWidget

from gui.pickup.checklist import Checklist
from gui.toolkit import actions

_KEYS = (QKeySequence(actions.UNDO.keys), QKeySequence(actions.REDO.keys))


class TickHistory(QObject):
    """What was checked off before each tick, newest last, and what was taken back."""

    wanted = Signal(object)
    """The key of undo or redo was pressed: `undo` or `redo`, to be given the checklist as it is."""

    def __init__(self, screen: QWidget, box: QLineEdit) -> None:
        """Hear the keys on ``screen``; they are those of the ``box`` while something is typed in it."""
        super().__init__(screen)
        self._box = box
        box.installEventFilter(self)
        for key, do in ((actions.UNDO, self.undo), (actions.REDO, self.redo)):
            made = actions.action(key, screen)
            made.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            made.triggered.connect(partial(self._want, do))
        self._before: list[frozenset[str]] = []
        self._after: list[frozenset[str]] = []

    def _want(self, step: object, _: bool = False) -> None:
        self.wanted.emit(step)

    def forget(self) -> None:
        """Another order, or none."""
        self._before.clear()
        self._after.clear()

    def note(self, before: Checklist, now: Checklist) -> None:
        """A tick was set or taken out; a tick that was there already is no step."""
        if before.keys != now.keys:
            self._before.append(before.keys)
            self._after.clear()

    def undo(self, now: Checklist) -> Checklist:
        """The checklist before the last tick; what cannot go home any more stays without one."""
        return self._step(now, self._before, self._after)

    def redo(self, now: Checklist) -> Checklist:
        """The checklist before the last undo."""
        return self._step(now, self._after, self._before)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """An empty field would keep undo to itself, too."""
        if event.type() is not QEvent.Type.ShortcutOverride or not isinstance(event, QKeyEvent):
            return False
        is_ours = not self._box.text() and QKeySequence(event.keyCombination()) in _KEYS
        if is_ours:
            event.ignore()
        return is_ours

    @staticmethod
    def _step(now: Checklist, taken: list[frozenset[str]], kept: list[frozenset[str]]) -> Checklist:
        while taken:
            stepped = now.with_keys(taken.pop())
            if stepped.keys != now.keys:
                kept.append(now.keys)
                return stepped
        return now
