"""The owner's page of the Shop screen: who we are, hours, papers; what a change touches; earlier changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import Qt, QTimer, Signal, Slot
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QToolButton

from core.model.errors import WrongInput
from core.model.settings_records import ShopSettings
from core.services.own_shop.settings_versions import SettingsVersion
from core.services.own_shop.shop_document import SettingsView
from gui.settings.form_fields import FieldsPage, WrongField
from gui.settings.front_page import FrontPage
from gui.settings.hours_page import HoursPage
from gui.settings.papers_page import PapersPage
from gui.shop.settings_changes import change_lines, version_lines
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.layouts import Pages, PaperFrame, give_key, rule, words

KINDS: tuple[type[FieldsPage], ...] = (FrontPage, HoursPage, PapersPage)
_PAUSE_MS = 300
"""After so long without a key, what is typed is compared with the records."""


class OwnShopPage(PaperFrame):
    """Three pages behind their titles, with one button that saves them all."""

    wanted = Signal(object)
    """`ShopSettings` to be put in force."""
    drafted = Signal(object)
    """`ShopSettings` as they are typed just now, as often as that changes."""
    undo_wanted = Signal()
    turned = Signal(int)
    """The number of the page that is on show."""
    refused = Signal(object)
    test_print_wanted = Signal(object)

    def __init__(
        self,
        view: SettingsView,
        versions: Sequence[SettingsVersion],
        draft: ShopSettings | None = None,
        at: int = 0,
    ) -> None:
        """``versions`` newest first; ``draft``: typed before and not saved; ``at``: the page to show."""
        super().__init__("chapter-own-shop")
        self._before = view.settings
        self.pages = [kind() for kind in KINDS]
        self.tabs = [_tab(page) for page in self.pages]
        self.touched = words()
        self.effects = words()
        self.save = QPushButton(say("settings", "save"))
        self.undo = QPushButton(say("settings", "undo"))
        self._turner = Pages(*self.pages)
        self._pause = QTimer(self, interval=_PAUSE_MS, singleShot=True)
        self._lay_out(versions)
        self._connect()
        for page in self.pages:
            page.show_settings(_with(view, draft))
        self.turn(at)
        self._compare()

    def turn(self, number: int) -> None:
        """Show one of the pages."""
        self.tabs[number].setChecked(True)
        self._turner.turn(self.pages[number])

    def show_effects(self, lines: Sequence[str]) -> None:
        """What would become of the open promises, under the list of what changes."""
        self.effects.setText("\n".join(lines))

    # --- keeping -------------------------------------------------------------------------

    @Slot()
    def _save(self) -> None:
        """`wanted` with everything typed, or the page and the field that is to be looked at."""
        settings = self._before
        for number, page in enumerate(self.pages):
            try:
                settings = page.settings(settings)
            except WrongInput as wrong:
                self.turn(number)
                if isinstance(wrong, WrongField):
                    wrong.point_out()
                self.refused.emit(wrong)
                return
        self._pause.stop()
        self.wanted.emit(settings)

    @Slot()
    def _compare(self) -> None:
        """Say what would change, as far as what is typed can be read."""
        try:
            draft = self._before
            for page in self.pages:
                draft = page.draft(draft)
        except WrongInput as wrong:
            self.touched.setText(wrong.sentence)
            self.show_effects(())
            return
        for page in self.pages:
            page.follow(draft)
        self.drafted.emit(draft)
        self.touched.setText("\n".join(change_lines(self._before, draft)))

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
        self._pause.timeout.connect(self._compare)
        for page in self.pages:
            page.changed.connect(self._pause.start)
            page.refused.connect(self.refused)
        papers = next(page for page in self.pages if isinstance(page, PapersPage))
        papers.test_print_wanted.connect(self.test_print_wanted)
        self.save.clicked.connect(self._save)
        self.undo.clicked.connect(self.undo_wanted)

    def _lay_out(self, versions: Sequence[SettingsVersion]) -> None:
        self.column.addWidget(words(say("shop", "own_shop"), "heading"))
        row = QHBoxLayout()
        row.setSpacing(0)
        for tab in self.tabs:
            row.addWidget(tab)
        row.addStretch(1)
        self.column.addLayout(row)
        self.column.addWidget(self._turner)
        self.column.addWidget(rule())
        self.touched.setObjectName("own-touched")
        self.column.addWidget(self.touched)
        self.effects.setObjectName("own-effects")
        self.column.addWidget(self.effects)
        for button, name, keys in ((self.save, "own-save", "F6"), (self.undo, "own-undo", "F7")):
            button.setObjectName(name)
            give_key(button, keys)
        self.save.setProperty("role", "main")
        self.column.addWidget(ButtonRow([self.save, self.undo]))
        self.undo.setVisible(bool(versions))  # only now: without a place it would open as a window
        self.column.addWidget(rule())
        self.column.addWidget(words(say("settings", "own-history"), "heading"))
        for line in version_lines(versions, self._before.front.timezone):
            self.column.addWidget(words(line, "small"))


def _tab(page: FieldsPage) -> QToolButton:
    tab = QToolButton()
    tab.setObjectName(f"own-tab-{page.page.value}")
    tab.setText(page.title)
    tab.setCheckable(True)
    tab.setProperty("role", "moment")
    tab.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    return tab


def _with(view: SettingsView, draft: ShopSettings | None) -> SettingsView:
    """The view with what was typed in place of what is kept."""
    return view if draft is None else replace(view, settings=draft)
