"""Pages of the settings as the Shop screen shows them, and what of them was kept."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from core.model.own_shop.settings_records import ShopSettings
from core.store import current_settings
from gui.shop.page_sheet import PageSheet
from gui.shop.shop_screen import ShopScreen
from tests.support.screens import Place, press


def opened(place: Place, screen: ShopScreen, chapter: str) -> PageSheet:
    """The sheet of a chapter, opened anew."""
    screen.chapters.stand_on("care")
    screen.chapters.stand_on(chapter)
    place.settle()
    return next(iter(screen.page.findChildren(PageSheet)))


def kept(place: Place) -> ShopSettings:
    """The settings in force."""
    return place.records.shop.ask(current_settings.read)


def save(place: Place, field: QWidget) -> None:
    """Keep the page with its key, from one of its fields; what it touches is told after it."""
    field.setFocus()
    press(Qt.Key.Key_F6)
    place.settle()
    place.settle()
