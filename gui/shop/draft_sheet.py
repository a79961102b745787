"""A slip on which settings are typed: what would change and move, and the keys that save and undo."""

from __future__ import annotations

from PySide6.QtCore import QTimer, Signal, Slot

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop import settings_changes
from core.services.own_shop.settings_effects import Effects
from gui.settings.effects_line import EffectsLine
from gui.shop.conflict_panel import ConflictPanel
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow, key_button
from gui.widgets.layouts import PaperFrame, rule, words

_PAUSE_MS = 300
"""After so long without a key, what is typed is compared with the records."""


class DraftSheet(PaperFrame):
    """Reads what is typed at every pause; who saves is led to what does not fit."""

    drafted = Signal(object)
    """`ShopSettings` as they are typed just now."""
    wanted = Signal(object)
    """`ShopSettings` to be put in force."""
    undo_wanted = Signal()
    settled = Signal(object)
    """`ShopSettings` that join what was typed with what others changed meanwhile."""
    refused = Signal(object)

    def __init__(self, name: str, before: ShopSettings) -> None:
        """``before``: the settings in force."""
        super().__init__(name)
        self._before = before
        self.touched = words()
        self.touched.setObjectName("settings-touched")
        self.effects = EffectsLine()
        self.conflict = ConflictPanel()
        self.conflict.settled.connect(self.settled)
        self.conflict.refused.connect(self.refused)
        self.save = key_button("settings-save", "F6", say("settings", "save"))
        self.save.setProperty("role", "main")
        self.undo = key_button("settings-undo", "F7", say("settings", "undo"))
        self.pause = QTimer(self, interval=_PAUSE_MS, singleShot=True)
        """Begun anew by every key."""
        self.pause.timeout.connect(self.compare)
        self.save.clicked.connect(self._save)
        self.undo.clicked.connect(self.undo_wanted)

    def draft(self) -> ShopSettings:
        """The settings as they are typed just now; WrongInput for what does not fit."""
        raise NotImplementedError

    def settings(self) -> ShopSettings:
        """As `draft`, the keyboard put at what does not fit."""
        raise NotImplementedError

    def show_effects(self, effects: Effects) -> None:
        """What the draft would move."""
        self.effects.show_effects(effects)

    @Slot()
    def compare(self) -> None:
        """Say what would change, as far as what is typed can be read."""
        try:
            draft = self.draft()
        except WrongInput as wrong:
            self.touched.setText(wrong.sentence)
            self.effects.show_nothing()
            return
        self.touched.setText("\n".join(settings_changes.foretold(self._before, draft)))
        if draft == self._before:
            self.effects.show_nothing()
        else:
            self.effects.show_working()
        self.drafted.emit(draft)

    @Slot()
    def _save(self) -> None:
        self.pause.stop()
        try:
            self.wanted.emit(self.settings())
        except WrongInput as wrong:
            self.refused.emit(wrong)

    def _lay_keys(self, *, has_undo: bool) -> None:
        """The last part of the slip."""
        self.column.addWidget(self.conflict)
        self.column.addWidget(rule())
        self.column.addWidget(self.touched)
        self.column.addWidget(self.effects)
        self.column.addWidget(ButtonRow([self.save, self.undo]))
        self.undo.setVisible(has_undo)  # only now: without a place it would open as a window
