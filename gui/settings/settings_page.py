"""What every page of the settings can do."""

from __future__ import annotations

from typing import ClassVar

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from core.model.settings_records import ShopSettings
from core.model.setup_pages import SetupPage
from core.services.shop_document import SettingsView
from gui.toolkit.text import say
from gui.widgets.layouts import stacked


class SettingsPage(QWidget):
    """One page of the settings. It shows them and gives them back as they were changed on it."""

    changed = Signal()
    """Something was typed or chosen."""

    page: ClassVar[SetupPage]

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(f"settings-{self.page.value}")
        self.column = stacked(self)

    @property
    def title(self) -> str:
        """What the page is called, at its head and in lists."""
        return say("settings", f"title-{self.page.value}")

    def show_settings(self, view: SettingsView) -> None:
        """Fill the page in from the records."""
        raise NotImplementedError

    def settings(self, before: ShopSettings) -> ShopSettings:
        """``before`` with what the page says; WrongInput, keyboard at the field, for what does not fit."""
        raise NotImplementedError

    def focus_first(self) -> None:
        """Put the keyboard into the first field."""
        self.setFocus()
