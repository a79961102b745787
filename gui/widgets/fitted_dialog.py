"""A dialog over a screen that is as large as it wants to be, as far as the window below has room."""

from __future__ import annotations

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QDialog, QPushButton, QVBoxLayout

from gui.toolkit import theme
from gui.widgets.layouts import stacked


class FittedDialog(QDialog):
    """Takes its wanted size, bounded by the window it belongs to, whenever it is shown."""

    def showEvent(self, event: QShowEvent) -> None:
        parent = self.parentWidget()
        room = parent.window().size() if parent is not None else self.sizeHint()
        self.resize(self.sizeHint().boundedTo(room))
        super().showEvent(event)

    def column(self) -> QVBoxLayout:
        """The column of the whole dialog, with the margin that every dialog has."""
        outer = stacked(self)
        margin = 2 * theme.UNIT
        outer.setContentsMargins(margin, margin, margin, margin)
        return outer


def dialog_button(name: str, text: str = "", role: str = "") -> QPushButton:
    """A button that Return in a field does not press."""
    button = QPushButton(text)
    button.setObjectName(name)
    button.setAutoDefault(False)
    if role:
        button.setProperty("role", role)
    return button
