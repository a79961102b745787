"""A slip filled in by keyboard alone: Return goes from field to field, and from the last one keeps."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from gui.widgets.layouts import PaperFrame


class Form(PaperFrame):
    """What its fields hold is kept by the Return of the last one or by its button."""

    refused = Signal(object)
    """A `WrongInput`, with the keyboard put into the field it is about."""

    _last: QLineEdit

    def _keep(self) -> None:
        """Tell what is typed, or `refused` what is wrong with it."""
        raise NotImplementedError

    def _go_with_return(self, fields: Sequence[QLineEdit], button: QPushButton) -> None:
        self._last = fields[-1]
        for field in fields:
            field.returnPressed.connect(self._go_on)
        button.clicked.connect(self._press)

    @Slot()
    def _go_on(self) -> None:
        if self._last.hasFocus():
            self._keep()
        else:
            self.focusNextPrevChild(True)

    @Slot()
    def _press(self) -> None:
        self._keep()


def close_all(forms: Sequence[QWidget]) -> bool:
    """Close the form that is open; returns whether there was one."""
    was_open = any(form.isVisible() for form in forms)
    for form in forms:  # also those of a screen that is not on show
        form.hide()
    return was_open
