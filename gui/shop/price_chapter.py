"""The chapter on prices: the table to change them, what that would change, every book with who and when."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, Qt, Slot
from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget

from core.model import json_reader, private_files, regular_files
from core.model.errors import Unavailable, WrongInput
from core.pricing import price_csv
from core.services.own_shop import price_books, price_preview
from core.services.own_shop.price_books import PriceBookVersion
from core.services.own_shop.price_preview import PreviewBasis, PriceOverview, PricePreview
from core.services.shop_overview import ShopView
from core.wording import locale_figures
from gui.settings.beside import Beside
from gui.settings.price_page import PricePage, PriceState
from gui.settings.price_preview_panel import PricePreviewPanel
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import moment, say
from gui.widgets.button_row import ButtonRow
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import empty, give_key, slip, stacked, words

NEWEST = 12
"""How many of the newest entries are told."""
_HEADS = 20 * theme.UNIT


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
        self._kept: PriceState | None = None
        """What was typed and not saved."""
        self._is_pricing = self._is_outdated = False
        self._dialog: QFileDialog | None = None

    def open(self, view: ShopView) -> QWidget:
        self.page, self.panel = PricePage(), PricePreviewPanel()
        inside = QWidget()
        column = stacked(inside, 2 * theme.UNIT)
        column.addWidget(self._table_and_preview(self.page, self.panel), 1)
        column.addWidget(self._history_slip(view.settings.front.timezone))
        self.desk.work.ask(price_preview.overview, then=partial(self._show, self.page))
        return inside

    def close(self) -> None:
        self.page = self.panel = None

    # --- what is shown -------------------------------------------------------------------

    def _show(self, page: PricePage, found: PriceOverview) -> None:
        if page is not self.page:
            return
        self._basis, versions = found.basis, found.versions
        page.show_settings(found.view)
        if self._kept is not None and self._kept.number == found.view.prices_number:
            page.put_back(self._kept)
        page.changed.connect(self._note_typed)
        self._tell_history(versions)
        self.take_back.setEnabled(found.can_take_back)
        self._price_anew()

    @Slot()
    def _note_typed(self) -> None:
        self._kept = self.page.state if self.page is not None else None
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
        try:
            found = self.page.prices(self.page.view.prices)
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        if found is self.page.view.prices:
            self.said.emit(say("settings", "prices-same"))
            return
        day = locale_figures.day(found["valid_from"])
        number = self.page.view.prices_number
        self.change(
            partial(price_books.put_in_force, content=found, based_on=number),
            said=say("settings", "prices-saved", day=day),
        )

    @Slot()
    def _take_back(self) -> None:
        self.change(price_books.withdraw, said=say("settings", "prices-back"))

    @Slot()
    def _ask_where_to(self) -> None:
        self._open_dialog(self.write_csv, QFileDialog.AcceptMode.AcceptSave)

    @Slot()
    def _ask_which(self) -> None:
        self._open_dialog(self.read_csv, QFileDialog.AcceptMode.AcceptOpen)

    def _open_dialog(self, chosen: Any, mode: QFileDialog.AcceptMode) -> None:
        self._dialog = QFileDialog(self.page, say("settings", "title-prices"))
        self._dialog.setAcceptMode(mode)
        self._dialog.setNameFilter(say("settings", "prices-csv-filter"))
        self._dialog.setDefaultSuffix("csv")
        self._dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._dialog.fileSelected.connect(chosen)
        self._dialog.open()

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
            partial(_write, Path(name), content),
            then=lambda _: self.said.emit(said),
            otherwise=self.show_failure,
        )

    @Slot(str)
    def read_csv(self, name: str) -> None:
        """Show the prices of a file on the page; they are kept when they are saved."""
        self.desk.work.write_paper(
            partial(_content, Path(name)),
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

    def _history_slip(self, timezone: str) -> QWidget:
        paper, column = slip("price-history")
        column.addWidget(words(say("settings", "prices-history"), "heading"))
        self._timezone, self._entries = timezone, QWidget()
        stacked(self._entries)
        column.addWidget(self._entries)
        self.take_back = QPushButton(say("settings", "prices-take-back"))
        self.take_back.setObjectName("prices-take-back")
        self.take_back.setEnabled(False)
        self.take_back.clicked.connect(self._take_back)
        column.addWidget(self.take_back, 0, Qt.AlignmentFlag.AlignLeft)
        return paper

    def _tell_history(self, versions: tuple[PriceBookVersion, ...]) -> None:
        inside = self._entries.layout()
        assert inside is not None
        empty(inside)
        facts = FactList(_HEADS)
        for each in versions[:NEWEST]:
            facts.add(f"{moment(each.at, self._timezone)}", [each.words, each.by])
        inside.addWidget(facts if versions else words(say("settings", "prices-history-none"), "small"))


CHAPTER = PriceChapter


def _write(path: Path, content: Mapping[str, Any]) -> None:
    try:
        private_files.write(path, price_csv.written(content).encode())
    except OSError as failure:
        raise Unavailable(f"{path.name}: {failure.strerror}") from failure


def _content(path: Path) -> Mapping[str, Any]:
    regular_files.check(path, path.name, say("files", "text-file"))
    try:
        with path.open("rb") as file:
            data = file.read(json_reader.MOST_BYTES + 1)
        json_reader.refuse_size(data, path.name)
        return price_csv.parsed(data.decode("utf-8"), path.name)
    except (OSError, UnicodeDecodeError) as failure:
        raise WrongInput(path.name, str(failure), say("files", "text-file")) from None
