"""Days off and deck outages: what is planned, a further plan, and one taken back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QPushButton, QSizePolicy, QWidget

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Outage
from core.services import closed_days, decks
from core.services.event_counts import TimeOff
from core.services.shop_overview import COMING_DAYS, ShopView
from gui.shop.chapter import Chapter
from gui.tables.choices import CellChoice
from gui.tables.type_ahead import TypeAhead
from gui.toolkit import theme
from gui.toolkit.text import day, say
from gui.widgets import wishes
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import PaperFrame, give_key, labelled, rule, words
from gui.widgets.tray import Tray, TrayItem

_IN_SIGHT = 5


@dataclass(frozen=True, slots=True)
class PlannedDowntime:
    """What is to be planned; ``deck`` None: the whole shop is closed."""

    deck: str | None
    first: date
    last: date
    words: str


class DowntimeForm(PaperFrame):
    """The plans in a tray with the way to take one back, and a form for the next one."""

    wanted = Signal(object)
    """A `PlannedDowntime`."""
    back_wanted = Signal(object, str)
    """A `TimeOff` or an `Outage`, and why it is taken back."""
    refused = Signal(object)

    def __init__(self, view: ShopView) -> None:
        super().__init__("chapter-planned")
        self._today = view.week.now.date()
        self._plans: dict[str, TimeOff | Outage] = {_key(each): each for each in _coming(view, self._today)}
        self.tray = Tray("planned", say("plans", "planned"), always_lit=True)
        self.what = QComboBox()
        self.first = TypeAhead(self._days)
        self.last = TypeAhead(self._days)
        self.why = QLineEdit()
        self.plan = QPushButton(say("plans", "plan_it"))
        self.back = QPushButton(say("plans", "take_back"))
        self._fill(view)
        self._lay_out(view)
        self.plan.clicked.connect(self._plan)
        self.back.clicked.connect(self._take_back)
        self.tray.taken.connect(self._go_to_why)

    @Slot()
    def _plan(self) -> None:
        try:
            first = self._day(self.first, "first_day") or self._missing(self.first, "first_day")
            last = self._day(self.last, "last_day") or first
        except WrongInput as wrong:
            self.refused.emit(wrong)
            return
        self.wanted.emit(PlannedDowntime(self.what.currentData(), first, last, self.why.text().strip()))

    @Slot()
    def _take_back(self) -> None:
        plan = self._plans.get(self.tray.current)
        if plan is not None:
            self.back_wanted.emit(plan, self.why.text().strip())

    @Slot(str)
    def _go_to_why(self, _: str) -> None:
        self.why.setFocus()

    def _day(self, field: TypeAhead, key: str) -> date | None:
        try:
            return wishes.day(field.settle(), self._today, say("plans", key))
        except WrongInput:
            field.setFocus()
            raise

    def _missing(self, field: TypeAhead, key: str) -> date:
        field.setFocus()
        raise WrongInput(say("plans", key), "", say("plans", "day_needed"))

    def _days(self) -> Sequence[CellChoice]:
        return wishes.days_offered(self._today)

    # --- building ------------------------------------------------------------------------

    def _fill(self, view: ShopView) -> None:
        self.what.setObjectName("plan-what")
        self.what.addItem(say("plans", "whole_shop"), None)
        for deck in view.settings.working_decks:
            self.what.addItem(deck.name, deck.name)
        for field, name in ((self.first, "plan-first"), (self.last, "plan-last"), (self.why, "plan-why")):
            field.setObjectName(name)
            field.setMinimumWidth(14 * theme.UNIT)
        self.last.setPlaceholderText(say("plans", "last_day_hint"))
        self.why.setPlaceholderText(say("plans", "why_hint"))
        for button, name, keys in ((self.plan, "plan-it", "F6"), (self.back, "plan-back", "F7")):
            button.setObjectName(name)
            give_key(button, keys)
        self.tray.lay([_piece(key, plan) for key, plan in self._plans.items()])

    def _lay_out(self, view: ShopView) -> None:
        self.column.addWidget(words(say("shop", "planned"), "heading"))
        self.column.addWidget(words(say("plans", "plan_lead")))
        self.tray.setFixedHeight(max(min(len(self._plans), _IN_SIGHT), 2) * 6 * theme.UNIT + 4)
        self.column.addWidget(self.tray)
        if not self._plans:
            self.column.addWidget(words(say("plans", "nothing_planned"), "lead"))
        row = QHBoxLayout()
        row.setSpacing(2 * theme.UNIT)
        for field, key in ((self.what, "what"), (self.first, "first_day"), (self.last, "last_day")):
            field.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            row.addWidget(labelled(field, say("plans", key)), 1)
        self.column.addLayout(row)
        self.column.addWidget(labelled(self.why, say("plans", "why")))
        buttons = QHBoxLayout()
        buttons.setSpacing(theme.UNIT)
        buttons.addWidget(self.plan)
        buttons.addWidget(self.back)
        buttons.addStretch(1)
        self.column.addLayout(buttons)
        for widget in (self.tray, self.back):  # only now: without a place they would open as windows
            widget.setVisible(bool(self._plans))
        self.column.addWidget(rule())
        self.column.addWidget(_shut(view))


def _coming(view: ShopView, today: date) -> list[TimeOff | Outage]:
    """What is planned and not over, and the newest days shut unplanned: those may be taken back too."""
    off = [each for each in view.days_off if each.days[-1] >= today or not each.is_planned]
    outages = [each for each in view.settings.outages if each.ends >= today]
    return sorted([*off, *outages], key=lambda each: (-_last(each).toordinal(), _key(each)))


def _last(plan: TimeOff | Outage) -> date:
    return plan.days[-1] if isinstance(plan, TimeOff) else plan.ends


def _key(plan: TimeOff | Outage) -> str:
    if isinstance(plan, TimeOff):
        return f"shop {plan.days[0].isoformat()}"
    return f"{plan.deck} {plan.begins.isoformat()}"


def _piece(key: str, plan: TimeOff | Outage) -> TrayItem:
    if isinstance(plan, Outage):
        title = say("plans", "deck_out", deck=plan.deck, span=_span(plan.begins, plan.ends))
        return TrayItem(key, title, place=say("plans", "by_plan"))
    title = say("plans", "shop_closed", span=_span(plan.days[0], plan.days[-1]))
    place = say("plans", "by_plan" if plan.is_planned else "unplanned")
    return TrayItem(key, title, small=plan.words, place=place)


def _span(first: date, last: date) -> str:
    if first == last:
        return say("plans", "on_day", day=day(first))
    return say("plans", "from_to", first=day(first), last=day(last))


def _shut(view: ShopView) -> FactList:
    """Every day off in the coming weeks, public holidays among them."""
    facts = FactList(20 * theme.UNIT)
    shut = [say("shop", "shut_day", day=day(when), why=why) for when, why in view.shut]
    facts.add(say("shop", "shut_coming"), shut or [say("shop", "none_shut", days=COMING_DAYS)])
    return facts


class DowntimeChapter(Chapter):
    """Days the shop is closed and decks out of service by plan."""

    name = "planned"
    place = 70

    def open(self, view: ShopView) -> QWidget:
        page = DowntimeForm(view)
        page.wanted.connect(self._plan)
        page.back_wanted.connect(self._cancel)
        page.refused.connect(self.refused)
        return page

    @Slot(object)
    def _plan(self, plan: PlannedDowntime) -> None:
        if plan.deck is None:
            self.change(closed_days.plan, plan.first, plan.last, plan.words)
        else:
            self.change(decks.plan_outage, Outage(plan.deck, plan.first, plan.last), plan.words)

    @Slot(object, str)
    def _cancel(self, plan: TimeOff | Outage, why: str) -> None:
        if isinstance(plan, TimeOff):
            self.change(closed_days.open_after_all, plan.days, why)
        else:
            self.change(decks.cancel_outage, plan, why)


CHAPTER = DowntimeChapter
