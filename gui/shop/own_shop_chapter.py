"""The chapter "My shop": who the shop is, its hours, its papers; changed, taken back, and told."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.model.own_shop.settings_records import ShopFront, ShopSettings
from core.services.own_shop import settings_versions, shop_document
from core.services.own_shop.settings_effects import Effects
from core.services.own_shop.settings_versions import SettingsVersion
from core.services.own_shop.shop_document import SettingsView
from core.services.shop_overview import ShopView
from gui.shop.draft_chapter import DraftChapter
from gui.shop.own_shop_page import KINDS, MOST_VERSIONS, OwnShopPage
from gui.toolkit import paper_writing
from gui.toolkit.screen_context import Desk


class OwnShopChapter(DraftChapter):
    """Three pages that are saved together, and the newest changes of the settings."""

    name = "own_shop"
    place = 5
    saved = "own-saved"
    undone = "own-undone"

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._page: OwnShopPage | None = None
        self._number = 0
        self._at = 0

    def open(self, view: ShopView) -> QWidget:
        room = self._new_room()
        self.desk.work.ask(shop_document.view, then=self._read_versions)
        return room

    def close(self) -> None:
        self._room = self._page = None

    def _read_versions(self, view: SettingsView) -> None:
        newest = partial(
            settings_versions.versions, most=MOST_VERSIONS + 1
        )  # each is told beside the one before
        self.desk.work.ask(newest, then=partial(self._show, self._room, view))

    def _show(self, room: QWidget | None, view: SettingsView, versions: Sequence[SettingsVersion]) -> None:
        if room is None or room is not self._room:
            return
        self._number = view.number
        draft = None if self._draft is None else self._draft[1]
        page = self._page = OwnShopPage(view, versions, draft, self._at)
        page.wanted.connect(self._save)
        page.drafted.connect(partial(self._keep, view.settings))
        page.turned.connect(self._remember_page)
        page.test_print_wanted.connect(self._print_test)
        page.roll_test_wanted.connect(self._print_roll_test)
        layout = room.layout()
        assert layout is not None
        layout.addWidget(page)
        self._follow_sheet(page)
        self._ask_effects()

    # --- keeping -------------------------------------------------------------------------

    def _keep(self, kept: ShopSettings, draft: ShopSettings) -> None:
        self._keep_draft(draft, kept, self._number)

    def _draft_sheet(self) -> OwnShopPage | None:
        return self._page

    def _show_effects(self, effects: Effects) -> None:
        if self._page is not None:
            self._page.show_effects(effects)

    @Slot(object)
    def _save(self, wanted: ShopSettings) -> None:
        self._put_in_force(wanted, KINDS[self._at].page, self._number)

    @Slot(int)
    def _remember_page(self, number: int) -> None:
        self._at = number

    # --- a test print --------------------------------------------------------------------

    @Slot(object)
    def _print_test(self, front: ShopFront) -> None:
        self.desk.show_paper(paper_writing.writing_label_test(front, self.desk.papers), self.show_failure)

    @Slot(object)
    def _print_roll_test(self, front: ShopFront) -> None:
        self.desk.show_paper(paper_writing.writing_roll_test(front, self.desk.papers), self.show_failure)


CHAPTER = OwnShopChapter
