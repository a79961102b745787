"""The page on papers and labels: the sheet, what is printed when an order is booked, the labels in use."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any, ClassVar

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QComboBox, QGridLayout, QPushButton, QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Printing, ShopSettings
from core.model.own_shop.setup_pages import SetupPage
from core.papers.typesetting.paper_tokens import usual_paper
from core.services.own_shop.shop_document import SettingsView
from core.wording import typed_amounts
from core.wording.locale_figures import figure
from gui.settings.fields_page import FieldsPage, checked
from gui.settings.form_fields import TextField, WrongField
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import labelled, words

_PRINTED = ("quote", "claim_slip", "labels")
_WHEN = ("yes", "ask", "no")
_SIZES = ("letter", "a4")
_STOCKS = ("usual", "sheet", "single")
_SLIPS = ("sheet", "roll")
_COUNTS = ("label_columns", "label_rows")
_SIZE = ("label_width_mm", "label_height_mm")
_ON_SHEET = ("label_left_mm", "label_top_mm", "label_gap_across_mm", "label_gap_down_mm")
_MEASURES = (*_COUNTS, *_SIZE, *_ON_SHEET)
_ACROSS = 2
"""Fields side by side."""


class PapersPage(FieldsPage):
    """Paper size, what is printed, and the labels."""

    page = SetupPage.PAPERS
    paths: ClassVar[tuple[str, ...]] = (
        "front.paper",
        *(f"papers.{key}" for key in (*_PRINTED, "claim_slip_on", "roll_width_mm")),
        *(f"papers.{key}" for key in ("label_stock", *_MEASURES, "label_start")),
        "work.scanner_prefix",
    )
    test_print_wanted = Signal(object)
    """A `ShopFront` whose label sheet is to be printed with a number on every label."""
    roll_test_wanted = Signal(object)
    """A `ShopFront` whose roll paper is to be tried out."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown: ShopSettings | None = None
        self._paper_shown = ""
        self.paper = _box("papers-paper", _SIZES, "papers-size")
        self.printed = {key: _box(f"papers-{key}", _WHEN, "papers-when") for key in _PRINTED}
        self.slip_on = _box("papers-claim_slip_on", _SLIPS, "papers-slip")
        self.roll = TextField("papers-roll_width_mm")
        self.stock = _box("papers-stock", _STOCKS, "papers-stock")
        self.measures = {key: TextField(f"papers-{key}") for key in _MEASURES}
        self.start = TextField("papers-label_start")
        self.prefix = TextField("papers-scanner_prefix")
        self.test = QPushButton(say("settings", "papers-test"))
        self.test.setObjectName("papers-test")
        self.roll_test = QPushButton(say("settings", "papers-roll-test"))
        self.roll_test.setObjectName("papers-roll-test")
        self._rooms: dict[str, QWidget] = {}
        self._lay_out()
        self._connect()

    # --- what it shows -------------------------------------------------------------------

    def show_settings(self, view: SettingsView) -> None:
        self._shown = view.settings
        printing = view.settings.front.printing
        self._show_paper(view.settings)
        for key, box in self.printed.items():
            self._show(box, getattr(printing, key))
        self._show(self.slip_on, printing.claim_slip_on)
        self.roll.setText(figure(printing.roll_width_mm))
        self._show(self.stock, printing.label_stock)
        for key, field in self.measures.items():
            field.setText(figure(getattr(printing, key)))
        self.start.setText(figure(printing.label_start))
        self.prefix.setText(view.settings.scanner_prefix)
        self._show_measures()

    def draft(self, before: ShopSettings) -> ShopSettings:
        front = before.front
        chosen = self.paper.currentData()
        paper = front.paper if chosen == self._paper_shown else chosen
        front = replace(front, paper=paper, printing=self._printing(front.printing))
        draft = replace(before, front=front, scanner_prefix=self.prefix.text().strip())
        others = {"label_start": self.start, "roll_width_mm": self.roll, "scanner_prefix": self.prefix}
        return checked(draft, {**self.measures, **others})

    def focus_first(self) -> None:
        self.paper.setFocus()

    def follow(self, settings: ShopSettings) -> None:
        """Another country has another paper, unless it was chosen here."""
        if self.paper.currentData() == self._paper_shown:
            self._show_paper(settings)

    def _show_paper(self, settings: ShopSettings) -> None:
        self._paper_shown = settings.front.paper or usual_paper(settings.front.currency)
        self._show(self.paper, self._paper_shown)

    # --- what is typed -------------------------------------------------------------------

    def _printing(self, before: Printing) -> Printing:
        stock = self.stock.currentData()
        measured: dict[str, Any] = {key: self._measure(key) for key in _offered(stock)}
        start = int(self._number(self.start, whole=True)) if stock != "single" else before.label_start
        slip_on = self.slip_on.currentData()
        if slip_on == "roll":
            measured["roll_width_mm"] = self._number(self.roll, whole=False)
        when = {key: box.currentData() for key, box in self.printed.items()}
        return replace(
            before, claim_slip_on=slip_on, label_stock=stock, label_start=start, **when, **measured
        )

    def _measure(self, key: str) -> float:
        is_count = key in _COUNTS
        found = self._number(self.measures[key], whole=is_count)
        return int(found) if is_count else float(found)

    def _number(self, field: TextField, *, whole: bool) -> float:
        found = typed_amounts.number_of(field.text())
        if found is None or (whole and found != found.to_integral_value()):
            accepted = say("files", "whole-number") if whole else say("settings", "papers-length-accepted")
            raise WrongField(field, field.accessibleName(), field.text(), accepted)
        return float(found)

    @Slot()
    def _print_test(self) -> None:
        if self._shown is None:
            return
        wanted = self.roll_test_wanted if self.sender() is self.roll_test else self.test_print_wanted
        try:
            wanted.emit(self.settings(self._shown).front)
        except WrongInput as wrong:
            self.refused.emit(wrong)

    # --- building ------------------------------------------------------------------------

    @Slot()
    def _show_measures(self) -> None:
        """Only what the paper and the labels in use are measured by."""
        is_roll = self.slip_on.currentData() == "roll"
        for part in (self._rooms["roll_width_mm"], self.roll_test):
            part.setVisible(is_roll)
        stock = self.stock.currentData()
        for key in (*self.measures, "label_start"):
            self._rooms[key].setVisible(
                key in _offered(stock) or (key == "label_start" and stock != "single")
            )

    @staticmethod
    def _show(box: QComboBox, value: str) -> None:
        box.setCurrentIndex(box.findData(value))

    def _connect(self) -> None:
        for box in (self.paper, *self.printed.values(), self.slip_on, self.stock):
            box.activated.connect(self.changed)
        self.slip_on.currentIndexChanged.connect(self._show_measures)
        self.stock.currentIndexChanged.connect(self._show_measures)
        for field in (*self.measures.values(), self.start, self.roll, self.prefix):
            field.textEdited.connect(self.changed)
        for button in (self.test, self.roll_test):
            button.clicked.connect(self._print_test)

    def _lay_out(self) -> None:
        top = _grid(_ACROSS)
        for place, (key, box) in enumerate((("paper", self.paper), *self.printed.items())):
            room = labelled(box, say("settings", f"papers-{key}"))
            top.addWidget(room, place // _ACROSS, place % _ACROSS)
        self.column.addLayout(top)
        self.column.addWidget(words(say("settings", "papers-when-lead"), "small"))
        slip = _grid(_ACROSS)
        slip.addWidget(labelled(self.slip_on, say("settings", "papers-claim_slip_on")), 0, 0)
        self._rooms["roll_width_mm"] = labelled(self.roll, say("settings", "papers-roll_width_mm"))
        slip.addWidget(self._rooms["roll_width_mm"], 0, 1)
        self.column.addLayout(slip)
        self.column.addWidget(self.roll_test, 0, Qt.AlignmentFlag.AlignLeft)
        self.column.addWidget(labelled(self.stock, say("settings", "papers-stock")))
        grid = _grid(_ACROSS)
        for place, (key, field) in enumerate((*self.measures.items(), ("label_start", self.start))):
            self._rooms[key] = labelled(field, say("settings", f"papers-{key}"))
            grid.addWidget(self._rooms[key], place // _ACROSS, place % _ACROSS)
        self.column.addLayout(grid)
        self.column.addWidget(words(say("settings", "papers-test-lead"), "small"))
        self.column.addWidget(self.test, 0, Qt.AlignmentFlag.AlignLeft)
        self.column.addWidget(labelled(self.prefix, say("settings", "papers-scanner_prefix")))
        self.column.addWidget(words(say("settings", "papers-scanner-means"), "small"))
        self.column.addStretch(1)


PAGE = PapersPage


def _offered(stock: str) -> Sequence[str]:
    """What labels of this kind are measured by."""
    return {"usual": (), "sheet": _MEASURES, "single": _SIZE}[stock]


def _box(name: str, values: Sequence[str], key: str) -> QComboBox:
    box = QComboBox()
    box.setObjectName(name)
    for value in values:
        box.addItem(say("settings", f"{key}-{value}"), value)
    return box


def _grid(columns: int) -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(2 * theme.UNIT)
    grid.setVerticalSpacing(theme.UNIT)
    for column in range(columns):
        grid.setColumnStretch(column, 1)
    return grid
