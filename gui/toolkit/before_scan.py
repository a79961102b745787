"""What a widget was before a scanner typed into it, and how it becomes that again."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPersistentModelIndex, QSignalBlocker
from PySide6.QtGui import QTextCursor
from PySide6.QtWidgets import (
    QAbstractItemDelegate,
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QTextEdit,
    QWidget,
)
from shiboken6 import isValid

TAKEN_BACK = QEvent.Type(QEvent.registerEventType())
"""Sent to a field when what a scanner typed into it was taken out again."""
_MOST_STEPS = 32
"""Steps of undo after which a field is given up and written anew; a code and its prefix are shorter."""


def remember(widget: QWidget, *, is_after_pause: bool) -> Callable[[], None]:
    """How ``widget`` is now; called, it is so again.

    ``is_after_pause``: nothing was typed just before, so that undo may stop here.
    """
    if isinstance(widget, QLineEdit):
        return _line(widget, is_after_pause)
    if isinstance(widget, QPlainTextEdit | QTextEdit):
        return _text(widget, is_after_pause)
    if isinstance(widget, QAbstractSpinBox):
        return _spin_box(widget)
    if isinstance(widget, QComboBox):
        return _list_box(widget)
    return _view(widget) if isinstance(widget, QAbstractItemView) else _nothing


def _nothing() -> None:
    """Keys change nothing here."""


def _line(field: QLineEdit, is_after_pause: bool) -> Callable[[], None]:
    text, cursor, is_modified = field.text(), field.cursorPosition(), field.isModified()
    chosen = (field.selectionStart(), field.selectionLength())
    if is_after_pause:
        _end_step(field, cursor, chosen)

    def restore() -> None:
        _undo_until(field, text)
        field.setCursorPosition(cursor)
        if chosen[0] >= 0:
            field.setSelection(*chosen)
        field.setModified(is_modified)

    return restore


def _end_step(field: QLineEdit, cursor: int, chosen: tuple[int, int]) -> None:
    """What is typed from here on is a step of undo by itself: Qt ends one where the cursor was moved."""
    if chosen[0] >= 0 or not field.text():
        return  # typing over a selection, or into nothing, is one anyway
    blocked = QSignalBlocker(field)
    field.setCursorPosition(cursor - 1 if cursor else 1)
    field.setCursorPosition(cursor)
    blocked.unblock()


def _undo_until(field: QLineEdit, text: str) -> None:
    for _ in range(_MOST_STEPS):
        if field.text() == text:
            return
        if not field.isUndoAvailable():
            break
        field.undo()
    field.setText(text)


def _text(field: QPlainTextEdit | QTextEdit, is_after_pause: bool) -> Callable[[], None]:
    document, was = field.document(), field.textCursor()
    place, anchor = was.position(), was.anchor()
    text, is_modified = field.toPlainText(), document.isModified()
    if is_after_pause and is_modified and not field.isReadOnly():
        blocked = QSignalBlocker(document)
        # Qt then begins a step of undo with the next sign, which modifies it again.
        document.setModified(False)
        blocked.unblock()

    def restore() -> None:
        steps = 0
        while field.toPlainText() != text and document.isUndoAvailable() and steps < _MOST_STEPS:
            document.undo()
            steps += 1
        if field.toPlainText() != text:
            field.setPlainText(text)
        now = field.textCursor()
        now.setPosition(anchor)
        now.setPosition(place, QTextCursor.MoveMode.KeepAnchor)
        field.setTextCursor(now)
        document.setModified(is_modified)

    return restore


def _spin_box(field: QAbstractSpinBox) -> Callable[[], None]:
    line = field.lineEdit()
    text, cursor = line.text(), line.cursorPosition()

    def restore() -> None:
        line.setText(text)
        line.setCursorPosition(cursor)
        field.interpretText()

    return restore


def _list_box(field: QComboBox) -> Callable[[], None]:
    line = field.lineEdit()
    if line is not None:
        return _line(line, True)
    place = field.currentIndex()
    return lambda: field.setCurrentIndex(place)


def _view(view: QAbstractItemView) -> Callable[[], None]:
    """A list stays where the keyboard stood; a cell that was opened by the scan is closed as it was."""
    here = QPersistentModelIndex(view.currentIndex())

    def restore() -> None:
        editor = QApplication.focusWidget()
        if editor is not None and editor is not view and view.isAncestorOf(editor):
            view.itemDelegate().closeEditor.emit(editor, QAbstractItemDelegate.EndEditHint.RevertModelCache)
        if here.isValid() and isValid(view):
            view.setCurrentIndex(view.model().index(here.row(), here.column(), here.parent()))
        view.setFocus()

    return restore
