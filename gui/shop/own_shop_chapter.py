"""The chapter "My shop": who the shop is, its hours, its papers; changed, taken back, and told."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QWidget

from core.model.errors import Conflict, TapewrightError
from core.model.settings_records import ShopFront, ShopSettings
from core.services.own_shop import settings_effects, settings_versions, shop_document
from core.services.own_shop.settings_effects import AboutChange, Effects
from core.services.own_shop.settings_versions import SettingsVersion
from core.services.own_shop.shop_document import SettingsView
from core.services.shop_overview import ShopView
from gui.shop.chapter import EVERY_KIND, Chapter
from gui.shop.own_shop_page import KINDS, OwnShopPage
from gui.toolkit import paper_writing
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.layouts import stacked


class OwnShopChapter(Chapter):
    """Keeps what was typed and is not saved while the owner looks at other chapters."""

    name = "own_shop"
    place = 5
    kinds = frozenset({"shop"})

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._room: QWidget | None = None
        self._page: OwnShopPage | None = None
        self._number = 0
        self._draft: ShopSettings | None = None
        self._draft_on = 0
        """The version that stood when the draft was begun."""
        self._at = 0

    def open(self, view: ShopView) -> QWidget:
        room = self._room = QWidget()
        stacked(room)
        self.desk.work.ask(shop_document.view, then=self._read_versions)
        return room

    def close(self) -> None:
        self._room = self._page = None

    def _read_versions(self, view: SettingsView) -> None:
        self.desk.work.ask(settings_versions.versions, then=partial(self._show, self._room, view))

    def _show(self, room: QWidget | None, view: SettingsView, versions: Sequence[SettingsVersion]) -> None:
        if room is None or room is not self._room:
            return
        self._number = view.number
        page = self._page = OwnShopPage(view, versions, self._draft, self._at)
        page.wanted.connect(self._save)
        page.drafted.connect(partial(self._keep_draft, view.settings))
        page.undo_wanted.connect(self._undo)
        page.turned.connect(self._remember_page)
        page.refused.connect(self.refused)
        page.test_print_wanted.connect(self._print_test)
        layout = room.layout()
        assert layout is not None
        layout.addWidget(page)
        self._ask_effects()

    # --- keeping -------------------------------------------------------------------------

    def _keep_draft(self, kept: ShopSettings, draft: ShopSettings) -> None:
        if self._draft is None:
            self._draft_on = self._number
        self._draft = draft if draft != kept else None
        self._ask_effects()

    def _ask_effects(self) -> None:
        """Work out beside the window which open promises the draft would move; the newest answer is shown."""
        draft, page = self._draft, self._page
        if page is None:
            return
        if draft is None:
            page.show_effects(())
            return
        self.desk.work.ask(settings_effects.about, draft, then=partial(self._work_out, draft))

    def _work_out(self, draft: ShopSettings, question: AboutChange) -> None:
        if draft is self._draft:
            self.desk.work.compute_long(question.answer, then=partial(self._show_effects, draft))

    def _show_effects(self, draft: ShopSettings, effects: Effects) -> None:
        if self._page is not None and draft is self._draft:
            self._page.show_effects(effects.lines)

    @Slot(object)
    def _save(self, wanted: ShopSettings) -> None:
        based_on = self._number if self._draft is None else self._draft_on
        self.desk.work.run(
            settings_versions.change,
            wanted,
            based_on=based_on,
            confirms=(KINDS[self._at].page,),
            then=partial(self._was_kept, "own-saved"),
            otherwise=self._was_refused,
            changes=EVERY_KIND,
        )

    @Slot()
    def _undo(self) -> None:
        self.desk.work.run(
            settings_versions.undo,
            then=partial(self._was_kept, "own-undone"),
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

    @Slot(int)
    def _remember_page(self, number: int) -> None:
        self._at = number

    # --- a test print --------------------------------------------------------------------

    @Slot(object)
    def _print_test(self, front: ShopFront) -> None:
        self.desk.work.write_paper(
            paper_writing.writing_label_test(front, self.desk.papers),
            then=self.desk.show_file,
            otherwise=self.show_failure,
        )


CHAPTER = OwnShopChapter
