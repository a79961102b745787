"""Customer side: the order on the counter in large type, turned to the person whose tapes they are.

Read only, but for the way to agree and the signature. Nothing of other customers is ever handed to this
window, and none of the shop's own reasons for a day. It never takes the keyboard and nothing of it scrolls.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtGui import QCloseEvent, QHideEvent, QKeyEvent, QResizeEvent, QScreen, QShowEvent
from PySide6.QtWidgets import QApplication, QWidget

from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.model.quote_records import Quote
from core.model.signatures import Stroke
from core.papers.booking.signing_sheet import SigningSheet
from core.papers.handover.pickup_sheet import PickupSheet
from gui.customer_side.facing_page import FacingPage
from gui.customer_side.facing_slip import FacingSlip
from gui.customer_side.greeting_page import GreetingPage
from gui.customer_side.page_scale import full_scale
from gui.customer_side.pickup_page import PickupPage
from gui.customer_side.quote_page import QuotePage
from gui.customer_side.second_screen import SecondScreen
from gui.customer_side.shown_order import COUNTER, Facing, ShownOrder
from gui.customer_side.signing_page import SigningPage
from gui.customer_side.text_sheet import TextSheet
from gui.customer_side.ways_page import WaysPage
from gui.toolkit import sizes
from gui.toolkit.text import phone, say
from gui.widgets.layouts import Pages, stacked
from gui.widgets.practice_strip import PracticeStrip


class CustomerSide(QWidget):
    """A second window: on the second screen when there is one, else over the whole of the first."""

    signed = Signal(object)
    """The strokes of the signature at drop-off as they stand; empty while nobody signed."""
    signed_for_pickup = Signal(object)
    """The same at Pickup."""
    way_chosen = Signal(object)
    """The `PriceWay` the customer touched."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window | Qt.WindowType.WindowDoesNotAcceptFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_ShowWithoutActivating)
        self.setObjectName("customer-side")
        self.setWindowTitle(say("customer", "title"))
        self.order = ShownOrder()
        self._front: ShopFront | None = None
        self._is_due_back = False
        """Whether it went with its screen, and comes back with it."""
        self.greeting, self.quoting, self.ways = GreetingPage(), QuotePage(), WaysPage()
        self.signing, self.pickup = SigningPage(), PickupPage()
        self._screens = SecondScreen(self, self._own_screen)
        self._build()
        self._connect()
        self.resize(1280, 800)
        self._write()

    # --- what it shows -------------------------------------------------------------------

    @property
    def page(self) -> FacingPage:
        """The page on show."""
        shown = self._pages.on_show
        assert isinstance(shown, FacingPage)
        return shown

    @property
    def slip(self) -> FacingSlip:
        return self.quoting.slip

    @property
    def words(self) -> str:
        """Everything that can be read on it now, on all pages of the parts that turn pages."""
        parts = self.page.findChildren(TextSheet)
        spoken = [part.words for part in parts if part.isVisibleTo(self.page)]
        drawn = [each.accessibleName() for each in self.page.findChildren(QWidget, "customer-tapes")]
        return "\n".join(filter(None, (*spoken, *drawn)))

    def show_front(self, front: ShopFront) -> None:
        """Whose shop it is: its name, logo, greeting and phone number."""
        self._front = front
        self.greeting.show_front(front)
        self.practice.tell(front.practice)
        self._write()

    def show_hours(self, posted: Sequence[tuple[str, str]], closed: Sequence[date]) -> None:
        """When the shop is open, and on which days soon it is not."""
        self.greeting.show_hours(posted, closed)

    @Slot(str)
    def show_moment(self, name: str) -> None:
        """The clerk turned to another moment; whoever booked has left when the Counter comes back."""
        job = self.order.job if name == COUNTER else None
        self._follow(replace(self.order, moment=name, job=job))

    @Slot(object, bool)
    def show_quote(self, quote: Quote | None, is_late: bool = False) -> None:
        """Follow the slip of the Counter; None greets the next customer. A day not its own says so."""
        self._follow(replace(self.order, quote=quote, is_late=is_late, job=None))

    @Slot(object)
    def show_job(self, job: Job) -> None:
        """The box is booked: the number, and thanks."""
        self._follow(replace(self.order, job=job, quote=None, is_choosing=False))

    @Slot(bool)
    def show_ways(self, are_at_hand: bool) -> None:
        """The clerk came to the ways to agree on the price, or went on with the box."""
        self._follow(replace(self.order, is_choosing=are_at_hand))

    @Slot(object)
    def show_pickup(self, sheet: PickupSheet | None) -> None:
        """Follow the order that is open at Pickup; None: none is."""
        self._follow(replace(self.order, pickup=sheet))

    @Slot(object)
    def ask_to_sign(self, sheet: SigningSheet) -> None:
        """Show what is signed, with a pad; on a screen of its own it comes into sight by itself."""
        self.signing.show_sheet(sheet)
        self._follow(replace(self.order, sheet=sheet))
        if not self.isVisible() and self._screens.now() is not None:
            self.turn()

    @Slot()
    def stop_asking(self) -> None:
        """Back to the slip: it was booked, or what was to be signed has changed."""
        self._follow(replace(self.order, sheet=None))

    @Slot(object)
    def show_pickup_ink(self, strokes: Sequence[Stroke]) -> None:
        """What was drawn on the clerk's pad at Pickup, or cleared there."""
        self.pickup.box.pad.show_strokes(strokes)

    @Slot(int)
    def turn_page(self, by: int) -> None:
        """The clerk turns the pages of what is signed."""
        self.signing.turner.step(by)

    def _follow(self, order: ShownOrder) -> None:
        self.order = order
        if self.isVisible():
            self._write()

    def _write(self) -> None:
        """Write the page of the moment; the others keep nothing that is not theirs any more to be seen."""
        order, shop = self.order, self._front.name if self._front is not None else ""
        page: FacingPage = self.greeting
        match order.facing:
            case Facing.QUOTE if order.quote is not None:
                page = self.quoting
                self.quoting.show_quote(order.quote, shop, order.is_late)
            case Facing.BOOKED if order.job is not None:
                page = self.quoting
                self.quoting.show_job(order.job, shop, self._how_to_collect())
            case Facing.WAYS if order.quote is not None:
                page = self.ways
                self.ways.show_quote(order.quote)
            case Facing.SIGNING:
                page = self.signing
            case Facing.PICKUP if order.pickup is not None:
                page = self.pickup
                self.pickup.show_sheet(order.pickup)
        self._pages.turn(page)

    def _how_to_collect(self) -> str:
        if self._front is not None and self._front.phone:
            number = phone(self._front.phone).replace(" ", "\u00a0")
            return say("customer", "booked_how_call", phone=number)
        return say("customer", "booked_how")

    # --- turning -------------------------------------------------------------------------

    @Slot()
    def turn(self) -> None:
        """F9: show it to the customer, or turn it back."""
        self._is_due_back = False
        if self.isVisible():
            self.hide()
            return
        there = self._screens.now()
        if there is not None:
            self.setScreen(there)
            self.setGeometry(there.geometry())
        self.setWindowState(Qt.WindowState.WindowFullScreen)  # showFullScreen would ask for the keyboard
        self.show()

    @Slot()
    def _lose_screen(self) -> None:
        """The customer's screen was unplugged: rather than cover the clerk's, wait until it is back."""
        if self.isVisible() and self._screens.now() is None:
            self.hide()
            self._is_due_back = True

    @Slot()
    def _come_back(self) -> None:
        if self._is_due_back and self._screens.now() is not None:
            self.turn()

    def _own_screen(self) -> QScreen | None:
        parent = self.parentWidget()
        return parent.screen() if parent is not None else None

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """On the only screen Esc turns it back, though the keyboard is never with it."""
        if not isinstance(event, QKeyEvent) or event.type() is not QEvent.Type.KeyPress:
            return False
        if event.key() != Qt.Key.Key_Escape or self._screens.now() is not None:
            return False
        self.hide()
        return True

    def showEvent(self, event: QShowEvent) -> None:
        """What was said while it was turned away."""
        self._write()
        self._listen(self._screens.now() is None)
        super().showEvent(event)

    def hideEvent(self, event: QHideEvent) -> None:
        self._listen(False)
        super().hideEvent(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        self._listen(False)
        super().closeEvent(event)

    def _listen(self, is_on: bool) -> None:
        app = QApplication.instance()
        assert app is not None
        app.removeEventFilter(self)
        if is_on:
            app.installEventFilter(self)

    def has_grown(self) -> None:
        """The clerk's window wears another grid; this one keeps its own."""
        self.practice.enlarge(sizes.BODY * full_scale(self.size()))
        for page in (self.greeting, self.quoting, self.ways, self.signing, self.pickup):
            page.lay_out()

    def resizeEvent(self, event: QResizeEvent) -> None:
        self.practice.enlarge(sizes.BODY * full_scale(event.size()))
        super().resizeEvent(event)

    # --- building ------------------------------------------------------------------------

    def _build(self) -> None:
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setProperty("role", "ground")
        self.practice = PracticeStrip(sizes.BODY, leads_on=False)
        column = stacked(self, 0)
        column.addWidget(self.practice)
        self._pages = Pages(self.greeting, self.quoting, self.ways, self.signing, self.pickup)
        column.addWidget(self._pages, 1)

    def _connect(self) -> None:
        self.ways.chosen.connect(self.way_chosen)
        self.signing.signed.connect(self.signed)
        self.pickup.signed.connect(self.signed_for_pickup)
        self._screens.went.connect(self._lose_screen)
        self._screens.came.connect(self._come_back)
