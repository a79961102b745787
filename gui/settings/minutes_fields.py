"""The fields on how long a person is busy with a copy and with a tape; that time is in every date."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QWidget

from core.model.own_shop.copying_minutes import CopyingMinutes
from core.model.own_shop.handling_minutes import HandlingMinutes
from core.wording.locale_figures import figure
from gui.settings.form_fields import TextField, minutes_typed
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, stacked, words

KINDS = ("stick", "disc", "drive", "download")
STEPS = ("look_over", "load", "unload", "check", "further_hour")


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


class HandlingFields(QWidget):
    """One field a step, side by side, and whether copies are watched as a whole."""

    edited = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.fields: dict[str, QWidget] = {}
        self._minutes = {step: TextField(f"handling-{step}") for step in STEPS}
        self.whole_check = QCheckBox(say("settings", "handling-whole_check"))
        self.whole_check.setObjectName("handling-whole_check")
        self.whole_check.setAccessibleName(say("settings", "handling-whole_check"))
        self.fields |= {**self._minutes, "whole_check": self.whole_check}
        self._lay_out()
        for field in self._minutes.values():
            field.textEdited.connect(self.edited)
        self.whole_check.clicked.connect(self.edited)

    def show_minutes(self, minutes: HandlingMinutes) -> None:
        """Write what is settled."""
        for step, field in self._minutes.items():
            field.setText(figure(getattr(minutes, step)))
        self.whole_check.setChecked(minutes.whole_check)

    def minutes(self, before: HandlingMinutes) -> HandlingMinutes:
        """``before`` with what is typed; WrongField for what is no number of minutes."""
        typed = {step: minutes_typed(field) for step, field in self._minutes.items()}
        return replace(before, whole_check=self.whole_check.isChecked(), **typed)

    def _lay_out(self) -> None:
        column, row = stacked(self), QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        column.addWidget(words(say("settings", "handling-lead")))
        for step, field in self._minutes.items():
            row.addWidget(labelled(field, say("settings", f"handling-{step}")), 1)
        column.addLayout(row)
        column.addWidget(self.whole_check)
        column.addWidget(words(say("settings", "handling-ground"), "small"))
