"""What a change of the settings would move, told under the page before it is saved."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from core.services.own_shop.settings_effects import Effects
from gui.toolkit import theme
from gui.toolkit.text import say


class EffectsLine(QLabel):
    """Whole sentences, one a line; nothing while nothing was changed."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("settings-effects")
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setWordWrap(True)
        self.show_nothing()

    def show_nothing(self) -> None:
        """Nothing was changed, or what is typed cannot be read."""
        self._show("")

    def show_working(self) -> None:
        """The queue is being planned as it would be."""
        self._show(say("settings", "effects-working"))

    def show_effects(self, effects: Effects) -> None:
        """What would move; in the color of attention where a promise would be broken."""
        self._show("\n".join(effects.lines))
        is_late = any(each.is_late for each in effects.moved)
        theme.set_style_property(self, "role", "attention" if is_late else "")

    def _show(self, text: str) -> None:
        theme.set_style_property(self, "role", "")
        self.setText(text)
        self.setAccessibleName(text)
        self.setVisible(bool(text))
