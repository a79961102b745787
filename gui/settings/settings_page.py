"""What every page of the settings can do, and where the windows that show them find them."""

from __future__ import annotations

import pkgutil
from collections.abc import Iterator, Mapping
from importlib import import_module
from typing import Any, ClassVar

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

import gui.settings
from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop.shop_document import SettingsView
from gui.toolkit.text import say
from gui.widgets.layouts import stacked


class SettingsPage(QWidget):
    """One page of the settings. It shows them and gives them back as they were changed on it.

    A module of this folder brings its page as ``PAGE``.
    """

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

    def prices(self, before: Mapping[str, Any]) -> Mapping[str, Any]:
        """As `settings`, for the tables of the price book in force; only the prices page changes them."""
        return before

    def typed(self) -> object:
        """What stands on the page, also where it does not fit; `put_back` shows it again."""
        raise NotImplementedError

    def put_back(self, typed: Any) -> None:
        """Show again what stood on the page, in place of the settings shown last."""
        raise NotImplementedError

    def point_out(self, wrong: WrongInput) -> None:
        """Put the keyboard into the field that a sentence of the records is about, where there is one."""

    def focus_first(self) -> None:
        """Put the keyboard into the first field."""
        self.setFocus()


def import_pages() -> Iterator[None]:
    """Imports the modules in this folder, one a turn: all of them together take a third of a second."""
    for each in pkgutil.iter_modules(gui.settings.__path__):
        import_module(f"{gui.settings.__name__}.{each.name}")
        yield


def found() -> tuple[type[SettingsPage], ...]:
    """The pages of the modules in this folder, in the order in which a new shop is set up."""
    names = [each.name for each in pkgutil.iter_modules(gui.settings.__path__)]
    modules = [import_module(f"{gui.settings.__name__}.{name}") for name in names]
    pages = {module.PAGE.page: module.PAGE for module in modules if hasattr(module, "PAGE")}
    return tuple(pages[page] for page in SetupPage if page in pages)
