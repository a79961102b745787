"""What the shop reckons with though nobody can say when: what it states, beside what it has counted."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from PySide6.QtCore import QObject, Qt, Signal, Slot
from PySide6.QtWidgets import QGridLayout, QPushButton, QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Expected
from core.services import expectations
from core.services.shop_overview import ShopView
from gui.shop import counted_events
from gui.shop.chapter import Chapter
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.fact_list import as_sentence
from gui.widgets.figure_field import FigureField
from gui.widgets.keyed_form import Form
from gui.widgets.layouts import give_key, labelled, words

_FIGURES: dict[str, tuple[float, Callable[[ShopView], str]]] = {
    "hours_between_failures": (1.0, counted_events.failures),
    "hours_to_repair": (1.0, counted_events.repairs),
    "rush_boxes_a_week": (1.0, counted_events.rush),
    "tapes_in_a_rush_box": (1.0, counted_events.rush_tapes),
    "unplanned_closures": (100.0, counted_events.closures),
}
"""Each figure with how many times it is typed as kept, and the sentence beside it."""


class ExpectationForm(Form):
    """Five figures; the sentence beside each says what was counted and what is therefore reckoned with."""

    wanted = Signal(object)
    """An `Expected` to be kept."""

    def __init__(self, view: ShopView) -> None:
        super().__init__("chapter-expected")
        self.seen = view.settings.expected
        """The figures on which the typing began: somebody else may have changed them since."""
        self.fields = {name: FigureField(f"expect-{name}", say("plans", name)) for name in _FIGURES}
        self.keep = QPushButton(say("plans", "expect_keep"))
        self.keep.setObjectName("expect-keep")
        give_key(self.keep, "F6")
        self._lay_out(view)
        for name, field in self.fields.items():
            field.show_figure(getattr(self.seen, name) * _FIGURES[name][0])
        self._go_with_return(list(self.fields.values()), self.keep)

    def _keep(self) -> None:
        try:
            self.wanted.emit(self._typed())
        except WrongInput as wrong:
            self.refused.emit(wrong)

    def _typed(self) -> Expected:
        """WrongInput, with the keyboard put there, for a line that holds no figure."""
        figures = {name: field.figure_needed() / _FIGURES[name][0] for name, field in self.fields.items()}
        return replace(
            self.seen,
            hours_between_failures=figures["hours_between_failures"],
            hours_to_repair=figures["hours_to_repair"],
            rush_boxes_a_week=figures["rush_boxes_a_week"],
            tapes_in_a_rush_box=figures["tapes_in_a_rush_box"],
            unplanned_closures=figures["unplanned_closures"],
        )

    def _lay_out(self, view: ShopView) -> None:
        self.column.addWidget(words(say("shop", "expected"), "heading"))
        self.column.addWidget(words(say("plans", "expect_lead")))
        grid = QGridLayout()
        grid.setHorizontalSpacing(3 * theme.UNIT)
        grid.setVerticalSpacing(2 * theme.UNIT)
        for row, (name, field) in enumerate(self.fields.items()):
            field.setMaximumWidth(16 * theme.UNIT)
            grid.addWidget(labelled(field, say("plans", name)), row, 0, Qt.AlignmentFlag.AlignBottom)
            beside = words(as_sentence(_FIGURES[name][1](view)))
            beside.setContentsMargins(0, 0, 0, theme.UNIT)  # on the line of the figure
            grid.addWidget(beside, row, 1, Qt.AlignmentFlag.AlignBottom)
        grid.setColumnStretch(1, 1)
        self.column.addLayout(grid)
        self.column.addWidget(words(say("plans", "expect_ground"), "small"))
        self.column.addWidget(self.keep, 0, Qt.AlignmentFlag.AlignLeft)


class ExpectationChapter(Chapter):
    """What the shop expects though nobody planned it."""

    name = "expected"
    place = 80

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._page: ExpectationForm | None = None

    def close(self) -> None:
        self._page = None

    def open(self, view: ShopView) -> QWidget:
        page = self._page = ExpectationForm(view)
        page.wanted.connect(self._expect)
        page.refused.connect(self.refused)
        return page

    @Slot(object)
    def _expect(self, wanted: Expected) -> None:
        if self._page is not None:
            self.change(partial(expectations.expect, seen=self._page.seen), wanted)


CHAPTER = ExpectationChapter
