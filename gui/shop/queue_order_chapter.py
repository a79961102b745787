"""The order in which the boxes take their turns: a better one looked for, told box by box, and set."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal, Slot
from PySide6.QtWidgets import QHBoxLayout, QWidget

from core.model.errors import TapewrightError
from core.services import box_order
from core.services.box_order import CompletionChange, Proposal
from core.services.shop_overview import ShopView
from gui.shop.chapter import Chapter
from gui.shop.order_search_run import OrderSearch
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.text import day, say, times_in_twenty
from gui.widgets.button_row import key_button
from gui.widgets.fact_list import FactList
from gui.widgets.layouts import PaperFrame, empty, words

MOST_TOLD = 12
_HARDLY = 0.05
"""An hour and a quarter: a box that moves less does not move."""


class QueueOrderPage(PaperFrame):
    """One key looks and stops, one sets the order that was found, one takes the last one back."""

    look_wanted = Signal()
    stop_wanted = Signal()
    put_wanted = Signal(object)
    """A `Proposal`."""
    back_wanted = Signal()

    def __init__(self, view: ShopView) -> None:
        super().__init__("chapter-order")
        self._proposal: Proposal | None = None
        self._is_looking = False
        self.look = key_button("order-look", "F6", say("plans", "order_look"))
        self.put = key_button("order-put", "F7", say("plans", "order_put"))
        self.back = key_button("order-back", "F8", say("plans", "order_back"))
        self._told = PaperFrame("order-told")
        self._lay_out(view)
        self.look.clicked.connect(self._look)
        self.put.clicked.connect(self._put)
        self.back.clicked.connect(self.back_wanted)

    def wait(self) -> None:
        """A search is under way."""
        self._show(looking=True)
        self._write([say("plans", "order_looking")])

    def rest(self) -> None:
        """No search, no answer."""
        self._show()
        self._told.hide()

    def tell(self, proposal: Proposal | None) -> None:
        """What was found; None: nothing better."""
        self._show(proposal)
        if proposal is None:
            self._write([say("plans", "order_none")])
            return
        moved = [each for each in proposal.changes if abs(each.days) >= _HARDLY]
        key = "order_found" if proposal.days >= _HARDLY else "order_found_dates"
        self._write([say("plans", key, days=_days(proposal.days))], moved[:MOST_TOLD])
        if len(moved) > MOST_TOLD:
            self._told.column.addWidget(
                words(say("plans", "order_more", count=len(moved) - MOST_TOLD), "small")
            )

    @Slot()
    def _look(self) -> None:
        (self.stop_wanted if self._is_looking else self.look_wanted).emit()

    @Slot()
    def _put(self) -> None:
        if self._proposal is not None:
            self.put_wanted.emit(self._proposal)

    def _show(self, proposal: Proposal | None = None, *, looking: bool = False) -> None:
        self._proposal, self._is_looking = proposal, looking
        self.look.setText(say("plans", "order_stop" if looking else "order_look"))
        self.put.setVisible(proposal is not None)

    def _write(self, sentences: list[str], changes: list[CompletionChange] | None = None) -> None:
        empty(self._told.column)
        facts = FactList(26 * theme.UNIT)
        told = [(f"{each.customer} · {each.number}", change_words(each)) for each in changes or ()]
        for sentence in sentences:
            self._told.column.addWidget(words(sentence, "lead"))
        for head, line in told:
            facts.add(head, [line])
        self._told.column.addWidget(facts)
        self._told.setAccessibleDescription(
            " ".join([*sentences, *(f"{head}: {line}." for head, line in told)])
        )
        self._told.show()

    def _lay_out(self, view: ShopView) -> None:
        self.column.addWidget(words(say("shop", "order"), "heading"))
        self.column.addWidget(words(say("plans", "order_lead")))
        stands = "order_set" if view.box_order else "order_as_came"
        self.column.addWidget(words(say("plans", stands), "small"))
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        for button in (self.look, self.put, self.back):
            row.addWidget(button)
        row.addStretch(1)
        self.column.addLayout(row)
        self._told.setAccessibleName(say("shop", "order"))
        self.column.addWidget(self._told)
        self.put.hide()
        self.back.setVisible(bool(view.box_order))
        self._told.hide()


def change_words(change: CompletionChange) -> str:
    """``2.3 days sooner; promised for Thursday 12 March, 19 times in 20 (14 times in 20 as it stands)``."""
    moved = say("plans", "later" if change.days < 0 else "sooner", days=_days(abs(change.days)))
    if change.promised is None or change.was is None or change.will is None:
        return moved
    will, was = times_in_twenty(change.will), times_in_twenty(change.was)
    key = "order_promise_same" if will == was else "order_promise"
    return f"{moved}; {say('plans', key, day=day(change.promised), will=will, was=was)}"


def _days(days: float) -> str:
    rounded = round(days, 1)
    return say("plans", "one_day") if rounded == 1 else say("plans", "some_days", days=f"{rounded:g}")


class QueueOrderChapter(Chapter):
    """Looks for a better order, and sets it; a search outlives the page, not the queue it is for."""

    name = "order"
    place = 40

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(desk, parent)
        self._page: QueueOrderPage | None = None
        self._proposal: Proposal | None = None
        self._search = OrderSearch(desk.work, self)
        self._search.found.connect(self._tell)
        self._search.failed.connect(self._fail)

    def renew(self) -> None:
        self._search.stop()
        self._proposal = None

    def open(self, view: ShopView) -> QWidget:
        page = self._page = QueueOrderPage(view)
        page.look_wanted.connect(self._look)
        page.stop_wanted.connect(self._stop)
        page.put_wanted.connect(self._set)
        page.back_wanted.connect(self._undo)
        if self._search.is_under_way:
            page.wait()
        elif self._proposal is not None:
            page.tell(self._proposal)
        return page

    def close(self) -> None:
        self._page = None

    @Slot()
    def _look(self) -> None:
        self._proposal = None
        self._search.begin()
        if self._page is not None:
            self._page.wait()

    @Slot()
    def _stop(self) -> None:
        self._search.stop()
        if self._page is not None:
            self._page.rest()
        self.said.emit(say("plans", "order_stopped"))

    @Slot(object)
    def _tell(self, proposal: Proposal | None) -> None:
        self._proposal = proposal
        if self._page is not None:
            self._page.tell(proposal)

    @Slot(object)
    def _fail(self, failure: TapewrightError) -> None:
        if self._page is not None:
            self._page.rest()
        self.show_failure(failure)

    @Slot(object)
    def _set(self, proposal: Proposal) -> None:
        self.change(box_order.put, proposal.order, proposal.seen, said=say("plans", "order_kept"))

    @Slot()
    def _undo(self) -> None:
        self.change(box_order.put_back, said=say("plans", "order_taken_back"))


CHAPTER = QueueOrderChapter
