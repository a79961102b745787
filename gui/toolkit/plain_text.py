"""Labels and tips that show what they are given letter for letter: markup in a name stays a name.

Qt guesses otherwise: a text that looks like HTML is laid out as such, and the pictures it names are loaded.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import Qt as Texts
from PySide6.QtWidgets import QLabel, QWidget

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMessageBox


def plain_label(text: str = "") -> QLabel:
    """A label; every one of the program comes from here, or sets its format itself."""
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label


def plain_message(over: QWidget) -> QMessageBox:
    """A message box for plain text."""
    from PySide6.QtWidgets import QMessageBox  # Qt makes a type of it when it is first named

    box = QMessageBox(over)
    box.setTextFormat(Qt.TextFormat.PlainText)
    return box


def tip(text: str) -> str:
    """A tool tip that says ``text``; tips have no format of their own to be set."""
    if not Texts.mightBeRichText(text):
        return text
    from html import escape  # not before the first paint, where no text looks like markup

    return f"<p>{escape(text)}</p>"
