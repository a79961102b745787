"""The five moments along the top of the window, and who stands at the counter."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QToolButton, QWidget

from gui.app.identity_button import IdentityButton
from gui.toolkit import actions, theme


class MomentsBar(QWidget):
    """A button for each moment; its key works in all of the window, even while the bar is hidden."""

    chosen = Signal(str)
    """The name of a moment that was pressed."""

    def __init__(self, window: QWidget) -> None:
        super().__init__()
        self.identity = IdentityButton()
        self.moments: dict[str, QAction] = {}
        row = QHBoxLayout(self)
        row.setContentsMargins(theme.UNIT, theme.UNIT // 2, 2 * theme.UNIT, 0)
        row.setSpacing(0)
        group = QActionGroup(self)
        group.setExclusionPolicy(QActionGroup.ExclusionPolicy.ExclusiveOptional)
        for key in actions.MOMENTS:
            moment = actions.action(key, window)
            moment.setCheckable(True)
            moment.setText(key.words_with_keys)
            moment.triggered.connect(self._note_chosen)
            group.addAction(moment)
            row.addWidget(_button(moment))
            self.moments[key.name] = moment
        row.addWidget(self.identity, 1)

    def reword(self) -> None:
        """Write the moments in the language of now: a shop may speak another than the empty window did."""
        for key in actions.MOMENTS:
            actions.reword(self.moments[key.name], key)
            self.moments[key.name].setText(key.words_with_keys)

    def mark(self, name: str) -> None:
        """Mark the moment that is on show."""
        for moment, action in self.moments.items():
            action.setChecked(moment == name)

    def let_turn(self, may_turn: bool) -> None:
        """Whether another moment can be chosen."""
        for moment in self.moments.values():
            moment.setEnabled(may_turn)

    @Slot()
    def _note_chosen(self) -> None:
        self.chosen.emit(self.sender().objectName())


def _button(moment: QAction) -> QToolButton:
    button = QToolButton()
    button.setDefaultAction(moment)
    button.setProperty("role", "moment")
    button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    button.setSizePolicy(QSizePolicy.Policy.Minimum, QSizePolicy.Policy.Fixed)
    return button
