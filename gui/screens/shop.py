"""Shop: the week of the decks, the promises under review, and what every figure rests on."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QScrollArea, QWidget

from gui import chapters, shopview, theme
from gui.desk import Desk
from gui.screens.screen import Screen
from gui.shopview import ShopView
from gui.text import say
from gui.widgets import habits
from gui.widgets.layouts import Columns, scroll_by_page, scrolled, stacked, words
from gui.widgets.tray import Piece, Tray

_CHAPTERS: dict[str, Callable[[ShopView], QWidget]] = {
    "week": chapters.week,
    "promises": chapters.promises,
    "decks": chapters.fittings,
    "prices": chapters.prices,
    "habits": habits.chapter,
    "grounds": chapters.grounds,
}


class ShopScreen(Screen):
    """A list of chapters; the chosen one is open beside it."""

    name = "Shop"
    kinds = frozenset({"jobs", "tapes", "shop"})

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.view: ShopView | None = None
        self.chapters = Tray("chapters", say("shop", "chapters"), always_lit=True)
        self.page: QScrollArea = scrolled(QWidget(), "page")
        self._lay_out()
        self.chapters.lay([Piece(key, say("shop", key)) for key in _CHAPTERS])
        self.chapters.moved.connect(self._turn)

    def take_focus(self) -> None:
        self.chapters.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def refresh(self) -> None:
        self.desk.work.ask(shopview.read, then=self._show)

    def _show(self, view: ShopView) -> None:
        self.view = view
        at_risk = sum(kept.is_at_risk for kept in view.promises)
        place = say("shop", "at_risk", count=at_risk) if at_risk else ""
        self.chapters.lay(
            [Piece(key, say("shop", key), place=place if key == "promises" else "") for key in _CHAPTERS]
        )
        self._turn(self.chapters.current)

    @Slot(str)
    def _turn(self, key: str) -> None:
        if self.view is None or key not in _CHAPTERS:
            return
        inside = QWidget()
        column = stacked(inside)
        column.addWidget(_CHAPTERS[key](self.view))
        column.addStretch(1)
        self.page.setWidget(inside)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not scroll_by_page(self.page, event):
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        columns = Columns(fold_below=90 * theme.UNIT)
        side = QWidget()
        column = stacked(side)
        column.addWidget(words(say("shop", "chapters"), "small"))
        column.addWidget(self.chapters, 1)
        columns.add(side, 1)
        columns.add(self.page, 4)
        stacked(self).addWidget(columns)
