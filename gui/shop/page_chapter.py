"""A chapter that shows one page of the settings, and keeps what was typed there until it is saved."""

from __future__ import annotations

from functools import partial
from typing import ClassVar

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.model.errors import Conflict, TapewrightError
from core.model.settings_records import ShopSettings
from core.services.own_shop import settings_effects, settings_versions, shop_document
from core.services.own_shop.settings_effects import AboutChange, Effects
from core.services.own_shop.shop_document import SettingsView
from core.services.shop_overview import ShopView
from gui.settings.drafted_page import DraftedPage
from gui.shop.chapter import EVERY_KIND, Chapter
from gui.shop.page_sheet import PageSheet
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.layouts import stacked


class PageChapter(Chapter):
    """Saving is based on the version that stood when the typing began: nobody overwrites anybody."""

    kinds = frozenset({"shop"})
    page: ClassVar[type[DraftedPage]]

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._room: QWidget | None = None
        self._sheet: PageSheet | None = None
        self._draft: tuple[int, ShopSettings] | None = None
        """What was typed and is not saved, with the version it was begun on."""

    def open(self, view: ShopView) -> QWidget:
        room = self._room = QWidget()
        stacked(room)
        self.desk.work.ask(shop_document.view, then=partial(self._show, room))
        return room

    def close(self) -> None:
        self._room = self._sheet = None

    def _show(self, room: QWidget, view: SettingsView) -> None:
        if room is not self._room:
            return
        page = self.page()
        page.show_settings(view)
        if self._draft is not None:
            page.show_draft(self._draft[1])
        sheet = self._sheet = PageSheet(page, view)
        sheet.drafted.connect(self._keep)
        sheet.wanted.connect(self._save)
        sheet.undo_wanted.connect(self._undo)
        sheet.refused.connect(self.refused)
        layout = room.layout()
        assert layout is not None
        layout.addWidget(sheet)
        sheet.compare()

    # --- what it would move --------------------------------------------------------------

    @Slot(object)
    def _keep(self, draft: ShopSettings) -> None:
        sheet = self._sheet
        if sheet is None:
            return
        begun_on = self._draft[0] if self._draft is not None else sheet.view.number
        self._draft = (begun_on, draft) if draft != sheet.view.settings else None
        if self._draft is not None:
            self.desk.work.ask(settings_effects.about, draft, then=partial(self._plan, draft))

    def _plan(self, draft: ShopSettings, about: AboutChange) -> None:
        if self._draft is not None and self._draft[1] is draft:
            self.desk.work.compute_long(about.answer, then=partial(self._tell, draft))

    def _tell(self, draft: ShopSettings, effects: Effects) -> None:
        if self._sheet is not None and self._draft is not None and self._draft[1] is draft:
            self._sheet.show_effects(effects)

    # --- keeping -------------------------------------------------------------------------

    @Slot(object)
    def _save(self, wanted: ShopSettings) -> None:
        assert self._sheet is not None
        self.desk.work.run(
            settings_versions.change,
            wanted,
            based_on=self._draft[0] if self._draft is not None else self._sheet.view.number,
            confirms=(self.page.page,),
            then=partial(self._was_kept, "pages-saved"),
            otherwise=self._was_refused,
            changes=EVERY_KIND,
        )

    @Slot()
    def _undo(self) -> None:
        self.desk.work.run(
            settings_versions.undo,
            then=partial(self._was_kept, "pages-undone"),
            otherwise=self.show_failure,
            changes=EVERY_KIND,
        )

    def _was_kept(self, sentence: str, _: object) -> None:
        self._draft = None
        self.said.emit(say("settings", sentence))

    def _was_refused(self, failure: TapewrightError) -> None:
        """After somebody else's change the page shows the settings as they are now."""
        self.refused.emit(failure)
        if isinstance(failure, Conflict):
            self._draft = None
            self.outdated.emit()
