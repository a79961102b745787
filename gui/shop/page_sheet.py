"""One page of the settings in Shop: the page, what would change and move, and the keys that save and undo."""

from __future__ import annotations

from PySide6.QtCore import QTimer, Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QPushButton

from core.model.errors import WrongInput
from core.services.own_shop import settings_versions
from core.services.own_shop.settings_effects import Effects
from core.services.own_shop.shop_document import SettingsView
from gui.settings.drafted_page import DraftedPage
from gui.settings.effects_line import EffectsLine
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import PaperFrame, give_key, rule, words

_PAUSE_MS = 300
"""After so long without a key, what is typed is compared with the records."""


class PageSheet(PaperFrame):
    """Reads the page while it is typed; saving gives the settings, or the sentence on what does not fit."""

    drafted = Signal(object)
    """`ShopSettings` as they are typed just now."""
    wanted = Signal(object)
    """`ShopSettings` to be put in force."""
    undo_wanted = Signal()
    refused = Signal(object)

    def __init__(self, page: DraftedPage, view: SettingsView) -> None:
        super().__init__(f"chapter-{page.page.value}")
        self.page = page
        self.view = view
        self.touched = words()
        self.effects = EffectsLine()
        self.save = QPushButton(say("settings", "save"))
        self.undo = QPushButton(say("settings", "undo"))
        self._pause = QTimer(self, interval=_PAUSE_MS, singleShot=True)
        self._lay_out()
        page.changed.connect(self._pause.start)
        self._pause.timeout.connect(self.compare)
        self.save.clicked.connect(self._save)
        self.undo.clicked.connect(self.undo_wanted)

    @Slot()
    def compare(self) -> None:
        """Say what would change, as far as what is typed can be read."""
        try:
            draft = self.page.draft(self.view.settings)
        except WrongInput as wrong:
            self.touched.setText(wrong.sentence)
            self.effects.show_nothing()
            return
        found = settings_versions.differences(self.view.settings, draft)
        lines = [say("settings", "pages-would-change"), *(each.words for each in found)]
        self.touched.setText("\n".join(lines) if found else say("settings", "pages-nothing"))
        (self.effects.show_working if found else self.effects.show_nothing)()
        self.drafted.emit(draft)

    def show_effects(self, effects: Effects) -> None:
        """What the draft would move."""
        self.effects.show_effects(effects)

    @Slot()
    def _save(self) -> None:
        self._pause.stop()
        try:
            self.wanted.emit(self.page.settings(self.view.settings))
        except WrongInput as wrong:
            self.refused.emit(wrong)

    def _lay_out(self) -> None:
        self.column.addWidget(words(self.page.title, "heading"))
        self.column.addWidget(self.page)
        self.column.addWidget(rule())
        self.touched.setObjectName("settings-touched")
        self.touched.setText(say("settings", "pages-nothing"))
        self.column.addWidget(self.touched)
        self.column.addWidget(self.effects)
        self.save.setProperty("role", "main")
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        for button, name, keys in ((self.save, "settings-save", "F6"), (self.undo, "settings-undo", "F7")):
            button.setObjectName(name)
            give_key(button, keys)
            row.addWidget(button)
        row.addStretch(1)
        self.column.addLayout(row)
        self.undo.setVisible(self.view.number > 0)
