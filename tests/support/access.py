"""What somebody meets who cannot see the screen, or cannot hit a small thing, or has no mouse."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAction, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QLabel,
    QLineEdit,
    QScrollArea,
    QWidget,
)

LEAST = 24
"""Pixels of a target in either direction (WCAG 2.2, success criterion 2.5.8)."""


def within_reach(root: QWidget) -> list[QWidget]:
    """Visible widgets that the keyboard comes to or the mouse can press, without a widget's own innards."""
    return [
        widget
        for widget in root.findChildren(QWidget)
        if widget.isVisibleTo(root)
        and (widget.focusPolicy() != Qt.FocusPolicy.NoFocus or isinstance(widget, QAbstractButton))
        and not _is_innards(widget)
    ]


def _is_innards(widget: QWidget) -> bool:
    parent = widget.parent()
    return (
        widget.objectName() == "qt_scrollarea_viewport"
        or isinstance(widget, QScrollArea)
        or (isinstance(parent, QComboBox) and isinstance(widget, QLineEdit))
        or isinstance(parent, QAbstractItemView)
    )


def without_name(root: QWidget) -> list[str]:
    """Those a screen reader would pass over in silence; the text chosen in a list box is not its name."""
    return [_called(widget) for widget in within_reach(root) if not name_of(widget)]


def name_of(widget: QWidget) -> str:
    """What a screen reader says for the widget itself."""
    if isinstance(widget, QComboBox):
        return widget.accessibleName()
    return QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name).strip()


def too_small(root: QWidget) -> list[str]:
    """Targets that a shaking hand would miss."""
    return [
        f"{_called(widget)} is {widget.width()} × {widget.height()}"
        for widget in within_reach(root)
        if min(widget.width(), widget.height()) < LEAST
    ]


def keys_used_twice(window: QWidget) -> dict[str, list[str]]:
    """Keys that two visible things of a window answer to, so that neither does."""
    users: dict[str, list[str]] = defaultdict(list)
    for key, user in _keys(window):
        users[key].append(user)
    return {key: found for key, found in users.items() if len(found) > 1}


def _keys(window: QWidget) -> Iterator[tuple[str, str]]:
    everything = [window, *(each for each in window.findChildren(QWidget) if each.isVisibleTo(window))]
    told = {action for widget in everything for action in widget.actions() if _is_live(action)}
    for action in told:
        for sequence in action.shortcuts():
            yield sequence.toString(), f"{action.objectName() or action.text()} (action)"
    for widget in everything:
        for shortcut in widget.findChildren(QShortcut, options=Qt.FindChildOption.FindDirectChildrenOnly):
            if shortcut.isEnabled():
                yield shortcut.key().toString(), f"{widget.objectName()} (shortcut)"
        yield from _letters(widget)


def _is_live(action: QAction) -> bool:
    return action.isEnabled() and action.shortcutContext() in (
        Qt.ShortcutContext.WindowShortcut,
        Qt.ShortcutContext.ApplicationShortcut,
    )


def _letters(widget: QWidget) -> Iterator[tuple[str, str]]:
    """The key of a button, or the underlined letter of a label that leads to a field."""
    if isinstance(widget, QAbstractButton):
        key = widget.shortcut()
    elif isinstance(widget, QLabel) and widget.buddy():
        key = QKeySequence.mnemonic(widget.text())
    else:
        return
    if widget.isEnabled() and not key.isEmpty():
        yield key.toString(), widget.text()


def _called(widget: QWidget) -> str:
    return f"{type(widget).__name__} “{widget.objectName() or widget.accessibleName()}”"
