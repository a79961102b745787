"""The fields on how long a person is busy with a copy; that time is in every date."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.model.own_shop.copying_minutes import CopyingMinutes
from core.wording.locale_figures import figure
from gui.settings.form_fields import TextField, minutes_typed
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, stacked, words

KINDS = ("stick", "disc", "drive", "download")


class CopyingFields(QWidget):
    """One field a kind of copy, side by side."""

    edited = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.fields = {kind: TextField(f"copying-{kind}") for kind in KINDS}
        column, row = stacked(self), QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        column.addWidget(words(say("settings", "copying-lead")))
        for kind, field in self.fields.items():
            row.addWidget(labelled(field, say("settings", f"copying-{kind}")), 1)
            field.textEdited.connect(self.edited)
        column.addLayout(row)

    def show_minutes(self, minutes: CopyingMinutes) -> None:
        """Write what is settled."""
        for kind, field in self.fields.items():
            field.setText(figure(getattr(minutes, kind)))

    def minutes(self) -> CopyingMinutes:
        """What is typed; WrongField for what is no number of minutes."""
        return CopyingMinutes(**{kind: minutes_typed(field) for kind, field in self.fields.items()})
