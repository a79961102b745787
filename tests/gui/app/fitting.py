"""What does not fit a window: cut or overlapping text, controls out of reach, what has to be scrolled for."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from PySide6.QtCore import QPoint, QRect
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QScrollArea,
    QWidget,
)

from gui.app.main_window import Window
from gui.toolkit import sizes, theme
from gui.widgets.fading_edge import FadingEdge
from gui.widgets.layouts import Columns
from tests.support import clipping, shown_texts
from tests.support.shown_texts import called

_CONTROLS = (QAbstractButton, QLineEdit, QComboBox, QAbstractSpinBox)
_SLACK = 1
"""Pixels that rounding may make two neighbors share."""
_ROUNDS = 3
"""What was laid out may ask to be laid out again."""


def faults(window: QWidget, size: tuple[int, int]) -> list[str]:
    """Each fault of the window at this size, in device-independent pixels."""
    window.resize(*size)
    if isinstance(window, Window):
        window.grow()
    for _ in range(_ROUNDS):
        QApplication.processEvents()
    with shown_texts.watched_painting() as painting:
        window.grab()
    found = (
        *clipping.cut(window, painting),
        *_overlaps(window),
        *_out_of_reach(window),
        *_scrolled(window),
        *_small_type(window),
    )
    return [f"{size[0]}×{size[1]}: {each}" for each in found]


def _overlaps(root: QWidget) -> Iterator[str]:
    """Neighbors that both say something and share some of their room."""
    for parent in (root, *root.findChildren(QWidget)):
        if not (parent is root or parent.isVisibleTo(root)):
            continue
        children = [each for each in parent.children() if isinstance(each, QWidget) and _stands(each, root)]
        for one, other in combinations(children, 2):
            shared = one.geometry().intersected(other.geometry())
            if min(shared.width(), shared.height()) > _SLACK and _says(one, root) and _says(other, root):
                yield f"{called(one)} lies over {called(other)}"


def _stands(widget: QWidget, root: QWidget) -> bool:
    return widget.isVisibleTo(root) and not widget.isWindow() and not isinstance(widget, FadingEdge)


def _says(widget: QWidget, root: QWidget) -> bool:
    inside = (widget, *widget.findChildren(QWidget))
    return any(
        isinstance(each, QLabel | QAbstractButton) and each.text() and each.isVisibleTo(root)
        for each in inside
    )


def _out_of_reach(root: QWidget) -> Iterator[str]:
    """Controls beyond the edge of the window that no scrolling brings back."""
    for control in (each for each in root.findChildren(QWidget) if isinstance(each, _CONTROLS)):
        if not control.isVisibleTo(root) or control.window() is not root or _lies_in_scroll(control, root):
            continue
        place = QRect(control.mapTo(root, QPoint(0, 0)), control.size())
        if not root.rect().contains(place):
            yield f"{called(control)} is out of the window"


def _lies_in_scroll(widget: QWidget, root: QWidget) -> bool:
    above = widget.parentWidget()
    while above is not None and above is not root:
        if isinstance(above, QScrollArea):
            return True
        above = above.parentWidget()
    return False


def _scrolled(root: QWidget) -> Iterator[str]:
    """Columns side by side stand there whole; only what they hold may scroll."""
    for columns in root.findChildren(Columns):
        if columns.isVisibleTo(root) and not columns.is_folded and columns.verticalScrollBar().maximum() > 0:
            yield f"{called(columns)} is to be scrolled by {columns.verticalScrollBar().maximum()}"


def _small_type(root: QWidget) -> Iterator[str]:
    """Type that did not grow with the window."""
    least = sizes.SMALL * theme.UNIT / sizes.UNIT - 0.1
    for label in root.findChildren(QLabel):
        is_read = label.isVisibleTo(root) and label.window() is root and label.text()
        if is_read and 0 < label.font().pointSizeF() < least:
            yield f"{called(label)} “{label.text()}” is in {label.font().pointSizeF()} pt"
