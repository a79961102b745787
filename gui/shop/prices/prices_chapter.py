"""The chapter on prices: the table to change them, what that would change, every book with who and when."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, Slot
from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget

from core.model.errors import Conflict, TapewrightError, WrongInput
from core.model.names import EVERY_KIND
from core.services.own_shop import price_books, price_conflicts, price_preview
from core.services.own_shop.price_conflicts import Book, PriceConflict
from core.services.own_shop.price_preview import PreviewBasis, PriceOverview, PricePreview
from core.services.shop_overview import ShopView
from core.wording import locale_figures
from gui.settings.beside import Beside
from gui.settings.price_page import PricePage, PriceState
from gui.settings.price_preview_panel import PricePreviewPanel
from gui.shop.chapter import Chapter
from gui.shop.conflict_panel import ConflictPanel
from gui.shop.prices import price_files
from gui.shop.prices.price_draft import PriceDraft
from gui.shop.prices.price_history import PriceHistory
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.button_row import ButtonRow
from gui.widgets.layouts import give_key, slip, stacked, words


class PriceChapter(Chapter):
    """The price book, to be changed from a day on."""

    name = "prices"
    place = 100
    kinds = frozenset({"shop"})

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self.page: PricePage | None = None
        self.panel: PricePreviewPanel | None = None
        self._basis: PreviewBasis | None = None
        self._draft: PriceDraft | None = None
        """What was typed and is not saved."""
        self._clean: PriceState | None = None
        """The page as the records fill it in."""
        self._conflict: PriceConflict | None = None
        """What stands between the draft and a save, until it is settled."""
        self._is_pricing = self._is_outdated = False
        self._dialog: QFileDialog | None = None

    def open(self, view: ShopView) -> QWidget:
        self.page, self.panel = PricePage(), PricePreviewPanel()
        inside = QWidget()
        column = stacked(inside, 2 * theme.UNIT)
        column.addWidget(self._table_and_preview(self.page, self.panel), 1)
        self.history = PriceHistory(view.settings.front.timezone)
        self.history.take_back.clicked.connect(self._take_back)
        column.addWidget(self.history)
        self.desk.work.ask(price_preview.overview, then=partial(self._show, self.page))
        return inside

    def close(self) -> None:
        self.page = self.panel = None

    # --- what is shown -------------------------------------------------------------------

    def _show(self, page: PricePage, found: PriceOverview) -> None:
        if page is not self.page:
            return
        self._basis = found.basis
        page.show_settings(found.view)
        self._clean = page.state
        if self._draft is not None:
            page.put_back(self._draft.state)
        page.changed.connect(self._note_typed)
        self._bring_conflict()
        self.history.show_overview(found)
        self._price_anew()

    @Slot()
    def _note_typed(self) -> None:
        """What is typed outlives the page, with the book over which it was begun."""
        if self.page is None or self.page.view is None or self.page.state is None:
            return
        begun = self._draft or PriceDraft(self.page.state, self.page.view.prices, self.page.state.number)
        self._draft = replace(begun, state=self.page.state) if self.page.state != self._clean else None
        self._price_anew()

    @Slot()
    def _price_anew(self) -> None:
        """Work out what changes, beside the window; while one is worked out, only the newest waits."""
        if self.page is None or self.panel is None or self._basis is None:
            return
        book = self.page.book
        if book is None:
            self.panel.show_waiting()
            return
        self._is_outdated = self._is_pricing
        if not self._is_pricing:
            self._is_pricing = True
            work_out = partial(price_preview.changes, self._basis, self.panel.boxes, book)
            self.desk.work.compute_soon(work_out, then=partial(self._show_preview, self.panel))

    def _show_preview(self, panel: PricePreviewPanel, preview: PricePreview) -> None:
        self._is_pricing = False
        if panel is self.panel and self.page is not None and self._basis is not None:
            panel.show_preview(preview, self._basis.book.currency)
        if self._is_outdated:
            self._price_anew()

    # --- what is done --------------------------------------------------------------------

    @Slot()
    def _save(self) -> None:
        if self.page is None or self.page.view is None:
            return
        view, draft = self.page.view, self._draft
        base, number = (view.prices, view.prices_number) if draft is None else (draft.base, draft.number)
        try:
            found = self.page.prices(base)
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        if found is base:
            self.said.emit(say("settings", "prices-same"))
        else:
            self._put_in_force(found, base, number)

    def _put_in_force(self, content: Book, base: Book, number: int) -> None:
        """Keep a book that was typed over ``base``, when the newest entry was ``number``."""
        day = locale_figures.day(content["valid_from"])
        self.desk.work.run(
            price_books.put_in_force,
            content,
            based_on=number,
            then=partial(self._was_saved, say("settings", "prices-saved", day=day)),
            otherwise=partial(self._was_refused, content, base, number),
            changes=EVERY_KIND,
        )

    def _was_saved(self, said: str, _: object) -> None:
        self._draft = self._conflict = None
        self.said.emit(said)

    def _was_refused(self, content: Book, base: Book, number: int, failure: TapewrightError) -> None:
        """After somebody else's prices both versions are shown; what was typed stays until it is settled."""
        if isinstance(failure, Conflict):
            self.desk.work.ask(price_conflicts.read, base, content, number, then=self._show_conflict)
        else:
            self.show_failure(failure)

    def _show_conflict(self, conflict: PriceConflict) -> None:
        self._conflict = conflict
        self.show_failure(conflict.told())
        self._bring_conflict()

    def _bring_conflict(self) -> None:
        """What is not settled yet stands on the page, also where that was built anew."""
        if self.page is not None and self._conflict is not None:
            self.conflict.show_conflict(self._conflict)

    @Slot(object)
    def _settle(self, content: Book) -> None:
        assert self._conflict is not None
        self._put_in_force(content, self._conflict.theirs, self._conflict.number)

    @Slot()
    def _leave_conflict(self) -> None:
        self._conflict = None

    @Slot()
    def _take_back(self) -> None:
        self.change(price_books.withdraw, said=say("settings", "prices-back"))

    @Slot()
    def _ask_where_to(self) -> None:
        self._dialog = price_files.ask(self.page, QFileDialog.AcceptMode.AcceptSave, self.write_csv)

    @Slot()
    def _ask_which(self) -> None:
        self._dialog = price_files.ask(self.page, QFileDialog.AcceptMode.AcceptOpen, self.read_csv)

    @Slot(str)
    def write_csv(self, name: str) -> None:
        """Write the prices as they stand on the page into a file for a spreadsheet."""
        if self.page is None or self.page.view is None:
            return
        try:
            content = self.page.prices(self.page.view.prices)
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        said = say("settings", "prices-csv-written", file=Path(name).name)
        self.desk.work.write_paper(
            partial(price_files.write, Path(name), content),
            then=lambda _: self.said.emit(said),
            otherwise=self.show_failure,
        )

    @Slot(str)
    def read_csv(self, name: str) -> None:
        """Show the prices of a file on the page; they are kept when they are saved."""
        self.desk.work.write_paper(
            partial(price_files.content, Path(name)),
            then=partial(self._show_read, self.page, Path(name).name),
            otherwise=self.show_failure,
        )

    def _show_read(self, page: PricePage | None, file: str, content: Mapping[str, Any]) -> None:
        if page is not None and page is self.page:
            page.show_book(content)
            page.focus_first()
            self.said.emit(say("settings", "prices-csv-read", file=file))

    # --- layout --------------------------------------------------------------------------

    def _table_and_preview(self, page: PricePage, panel: PricePreviewPanel) -> QWidget:
        paper, column = slip("chapter-prices")
        column.addWidget(words(say("settings", "title-prices"), "heading"))
        column.addWidget(page, 1)
        self.conflict = ConflictPanel()
        self.conflict.settled.connect(self._settle)
        self.conflict.refused.connect(self.refused)
        self.conflict.left.connect(self._leave_conflict)
        column.addWidget(self.conflict)
        column.addWidget(ButtonRow(self._buttons()))
        panel.changed.connect(self._price_anew)
        return Beside(paper, panel)

    def _buttons(self) -> list[QPushButton]:
        found = []
        for name, does in (
            ("save", self._save),
            ("csv-in", self._ask_which),
            ("csv-out", self._ask_where_to),
        ):
            button = QPushButton(say("settings", "save" if name == "save" else f"prices-{name}"))
            button.setObjectName(f"prices-{name}")
            button.clicked.connect(does)
            found.append(button)
        give_key(found[0], "F6")
        return found
