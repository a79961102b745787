"""Shop: a list of chapters on the week of the decks, the promises, the settings and the sources."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

from core.services import shop_overview
from core.services.shop_overview import ShopView
from gui.shop import chapter
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.screen import Screen, is_typed_in
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.layouts import Columns, scroll_by_page, scrolled, stacked, words
from gui.widgets.missing_pages import MissingPages
from gui.widgets.tray import Tray, TrayItem


class ShopScreen(Screen):
    """A list of chapters; the chosen one is open beside it."""

    name = "Shop"
    wants_page = Signal(object)
    """The `SetupPage` somebody wants to fill in."""
    wants_tape = Signal(object)
    """The code of a tape somebody goes on with at the Bench."""

    def __init__(
        self, desk: Desk, parent: QWidget | None = None, kinds_of: Sequence[type[Chapter]] | None = None
    ) -> None:
        """``kinds_of``: the chapters to show, by default all that the folder holds."""
        super().__init__(desk, parent)
        self.view: ShopView | None = None
        self._chapters = {one.name: one(desk, self) for one in kinds_of or chapter.found()}
        self.kinds = frozenset().union(*(one.kinds for one in self._chapters.values()))
        self._changed: set[str] = set()
        """Chapters whose records changed since the last reading."""
        self._open: Chapter | None = None
        self.missing = MissingPages()
        self.missing.wanted.connect(self.wants_page)
        self.chapters = Tray("chapters", say("shop", "chapters"), always_lit=True)
        self.page: QScrollArea = scrolled(QWidget(), "page")
        self._lay_out()
        self._list()
        self._connect()

    def chapter(self, name: str) -> Chapter:
        return self._chapters[name]

    def take_focus(self) -> None:
        self.chapters.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def note_change(self, changed: frozenset[str]) -> None:
        self._changed |= {name for name, one in self._chapters.items() if one.kinds & changed}
        super().note_change(changed)

    def holds_typing(self) -> bool:
        """A chapter that is built anew loses what nobody took yet."""
        return is_typed_in(self.page)

    def places(self) -> tuple[tuple[str, Callable[[], object]], ...]:
        return tuple(
            (one.title, partial(self.chapters.stand_on, name)) for name, one in self._chapters.items()
        )

    def refresh(self) -> None:
        """Read for the chapters whose records changed; for all of them where none is known to have."""
        stale = frozenset(self._changed or self._chapters)
        self._changed.clear()
        self.desk.work.ask(shop_overview.read, then=partial(self._show, stale))

    def _show(self, stale: frozenset[str], view: ShopView) -> None:
        is_first, self.view = self.view is None, view
        self.missing.show_readiness(view.readiness)
        for name in stale:
            self._chapters[name].renew()
        self._list()
        if is_first or self.chapters.current in stale:
            self._turn(self.chapters.current)

    def _list(self) -> None:
        view = self.view
        self.chapters.lay(
            [
                TrayItem(name, one.title, place="" if view is None else one.note(view))
                for name, one in self._chapters.items()
            ]
        )

    @Slot(str)
    def _turn(self, name: str) -> None:
        if self.view is None or name not in self._chapters:
            return
        if self._open is not None:
            self._open.close()
        was_at = self._field_with_keyboard()
        self._open = self._chapters[name]
        inside = QWidget()
        column = stacked(inside)
        column.addWidget(self._open.open(self.view))
        column.addStretch(1)
        self.page.setWidget(inside)
        if was_at is not None:
            (inside.findChild(QWidget, was_at) or self.chapters).setFocus()

    @Slot()
    def _build_anew(self) -> None:
        if self.sender() is self._open:
            self._turn(self.chapters.current)

    def _field_with_keyboard(self) -> str | None:
        """The name of the field of the open chapter that has the keyboard; it is to keep it."""
        field = QApplication.focusWidget()
        return field.objectName() or "?" if field is not None and self.page.isAncestorOf(field) else None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not scroll_by_page(self.page, event):
            super().keyPressEvent(event)

    def _connect(self) -> None:
        self.chapters.moved.connect(self._turn)
        for one in self._chapters.values():
            one.said.connect(self.said)
            one.refused.connect(self.refused)
            one.wants_tape.connect(self.wants_tape)
            one.wants_moment.connect(self.wants_moment)
            one.outdated.connect(self._build_anew)

    def _lay_out(self) -> None:
        columns = Columns(fold_below=90 * theme.UNIT)
        side = QWidget()
        column = stacked(side)
        column.addWidget(words(say("shop", "chapters"), "small"))
        column.addWidget(self.chapters, 1)
        columns.add(side, 3)
        columns.add(self.page, 10)
        whole = stacked(self)
        whole.addWidget(self.missing)
        whole.addWidget(columns, 1)
