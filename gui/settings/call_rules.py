"""The fields on callers and reminders: what is asked first, and after how many days people are reminded."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import CallRules
from gui.settings.form_fields import ChoiceField, TextField
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, stacked, words

CHECKS = ("no", "digits", "pass-phrase")


class CallRulesFields(QWidget):
    """Two fields; the days stand in one, with commas between them."""

    edited = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.check = ChoiceField("calls-check", say("settings", "calls-check"), _checks)
        self.reminders = TextField("calls-reminders")
        column = stacked(self)
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        row.addWidget(labelled(self.check, say("settings", "calls-check")), 2)
        row.addWidget(labelled(self.reminders, say("settings", "calls-reminders")), 1)
        column.addLayout(row)
        column.addWidget(words(say("settings", "calls-means"), "small"))
        self.check.textChanged.connect(self._tell)
        self.reminders.textEdited.connect(self.edited)

    def show_rules(self, rules: CallRules) -> None:
        """Write what is settled."""
        self.check.show_value(rules.check)
        self.reminders.setText(", ".join(map(str, rules.reminders)))

    def rules(self) -> CallRules:
        """What is typed; WrongInput for another choice, or for what is no list of days."""
        typed = self.reminders.text().replace(",", " ").split()
        if not all(each.isascii() and each.isdecimal() for each in typed):
            place, accepted = self.reminders.accessibleName(), say("files", "reminder-days")
            raise WrongInput(place, self.reminders.text(), accepted)
        return CallRules(self.check.value, tuple(map(int, typed)))

    def _tell(self) -> None:
        self.edited.emit()


def _checks() -> Mapping[str, str]:
    return {value: say("settings", f"calls-check-{value}") for value in CHECKS}
