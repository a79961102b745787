"""Where everything lies on the set-up: the list at the left, the page at the right, the keys below."""

from __future__ import annotations

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QWidget

from core.services.own_shop.readiness import Readiness
from gui.settings.settings_page import SettingsPage
from gui.toolkit import sizes
from gui.toolkit.text import say
from gui.widgets import missing_pages
from gui.widgets.button_row import ButtonRow
from gui.widgets.instant_buttons import InstantButton
from gui.widgets.layouts import Columns, Pages, Sheet, give_key, scrolled, slip, stacked, words
from gui.widgets.tray import Tray, TrayItem

_FOLD_BELOW = 90 * sizes.UNIT


class SetUpLayout:
    """Builds the parts into the screen and shows what belongs to several of them."""

    def __init__(self, screen: QWidget) -> None:
        self._pages: list[SettingsPage] = []
        self._turning = Pages(words())
        self._title = words("", "great")
        self._progress = words("", "small")
        self._missing = words("", "small")
        self.list = Tray("set-up-pages", say("settings", "first-pages"), always_lit=True)
        self.back = _button("first-back", "Alt+Left")
        self.later = _button("first-later-key", "Alt+Right")
        self.next = _button("first-next", "Ctrl+Return")
        self.next.setProperty("role", "main")
        self.sheet = scrolled(self._paper(), "set-up-page")
        self._build(screen)

    def add(self, page: SettingsPage) -> None:
        """One more page, laid where it stays: at each new place Qt looks at the style of all its parts."""
        self._pages.append(page)
        self._turning.add(page)

    def turn(self, page: SettingsPage, place: int) -> None:
        """Show this page under its title; ``place`` counts from 0."""
        self._title.setText(page.title)
        self.show_progress(say("settings", "first-page-of", page=place + 1, pages=len(self._pages)))
        self._turning.turn(page)
        self.back.setEnabled(place > 0)
        self.sheet.verticalScrollBar().setValue(0)

    def show_progress(self, sentence: str) -> None:
        self._progress.setText(sentence)

    def show_list(self, found: Readiness, on_show: SettingsPage | None) -> None:
        """Say of every page whether it is filled in, and what is missing."""
        self._missing.setText(missing_pages.sentence(found))
        self.list.lay(
            [TrayItem(page.page.value, page.title, place=_state(page, found)) for page in self._pages]
        )
        if on_show is not None:
            self.list.stand_on(on_show.page.value)

    # --- building ------------------------------------------------------------------------

    def _build(self, screen: QWidget) -> None:
        columns = Columns(_FOLD_BELOW)
        side = QWidget()
        column = stacked(side)
        column.addWidget(words(say("settings", "first-pages"), "small"))
        column.addWidget(self.list, 1)
        column.addWidget(self._missing)
        columns.add(side, 5)
        right = PageAndKeys(self.sheet, columns)
        column = stacked(right)
        column.addWidget(self.sheet, 1)
        column.addWidget(ButtonRow([self.back, self.later, self.next]))
        columns.add(right, 17, rank=1)
        stacked(screen).addWidget(columns)

    def _paper(self) -> QWidget:
        paper, column = slip("set-up-slip")
        column.addWidget(self._progress)
        column.addWidget(self._title)
        column.addWidget(self._turning)
        column.addStretch(1)
        return paper


class PageAndKeys(QWidget):
    """The page over its keys; where the columns fold it is unrolled, and only the whole scrolls."""

    def __init__(self, sheet: Sheet, columns: Columns) -> None:
        super().__init__()
        self._sheet = sheet
        self._columns = columns

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._sheet.unroll(self._columns.is_folded)


def _state(page: SettingsPage, found: Readiness) -> str:
    if page.page in found.needed:
        return say("settings", "first-state-needed")
    return say("settings", "first-state-later" if page.page in found.later else "first-state-done")


def _button(name: str, keys: str) -> InstantButton:
    button = InstantButton(say("settings", name, keys=keys))
    button.setObjectName(name)
    give_key(button, keys)
    return button
