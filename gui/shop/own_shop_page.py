"""The owner's page of the Shop screen: who we are, hours, papers; what a change touches; earlier changes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QToolButton

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.services.own_shop import settings_versions
from core.services.own_shop.settings_versions import SettingsVersion
from core.services.own_shop.shop_document import SettingsView
from gui.settings.fields_page import FieldsPage
from gui.settings.form_fields import WrongField
from gui.settings.front_page import FrontPage
from gui.settings.hours_page import HoursPage
from gui.settings.papers_page import PapersPage
from gui.shop.draft_sheet import DraftSheet
from gui.toolkit import theme
from gui.toolkit.text import moment, say
from gui.widgets.layouts import Pages, rule, words

KINDS: tuple[type[FieldsPage], ...] = (FrontPage, HoursPage, PapersPage)
MOST_VERSIONS = 8
"""So many of the newest changes are told."""


class OwnShopPage(DraftSheet):
    """Three pages behind their titles, with one button that saves them all."""

    turned = Signal(int)
    """The number of the page that is on show."""
    test_print_wanted = Signal(object)
    roll_test_wanted = Signal(object)

    def __init__(
        self,
        view: SettingsView,
        versions: Sequence[SettingsVersion],
        draft: ShopSettings | None = None,
        at: int = 0,
    ) -> None:
        """``versions`` newest first; ``draft``: typed before and not saved; ``at``: the page to show."""
        super().__init__("chapter-own-shop", view.settings)
        self.pages = [kind() for kind in KINDS]
        self.tabs = [_tab(page) for page in self.pages]
        self._turner = Pages(*self.pages)
        self._lay_out(versions)
        self._connect()
        for page in self.pages:
            page.show_settings(_with(view, draft))
        self.turn(at)
        self.compare()

    def turn(self, number: int) -> None:
        """Show one of the pages."""
        self.tabs[number].setChecked(True)
        self._turner.turn(self.pages[number])

    # --- what is typed -------------------------------------------------------------------

    def draft(self) -> ShopSettings:
        draft = self._before
        for page in self.pages:
            draft = page.draft(draft)
        for page in self.pages:
            page.follow(draft)
        return draft

    def settings(self) -> ShopSettings:
        """Everything typed; else the page and the field that is to be looked at."""
        settings = self._before
        for number, page in enumerate(self.pages):
            try:
                settings = page.settings(settings)
            except WrongInput as wrong:
                self.turn(number)
                if isinstance(wrong, WrongField):
                    wrong.point_out()
                raise
        return settings

    @Slot(int)
    def _turn_to(self, number: int) -> None:
        self.turn(number)
        self.turned.emit(number)
        self.pages[number].focus_first()

    # --- building ------------------------------------------------------------------------

    def _connect(self) -> None:
        group = QButtonGroup(self)
        for number, tab in enumerate(self.tabs):
            group.addButton(tab, number)
        group.idClicked.connect(self._turn_to)
        for page in self.pages:
            page.changed.connect(self.pause.start)
            page.refused.connect(self.refused)
        papers = next(page for page in self.pages if isinstance(page, PapersPage))
        papers.test_print_wanted.connect(self.test_print_wanted)
        papers.roll_test_wanted.connect(self.roll_test_wanted)

    def _lay_out(self, versions: Sequence[SettingsVersion]) -> None:
        self.column.addWidget(words(say("shop", "own_shop"), "heading"))
        row = QHBoxLayout()
        row.setSpacing(0)
        for tab in self.tabs:
            row.addWidget(tab)
        row.addStretch(1)
        self.column.addLayout(row)
        self.column.addWidget(self._turner)
        self._lay_keys(has_undo=bool(versions))
        self.column.addWidget(rule())
        self.column.addWidget(words(say("settings", "own-history"), "heading"))
        for line in _history(versions, self._before.front.timezone):
            self.column.addWidget(words(line, "small"))


def _history(versions: Sequence[SettingsVersion], timezone: str) -> Iterator[str]:
    """A line for each of the newest versions."""
    for version, told in list(settings_versions.told(versions))[:MOST_VERSIONS]:
        yield say("settings", "history-line", at=moment(version.at, timezone), by=version.by, words=told)
    if not versions:
        yield say("settings", "no-history")


def _tab(page: FieldsPage) -> QToolButton:
    tab = QToolButton()
    tab.setObjectName(f"own-tab-{page.page.value}")
    tab.setText(page.title)
    tab.setCheckable(True)
    tab.setProperty("role", "moment")
    tab.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    tab.setMinimumHeight(round(3.5 * theme.UNIT))
    return tab


def _with(view: SettingsView, draft: ShopSettings | None) -> SettingsView:
    """The view with what was typed in place of what is kept."""
    return view if draft is None else replace(view, settings=draft)
