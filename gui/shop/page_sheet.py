"""One page of the settings in Shop: the page, what would change and move, and the keys that save and undo."""

from __future__ import annotations

from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop.shop_document import SettingsView
from gui.settings.drafted_page import DraftedPage
from gui.shop.draft_sheet import DraftSheet
from gui.widgets.layouts import words


class PageSheet(DraftSheet):
    """A page under its title."""

    def __init__(self, page: DraftedPage, view: SettingsView) -> None:
        super().__init__(f"chapter-{page.page.value}", view.settings)
        self.page = page
        self.view = view
        self.column.addWidget(words(page.title, "heading"))
        self.column.addWidget(page)
        self._lay_keys(has_undo=view.number > 0)
        page.changed.connect(self.pause.start)

    def draft(self) -> ShopSettings:
        return self.page.draft(self.view.settings)

    def settings(self) -> ShopSettings:
        return self.page.settings(self.view.settings)
