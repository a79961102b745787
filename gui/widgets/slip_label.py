"""A label on the slip, larger where the customer reads it."""

from __future__ import annotations

from PySide6.QtGui import QFont
from PySide6.QtWidgets import QLabel

from gui.toolkit import theme
from gui.toolkit.plain_text import plain_label


def slip_label(points: float, ink: str, *, bold: bool = False) -> QLabel:
    """An empty label that wraps; ``points`` is its type size, ``ink`` a colour of the style sheet."""
    label = plain_label()
    label.setWordWrap(True)
    label.setProperty("ink", ink)
    label.setFont(theme.font(points, QFont.Weight.Bold if bold else QFont.Weight.Normal))
    return label
