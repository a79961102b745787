"""Shop: the week of the decks, the promises under review, and what every figure rests on."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

from core.catalogue.formats import catalogue
from core.model.errors import TapewrightError
from core.model.repair_records import Donor
from core.model.settings_records import Expected, Outage
from core.promise.queue_relief import Relief
from core.services import box_order, closed_days, decks, donors, expectations, shop_overview, what_would_help
from core.services.box_order import Proposal
from core.services.closed_days import TimeOff
from core.services.donors import DonorStock
from core.services.shop_overview import ShopView
from core.services.what_would_help import AboutQueue
from gui.shop import chapters, deck_care, kept_chapter, learned_habits
from gui.shop.deck_care import DeckCare
from gui.shop.donor_chapter import Correction, DonorChapter
from gui.shop.expectation_form import ExpectForm
from gui.shop.order_chapter import Order
from gui.shop.order_search_run import OrderSearch
from gui.shop.planning_form import Plan, PlanForm
from gui.shop.promise_chapter import Promises
from gui.toolkit import theme
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import say
from gui.widgets.donor_stock import DonorDelivery
from gui.widgets.layouts import Columns, scroll_by_page, scrolled, stacked, words
from gui.widgets.tray import Tray, TrayItem

_CHAPTERS: dict[str, Callable[[ShopView], QWidget]] = {
    "week": chapters.week,
    "promises": Promises,
    "order": Order,
    "kept": kept_chapter.chapter,
    "care": deck_care.DeckCare,
    "donors": DonorChapter,
    "planned": PlanForm,
    "expected": ExpectForm,
    "decks": chapters.fittings,
    "prices": chapters.prices,
    "habits": learned_habits.chapter,
    "grounds": chapters.grounds,
}


class ShopScreen(Screen):
    """A list of chapters; the chosen one is open beside it."""

    name = "Shop"
    kinds = frozenset({"jobs", "tapes", "shop"})

    def __init__(self, desk: Desk, parent: QWidget | None = None) -> None:
        super().__init__(desk, parent)
        self.view: ShopView | None = None
        self._deck = ""
        self._promises: Promises | None = None
        self._order: Order | None = None
        self._donors: DonorChapter | None = None
        self._proposal: Proposal | None = None
        self._search = OrderSearch(desk.work, self)
        self.chapters = Tray("chapters", say("shop", "chapters"), always_lit=True)
        self.page: QScrollArea = scrolled(QWidget(), "page")
        self._lay_out()
        self.chapters.lay([TrayItem(key, say("shop", key)) for key in _CHAPTERS])
        self.chapters.moved.connect(self._turn)
        self._search.found.connect(self._tell_order)
        self._search.failed.connect(self._order_failed)

    def take_focus(self) -> None:
        self.chapters.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def refresh(self) -> None:
        self.desk.work.ask(shop_overview.read, then=self._show)

    def _show(self, view: ShopView) -> None:
        self.view = view
        self._search.stop()  # what it was asked about is another queue now
        self._proposal = None
        at_risk = sum(kept.is_at_risk for kept in view.promises)
        place = say("shop", "at_risk", count=at_risk) if at_risk else ""
        self.chapters.lay(
            [TrayItem(key, say("shop", key), place=place if key == "promises" else "") for key in _CHAPTERS]
        )
        self._turn(self.chapters.current)

    @Slot(str)
    def _turn(self, key: str) -> None:
        if self.view is None or key not in _CHAPTERS:
            return
        made = _CHAPTERS[key](self.view)
        self._listen(made)
        inside, was_at = QWidget(), self._field_with_keyboard()
        column = stacked(inside)
        column.addWidget(made)
        column.addStretch(1)
        self.page.setWidget(inside)
        if was_at is not None:
            (inside.findChild(QWidget, was_at) or self.chapters).setFocus()

    def _field_with_keyboard(self) -> str | None:
        """The name of the field of the open chapter that has the keyboard; it is to keep it."""
        field = QApplication.focusWidget()
        return field.objectName() or "?" if field is not None and self.page.isAncestorOf(field) else None

    def _listen(self, made: QWidget) -> None:
        """Chapters that can be worked in tell what is wanted."""
        if isinstance(made, DeckCare):
            made.decks.moved.connect(self._remember_deck)
            if self._deck:
                made.decks.stand_on(self._deck)
            made.out_wanted.connect(self._take_out)
            made.back_wanted.connect(self._put_back)
            made.shut_wanted.connect(self._stay_shut)
        if isinstance(made, Promises):
            made.help_wanted.connect(self._ask_for_help)
            self._promises = made
        if isinstance(made, PlanForm):
            made.wanted.connect(self._plan)
            made.back_wanted.connect(self._take_plan_back)
            made.refused.connect(self.refused)
        if isinstance(made, ExpectForm):
            made.wanted.connect(self._expect)
            made.refused.connect(self.refused)
        if isinstance(made, Order):
            self._listen_to_order(made)
        if isinstance(made, DonorChapter):
            self._listen_to_donors(made)

    @Slot(str)
    def _remember_deck(self, name: str) -> None:
        self._deck = name

    @Slot(str, str)
    def _take_out(self, deck: str, why: str) -> None:
        self._change(decks.broke_down, deck, why)

    @Slot(str, str)
    def _put_back(self, deck: str, why: str) -> None:
        self._change(decks.back_in_service, deck, why)

    @Slot(str)
    def _stay_shut(self, why: str) -> None:
        self._change(closed_days.stayed_shut, self.desk.clock().date(), why)

    @Slot(object)
    def _plan(self, plan: Plan) -> None:
        if plan.deck is None:
            self._change(closed_days.plan, plan.first, plan.last, plan.words)
        else:
            self._change(decks.plan_outage, Outage(plan.deck, plan.first, plan.last), plan.words)

    @Slot(object, str)
    def _take_plan_back(self, plan: TimeOff | Outage, why: str) -> None:
        if isinstance(plan, TimeOff):
            self._change(closed_days.open_after_all, plan.days, why)
        else:
            self._change(decks.cancel_outage, plan, why)

    @Slot(object)
    def _expect(self, wanted: Expected) -> None:
        self._change(expectations.expect, wanted)

    def _change(self, step: Callable[..., object], *asked: object, said: str = "") -> None:
        """One step on decks, days or order; every date is looked at anew afterwards."""
        self.desk.work.run(
            step,
            *asked,
            then=partial(self._was_changed, said),
            otherwise=self.show_failure,
            changes=frozenset({"shop", "jobs", "tapes"}),
        )

    def _was_changed(self, said: str, _: object) -> None:
        if said:
            self.said.emit(said)

    # --- the order of boxes --------------------------------------------------------------

    def _listen_to_order(self, made: Order) -> None:
        self._order = made
        made.look_wanted.connect(self._look_for_order)
        made.stop_wanted.connect(self._stop_looking)
        made.put_wanted.connect(self._put_in_order)
        made.back_wanted.connect(self._take_order_back)
        if self._search.is_under_way:
            made.wait()
        elif self._proposal is not None:
            made.tell(self._proposal)

    @Slot()
    def _look_for_order(self) -> None:
        self._proposal = None
        self._search.begin()
        if self._order is not None:
            self._order.wait()

    @Slot()
    def _stop_looking(self) -> None:
        self._search.stop()
        if self._order is not None:
            self._order.rest()
        self.said.emit(say("plans", "order_stopped"))

    @Slot(object)
    def _tell_order(self, proposal: Proposal | None) -> None:
        self._proposal = proposal
        if self.chapters.current == "order" and self._order is not None:
            self._order.tell(proposal)

    @Slot(object)
    def _order_failed(self, failure: TapewrightError) -> None:
        if self.chapters.current == "order" and self._order is not None:
            self._order.rest()
        self.show_failure(failure)

    @Slot(object)
    def _put_in_order(self, proposal: Proposal) -> None:
        self._change(box_order.put, proposal.order, proposal.seen, said=say("plans", "order_kept"))

    @Slot()
    def _take_order_back(self) -> None:
        self._change(box_order.put_back, said=say("plans", "order_taken_back"))

    # --- donor parts ---------------------------------------------------------------------

    def _listen_to_donors(self, made: DonorChapter) -> None:
        self._donors = made
        made.corrected.connect(self._put_count_right)
        made.delivered.connect(self._put_on_shelf)
        made.refused.connect(self.refused)
        self.desk.work.ask(donors.shelf, then=self._tell_shelf)

    def _tell_shelf(self, shelf: DonorStock) -> None:
        if self.chapters.current == "donors" and self._donors is not None:
            self._donors.know(shelf)

    @Slot(object)
    def _put_count_right(self, right: Correction) -> None:
        place = (right.format, right.part, right.count)
        self._change_shelf(donors.correct, *place, came_from=right.came_from, because=right.because)

    @Slot(object)
    def _put_on_shelf(self, more: DonorDelivery) -> None:
        self._change_shelf(donors.add, more.format, more.part, more.count, came_from=more.came_from)

    def _change_shelf(self, step: Callable[..., Donor], *asked: object, **named: object) -> None:
        """One step on donor parts; no date and no price depends on it."""
        self.desk.work.run(
            step,
            *asked,
            then=self._shelf_changed,
            otherwise=self.show_failure,
            changes=frozenset(),
            **named,
        )

    def _shelf_changed(self, now: Donor) -> None:
        form = catalogue().format(now.format).words
        self.said.emit(say("donors", "is_right", count=now.count, format=form, part=now.part.value))
        self._turn(self.chapters.current)

    # --- what would help -----------------------------------------------------------------

    @Slot()
    def _ask_for_help(self) -> None:
        self.desk.work.ask(what_would_help.about_queue, then=self._think, otherwise=self.show_failure)

    def _think(self, question: AboutQueue) -> None:
        self.desk.work.think(question.answer, then=self._tell_help, otherwise=self.show_failure)

    def _tell_help(self, found: tuple[Relief, ...]) -> None:
        if self.chapters.current == "promises" and self._promises is not None:
            self._promises.help.tell([each.sentence for each in found])

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
