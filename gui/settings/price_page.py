"""The page on prices: one table, the day from which it holds, and all prices changed at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from typing import Any, ClassVar

from PySide6.QtCore import Qt, Slot
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QPushButton, QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.pricing import price_book, price_rows
from core.pricing.price_book import PriceBook
from core.pricing.price_rows import BOOK
from core.services.own_shop import shop_document
from core.services.own_shop.shop_document import SettingsView
from core.wording import typed_amounts
from gui.settings import price_lines, price_texts
from gui.settings.price_cells import PriceTable
from gui.settings.price_lines import PriceLine
from gui.settings.settings_page import SettingsPage
from gui.tables.type_ahead import TypeAhead
from gui.toolkit import theme
from gui.toolkit.text import say, short_day
from gui.widgets import wishes
from gui.widgets.button_row import ButtonRow
from gui.widgets.layouts import labelled, stacked, words


@dataclass(frozen=True, slots=True)
class PriceState:
    """What stands on the page, and the number of the newest price book when it was read."""

    number: int
    lines: tuple[PriceLine, ...]
    heading: Mapping[str, str]
    day: str
    mine: bool


class PricePage(SettingsPage):
    """The price book, to be filled in by keyboard."""

    page = SetupPage.PRICES
    paths: ClassVar[tuple[str, ...]] = ("prices",)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.view: SettingsView | None = None
        self._heading: dict[str, str] = {}
        self.table = PriceTable()
        self.day = TypeAhead(self._days)
        self.percent, self.step = QLineEdit(), QLineEdit()
        self.remark = QLineEdit()
        self.mine = QCheckBox(say("settings", "prices-mine"))
        self.raise_all = QPushButton(say("settings", "prices-raise"))
        self.again = QPushButton(say("settings", "prices-again"))
        self._invented = words(say("settings", "prices-invented"), "attention")
        self._complaint = words("", "attention")
        self._meaning = words(say("settings", "prices-lead"))
        self._meaning.setMinimumHeight(2 * self._meaning.fontMetrics().lineSpacing())
        self._name_fields()
        self._lay_out()
        self._connect()

    # --- what the page shows and gives back ----------------------------------------------

    def show_settings(self, view: SettingsView) -> None:
        self.view = view
        self.table.show_currency(str(view.prices["currency"]))
        self.show_book(view.prices)
        self.day.setText(short_day(view.today))
        self.step.setText(_smallest(view))

    def show_book(self, content: Mapping[str, Any]) -> None:
        """Fill the table in from the tables of a book; the day stays."""
        rows = price_rows.of_document(content)
        self._heading = {row.code: row.value for row in rows if row.part == BOOK}
        invented = self._heading["invented"] == "true"
        for shown in (self._invented, self.mine):
            shown.setVisible(invented)
        self.mine.setChecked(not invented)
        self.remark.setText(next(row.value for row in rows if row.code == "tax"))
        self.remark.setCursorPosition(0)
        self._show(price_lines.lines(content))

    def settings(self, before: ShopSettings) -> ShopSettings:
        """Prices are no settings: these stay as they were."""
        return before

    def prices(self, before: Mapping[str, Any]) -> Mapping[str, Any]:
        """The tables of the book on the page, valid from the day on it; ``before`` where nothing was changed.

        WrongInput, keyboard at the cell, for what is not accepted.
        """
        content = price_book.document(self._book_needed())
        head = {key: before[key] for key in ("name", "valid_from")}
        if {**content, **head} == before:
            return before
        found: Mapping[str, Any] = shop_document.dated(content, self._day_needed())
        return found

    @property
    def state(self) -> PriceState | None:
        """What stands on the page, to be put back; None before anything was shown."""
        if self.view is None:
            return None
        heading = {**self._heading, "tax": self.remark.text()}
        return PriceState(
            self.view.prices_number, self.table.lines, heading, self.day.text(), self.mine.isChecked()
        )

    def put_back(self, state: PriceState) -> None:
        """Show again what stood on the page."""
        self._show(state.lines)
        self.remark.setText(state.heading["tax"])
        self._heading = {code: cell for code, cell in state.heading.items() if code != "tax"}
        self.day.setText(state.day)
        self.mine.setChecked(state.mine)

    @property
    def book(self) -> PriceBook | None:
        """The book as it stands on the page; None while something in it is not accepted."""
        return price_lines.checked(self._lines(), self._cells())[0] if self.view is not None else None

    def focus_first(self) -> None:
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    # --- inside --------------------------------------------------------------------------

    def _book_needed(self) -> PriceBook:
        self.table.commit()
        if not self.remark.text().strip():
            self.remark.setFocus()
            remark = say("settings", "prices-tax-remark-place")
            raise WrongInput(remark, "", say("settings", "prices-accepted-words"))
        book, lines = price_lines.checked(self._lines(), self._cells())
        self.table.show_lines(lines)
        found = price_lines.first_wrong(lines)
        if found is not None:
            place, column, wrong = found
            self.table.stand_on(place, column)
            raise wrong
        assert book is not None
        return book

    def _day_needed(self) -> date:
        assert self.view is not None
        try:
            found = wishes.day(self.day.text(), self.view.today, say("settings", "prices-from-place"))
        except WrongInput:
            self.day.setFocus()
            raise
        return found or self.view.today

    def _cells(self) -> dict[str, str]:
        """The rows of the book that are no prices."""
        if self._heading["invented"] == "true" and self.mine.isChecked():
            return {**self._heading, "invented": "false", "remark": say("settings", "own-prices")}
        return self._heading

    def _lines(self) -> tuple[PriceLine, ...]:
        """The lines of the table, the remark about tax among them."""
        return tuple(
            replace(line, row=replace(line.row, value=self.remark.text())) if line.row.code == "tax" else line
            for line in self.table.lines
        )

    def _show(self, lines: tuple[PriceLine, ...]) -> None:
        self.table.show_lines(price_lines.checked(lines, self._heading)[1])
        self._complain()
        self.changed.emit()

    @Slot(object)
    def _take(self, lines: tuple[PriceLine, ...]) -> None:
        self._show(lines)

    @Slot()
    def _complain(self) -> None:
        """The sentence on the current line, else on the first that is not accepted."""
        here, lines = self.table.currentIndex(), self.table.lines
        found = price_lines.first_wrong(lines[here.row() : here.row() + 1] if here.isValid() else ())
        found = found or price_lines.first_wrong(lines)
        self._complaint.setText(found[2].sentence if found is not None else "")
        self._complaint.setVisible(found is not None)
        means = lines[here.row()].means if 0 <= here.row() < len(lines) else ""
        self._meaning.setText(means or say("settings", "prices-lead"))

    @Slot()
    def _raise(self) -> None:
        assert self.view is not None
        try:
            book = self._book_needed()
            percent, step = _signed(self.percent), self._step()
            self._show(price_lines.lines(price_book.document(price_book.raised(book, percent, step))))
            self.percent.clear()
        except WrongInput as wrong:
            self._complaint.setText(wrong.sentence)
            self._complaint.show()

    def _step(self) -> Decimal:
        assert self.view is not None
        currency = self.view.prices["currency"]
        found = price_texts.price_of(self.step.text(), currency)
        if found is None or not Decimal(found):
            self.step.setFocus()
            accepted = say("settings", "prices-accepted-price", example=typed_amounts.example(currency))
            raise WrongInput(say("settings", "prices-raise-round"), self.step.text(), accepted)
        return Decimal(found)

    @Slot()
    def _start_over(self) -> None:
        if self.view is not None:
            self.show_settings(self.view)
            self.focus_first()

    @Slot()
    def _changed(self) -> None:
        self.changed.emit()

    def _days(self) -> tuple[Any, ...]:
        return wishes.days_offered(self.view.today) if self.view is not None else ()

    def _name_fields(self) -> None:
        for field, name in (
            (self.day, "prices-day"),
            (self.percent, "prices-percent"),
            (self.step, "prices-step"),
            (self.remark, "prices-remark"),
            (self.mine, "prices-mine"),
            (self.raise_all, "prices-raise"),
            (self.again, "prices-again"),
            (self._complaint, "prices-complaint"),
        ):
            field.setObjectName(name)

    def _connect(self) -> None:
        self.table.edited.connect(self._take)
        self.table.cell_reached.connect(self._complain)
        self.table.went_on.connect(self.remark.setFocus)
        self.table.went_back.connect(self.raise_all.setFocus)
        self.raise_all.clicked.connect(self._raise)
        self.percent.returnPressed.connect(self._raise)
        self.step.returnPressed.connect(self._raise)
        self.again.clicked.connect(self._start_over)
        self.remark.textEdited.connect(self._changed)
        self.day.textEdited.connect(self._changed)
        self.mine.toggled.connect(self._changed)

    def _lay_out(self) -> None:
        self.column.addWidget(self._meaning)
        self.column.addWidget(self._invented)
        self.column.addWidget(self.mine)
        self.column.addWidget(self._raising())
        self.column.addWidget(self.table, 1)
        self.column.addWidget(self._complaint)
        last = _row()
        last.addWidget(labelled(self.remark, say("settings", "prices-tax-remark")), 1)
        last.addWidget(self.again, 0, Qt.AlignmentFlag.AlignBottom)
        self.column.addLayout(last)
        self._complaint.hide()

    def _raising(self) -> ButtonRow:
        """The day, and all prices at once, on one row where there is room."""
        low = QWidget()
        column = stacked(low, 0)
        column.addStretch(1)
        column.addWidget(self.raise_all)
        fields = (
            (self.day, "prices-from-day"),
            (self.percent, "prices-raise-percent"),
            (self.step, "prices-raise-round"),
        )
        return ButtonRow([*(labelled(field, say("settings", name)) for field, name in fields), low])


def _row() -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(theme.UNIT)
    return row


def _signed(field: QLineEdit) -> Decimal:
    """A percentage that may be below zero; WrongInput, keyboard at the field, for none."""
    text = field.text().strip().replace("−", "-")
    found = price_texts.percent_of(text.removeprefix("-"))
    if found is None or not -100 < (value := Decimal(found) * (-1 if text[:1] == "-" else 1)) <= 1000:
        field.setFocus()
        place = say("files", "raise-percent")
        raise WrongInput(place, field.text(), say("settings", "prices-accepted-raise"))
    return value


def _smallest(view: SettingsView) -> str:
    """The smallest amount of the currency, as it is typed."""
    return typed_amounts.typed_amount(1, str(view.prices["currency"]))


PAGE = PricePage
