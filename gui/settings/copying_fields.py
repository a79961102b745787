"""The fields on how long a person is busy with a copy; that time is in every date."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.model.own_shop.copying_minutes import CopyingMinutes
from core.wording import typed_amounts
from core.wording.locale_figures import figure
from gui.settings.form_fields import TextField, WrongField
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
        return CopyingMinutes(**{kind: _number(field) for kind, field in self.fields.items()})


def _number(field: TextField) -> float:
    found = typed_amounts.number_of(field.text())
    if found is None:
        raise WrongField(field, field.accessibleName(), field.text(), say("files", "minutes-to-600"))
    return float(found)
