"""Another counter changed settings or prices meanwhile: who changed what, and which version shall stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Protocol

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QPushButton, QRadioButton, QVBoxLayout, QWidget

from core.model.errors import WrongInput
from core.services.own_shop.merged_documents import Path
from core.services.own_shop.settings_conflicts import SettingsClash
from gui.toolkit import theme
from gui.toolkit.text import moment, say
from gui.widgets.button_row import ButtonRow
from gui.widgets.layouts import PaperFrame, empty, rule, words

_YOURS = 1


class VersionConflict(Protocol):
    """What was typed over an older version than the one in force now."""

    @property
    def subject(self) -> str: ...
    @property
    def by(self) -> str: ...
    @property
    def changes(self) -> Sequence[tuple[datetime, str, str]]: ...
    @property
    def clashes(self) -> Sequence[SettingsClash]: ...
    @property
    def timezone(self) -> str: ...
    def settled(self, yours: Mapping[Path, bool]) -> object: ...


class ConflictPanel(PaperFrame):
    """Of what both changed, one version is picked field by field; what was typed stays until then."""

    settled = Signal(object)
    """The `ShopSettings`, or the price book, with what was picked."""
    left = Signal()
    """Somebody would rather go on typing."""
    refused = Signal(object)

    def __init__(self) -> None:
        super().__init__("settings-conflict")
        self._conflict: VersionConflict | None = None
        self.choices: dict[Path, QButtonGroup] = {}
        self.save = QPushButton(say("access", "conflict-save"))
        self.save.setObjectName("conflict-save")
        self.save.setProperty("role", "main")
        self.leave = QPushButton(say("access", "conflict-leave"))
        self.leave.setObjectName("conflict-leave")
        self._told = QVBoxLayout()
        self._told.setSpacing(theme.UNIT)
        self.column.addLayout(self._told)
        self.column.addWidget(ButtonRow([self.save, self.leave]))
        self.save.clicked.connect(self._settle)
        self.leave.clicked.connect(self._leave)
        self.hide()

    def show_conflict(self, conflict: VersionConflict) -> None:
        """Tell what was changed and offer both versions of each clash; nothing is picked beforehand."""
        self._conflict, self.choices = conflict, {}
        empty(self._told)
        self._told.addWidget(words(say("access", f"conflict-heading-{conflict.subject}"), "heading"))
        for at, by, what in conflict.changes:
            told = say("settings", "history-line", at=moment(at, conflict.timezone), by=by, words=what)
            self._told.addWidget(words(told))
        self._told.addWidget(rule())
        lead = say("access", f"conflict-lead-{conflict.subject}", n=len(conflict.clashes))
        self._told.addWidget(words(lead))
        for clash in conflict.clashes:
            self._told.addWidget(self._pair(clash, conflict.by))
        self._look()
        self.show()
        first = next(iter(self.choices.values()), None)
        (self.save if first is None else first.buttons()[0]).setFocus(Qt.FocusReason.OtherFocusReason)

    @Slot()
    def _look(self) -> None:
        """Saved once everything is picked."""
        self.save.setEnabled(all(group.checkedId() != -1 for group in self.choices.values()))

    @Slot()
    def _settle(self) -> None:
        assert self._conflict is not None
        picked = {path: group.checkedId() == _YOURS for path, group in self.choices.items()}
        try:
            joined = self._conflict.settled(picked)
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        self.settled.emit(joined)

    @Slot()
    def _leave(self) -> None:
        self.hide()
        self.left.emit()

    def _pair(self, clash: SettingsClash, by: str) -> QWidget:
        """Theirs and yours, one below the other."""
        pair, group = QWidget(), QButtonGroup(self)
        grid = QGridLayout(pair)
        grid.setContentsMargins(0, theme.UNIT, 0, 0)
        grid.setHorizontalSpacing(2 * theme.UNIT)
        grid.setColumnStretch(1, 1)
        sides = (
            (say("access", "conflict-theirs", by=by), clash.theirs),
            (say("access", "conflict-yours"), clash.yours),
        )
        for number, (side, told) in enumerate(sides):
            button, line = QRadioButton(side), words(told)
            button.setObjectName(f"conflict-{'-'.join(clash.path)}-{'yours' if number else 'theirs'}")
            button.setAccessibleName(say("access", "conflict-offer", side=side, what=told))
            line.setBuddy(button)
            grid.addWidget(button, number, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(line, number, 1)
            group.addButton(button, number)
        group.idClicked.connect(self._look)
        self.choices[clash.path] = group
        return pair
