"""A chapter that shows one page of the settings, and keeps what was typed there until it is saved."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop import shop_document
from core.services.own_shop.settings_effects import Effects
from core.services.own_shop.shop_document import SettingsView
from core.services.shop_overview import ShopView
from gui.settings.drafted_page import DraftedPage
from gui.shop.draft_chapter import DraftChapter
from gui.shop.page_sheet import PageSheet
from gui.toolkit.screen_context import Desk


class PageChapter(DraftChapter):
    """The page is a class of `gui.settings`; what it would move is told under it."""

    saved = "pages-saved"
    undone = "pages-undone"
    page: ClassVar[type[DraftedPage]]

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._sheet: PageSheet | None = None

    def open(self, view: ShopView) -> QWidget:
        room = self._new_room()
        self.desk.work.ask(shop_document.view, then=partial(self._show, room))
        return room

    def close(self) -> None:
        self._room = self._sheet = None

    def _serve(self, page: DraftedPage) -> None:
        """What a page wants of the desk besides being saved; most want nothing."""

    def _show(self, room: QWidget, view: SettingsView) -> None:
        if room is not self._room:
            return
        page = self.page()
        self._serve(page)
        page.show_settings(view)
        if self._draft is not None:
            page.show_draft(self._draft[1])
        sheet = self._sheet = PageSheet(page, view)
        sheet.drafted.connect(self._keep)
        sheet.wanted.connect(self._save)
        layout = room.layout()
        assert layout is not None
        layout.addWidget(sheet)
        self._follow_sheet(sheet)
        sheet.compare()

    def _draft_sheet(self) -> PageSheet | None:
        return self._sheet

    def _show_effects(self, effects: Effects) -> None:
        if self._sheet is not None:
            self._sheet.show_effects(effects)

    @Slot(object)
    def _keep(self, draft: ShopSettings) -> None:
        if self._sheet is not None:
            self._keep_draft(draft, self._sheet.view.settings, self._sheet.view.number)

    @Slot(object)
    def _save(self, wanted: ShopSettings) -> None:
        assert self._sheet is not None
        self._put_in_force(wanted, self.page.page, self._sheet.view.number)
