"""The set-up of a new shop: one page after another, each stored as it is left, none of them in the way."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QWidget

from core.model.errors import TapewrightError, WrongInput
from core.model.own_shop.settings_records import ShopFront
from core.model.own_shop.setup_pages import SetupPage
from core.services.own_shop import shop_document
from core.services.own_shop.shop_document import SettingsView
from gui.first_run.set_up_layout import SetUpLayout
from gui.settings import settings_page
from gui.settings.backup_page import BackupPage
from gui.settings.fields_page import FieldsPage
from gui.settings.papers_page import PapersPage
from gui.settings.secret_printing import KeyPrinting, TokenPrinting
from gui.settings.settings_page import SettingsPage
from gui.toolkit import paper_writing
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets import missing_pages
from gui.widgets.layouts import scroll_by_page

if TYPE_CHECKING:
    from gui.settings.people_page import PeoplePage


class SetUpScreen(Screen):
    """Walks the pages of the settings. What is typed on one is stored when the next is turned to."""

    name = "Set-up"
    kinds = frozenset({"shop"})
    finished = Signal()
    """Somebody went through, or has had enough for now: on to the Counter."""

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        """Without pages yet (`make_pages`)."""
        super().__init__(desk, parent)
        self.setObjectName("set-up")
        self.view: SettingsView | None = None
        self.pages: dict[SetupPage, SettingsPage] = {}
        self._wanted: SetupPage | None = None
        self._typed = False
        self._is_saving = False
        self._on_show: SettingsPage | None = None
        self.parts = SetUpLayout(self)
        self._connect()
        desk.work.broke.connect(self._abandon)

    def make_pages(self) -> Iterator[None]:
        """All the pages there are, one a turn, so that the window is never kept waiting for them."""
        yield from settings_page.import_pages()
        for kind in settings_page.found():
            self._add(kind())
            yield

    @property
    def page(self) -> SettingsPage | None:
        """The page on show; None until the settings were read."""
        return self._on_show

    def open_at(self, page: SetupPage | None) -> None:
        """The page to turn to when the screen is entered next; None: the first that is not filled in."""
        self._wanted, self._on_show = page, None
        self._stale = True

    # --- what every screen does ----------------------------------------------------------

    def refresh(self) -> None:
        self.desk.work.ask(shop_document.view, then=self._show)

    def take_focus(self) -> None:
        if self._on_show is not None:
            self._on_show.focus_first()

    def leave(self) -> None:
        """What was typed is stored as far as it can be; what cannot stays on the page."""
        super().leave()
        if self._typed and not self._is_saving and self._on_show is not None:
            self._store(self._on_show, lambda: None, lambda _: None)

    # --- the keys ------------------------------------------------------------------------

    @Slot()
    def go_on(self) -> None:
        """Store the page, as filled in or as it stands, and turn to the next."""
        if self._on_show is not None and not self._is_saving:
            self._store(self._on_show, partial(self._turn_by, 1), self.show_failure)

    @Slot()
    def go_back(self) -> None:
        """Turn to the page before."""
        self._turn_away(partial(self._turn_by, -1))

    @Slot()
    def put_off(self) -> None:
        """Leave the page for later and turn to the next."""
        self._turn_away(partial(self._turn_by, 1))

    @Slot(str)
    def _go_to(self, name: str) -> None:
        if self._on_show is not None and name and name != self._on_show.page.value:
            self._turn_away(partial(self._turn, self.pages[SetupPage(name)], False))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._finish()
        elif not scroll_by_page(self.parts.sheet, event):
            super().keyPressEvent(event)

    # --- storing and turning -------------------------------------------------------------

    def _turn_away(self, on: Callable[[], None]) -> None:
        """Turn elsewhere; what was typed here is stored first."""
        if self._is_saving or self._on_show is None:
            return
        if self._typed:
            self._store(self._on_show, on, self.show_failure)
        else:
            on()

    def _store(
        self, page: SettingsPage, on: Callable[[], None], otherwise: Callable[[TapewrightError], None]
    ) -> None:
        assert self.view is not None
        try:
            settings, prices = page.settings(self.view.settings), page.prices(self.view.prices)
        except WrongInput as wrong:
            self._list()
            otherwise(wrong)
            return
        self._is_saving = True
        self.desk.work.run(
            shop_document.leave_page,
            page.page,
            settings,
            prices,
            based_on=self.view.number,
            prices_based_on=self.view.prices_number,
            then=partial(self._was_stored, on),
            otherwise=partial(self._was_not_stored, otherwise),
            changes=frozenset({"shop"}),
        )

    def _was_stored(self, on: Callable[[], None], view: SettingsView) -> None:
        self._is_saving = self._typed = False
        self.view = view
        on()
        self._list()

    def _was_not_stored(self, otherwise: Callable[[TapewrightError], None], failure: TapewrightError) -> None:
        self._is_saving = False
        self._list()
        otherwise(failure)
        if isinstance(failure, WrongInput) and self._on_show is not None:
            self._on_show.point_out(failure)

    @Slot()
    def _abandon(self) -> None:
        """A bug on the way was told already; the page may be stored once more."""
        self._is_saving = False

    def _turn_by(self, step: int) -> None:
        assert self._on_show is not None
        pages = list(self.pages.values())
        place = pages.index(self._on_show) + step
        if place >= len(pages):
            self._finish()
        else:
            self._turn(pages[max(place, 0)])

    def _turn(self, page: SettingsPage, takes_focus: bool = True) -> None:
        assert self.view is not None
        self._on_show = page
        page.show_settings(self.view)
        self._typed = False
        self.parts.turn(page, list(self.pages.values()).index(page))
        self._list()
        if takes_focus and self._shown:
            page.focus_first()

    def _finish(self) -> None:
        if self.view is not None:
            self.said.emit(missing_pages.sentence(self.view.readiness))
        self.finished.emit()

    # --- showing -------------------------------------------------------------------------

    def _show(self, view: SettingsView) -> None:
        if self._is_saving:
            return
        self.view = view
        if self._on_show is None and self.pages:
            self._turn(self.pages[self._first()])
        elif self._on_show is not None and not self._typed:
            self._on_show.show_settings(view)
            self._typed = False
        self._list()

    def _first(self) -> SetupPage:
        """The page asked for; else the first that is still to be filled in."""
        assert self.view is not None
        found, wanted = self.view.readiness, self._wanted
        self._wanted = None
        if wanted in self.pages:
            return wanted
        is_open = frozenset((*found.needed, *found.later))
        return next((page for page in self.pages if page in is_open), next(iter(self.pages)))

    def _list(self) -> None:
        if self.view is not None:
            self.parts.show_list(self.view.readiness, self._on_show)

    @Slot()
    def _note_typed(self) -> None:
        if self.sender() is self._on_show:
            self._typed = True

    @Slot(object)
    def _print_test(self, front: ShopFront) -> None:
        self.desk.show_paper(paper_writing.writing_label_test(front, self.desk.papers), self.show_failure)

    @Slot(object)
    def _print_roll_test(self, front: ShopFront) -> None:
        self.desk.show_paper(paper_writing.writing_roll_test(front, self.desk.papers), self.show_failure)

    def _add(self, page: SettingsPage) -> None:
        self.pages[page.page] = page
        self.parts.add(page)
        page.changed.connect(self._note_typed)
        if isinstance(page, FieldsPage):
            page.refused.connect(self.refused)
        if isinstance(page, BackupPage):
            KeyPrinting(page, self.desk, self.show_failure)
        if page.page is SetupPage.PEOPLE:
            TokenPrinting(cast("PeoplePage", page), self.desk, self.show_failure)
        if isinstance(page, PapersPage):
            page.test_print_wanted.connect(self._print_test)
            page.roll_test_wanted.connect(self._print_roll_test)

    def _connect(self) -> None:
        parts = self.parts
        parts.list.moved.connect(self._go_to)
        parts.next.clicked.connect(self.go_on)
        parts.back.clicked.connect(self.go_back)
        parts.later.clicked.connect(self.put_off)
        parts.show_progress(say("settings", "first-reading"))
