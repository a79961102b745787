"""Ties the Customer side to the moments: what the Counter counts, what Pickup gives back, whose shop."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Slot

from core.model.own_shop.settings_records import ShopSettings
from core.scheduling import opening_hours
from core.services import decks
from core.services.own_shop import posted_hours
from gui.customer_side.customer_window import CustomerSide

if TYPE_CHECKING:
    from gui.app.main_window import Window
    from gui.counter.counter_screen import CounterScreen
    from gui.pickup.pickup_screen import PickupScreen
    from gui.toolkit.screen_context import Desk


class CustomerFacing(QObject):
    """Holds the window for the customer as long as a shop is open."""

    def __init__(self, window: Window, desk: Desk, settings: ShopSettings) -> None:
        self.side = CustomerSide(window)
        super().__init__(self.side)
        self._desk = desk
        self._settings = settings
        self._told_for: date | None = None
        window.wants_customer_side.connect(self.side.turn)
        window.turned.connect(self.side.show_moment)
        window.turned.connect(self._note_day)
        desk.work.changed.connect(self._note_settings)
        self._show(settings)

    def follow_counter(self, counter: CounterScreen) -> None:
        """Show the box that is counted, how its price can be agreed, and what is signed for it."""
        side, signing = self.side, counter.booking.signing
        counter.quote_changed.connect(side.show_quote)
        counter.job_booked.connect(side.show_job)
        counter.ways_at_hand.changed.connect(side.show_ways)
        side.way_chosen.connect(counter.choose_way)
        signing.wanted.connect(side.ask_to_sign)
        signing.ended.connect(side.stop_asking)
        signing.page_turned.connect(side.turn_page)
        side.signed.connect(signing.take_ink)

    def follow_pickup(self, pickup: PickupScreen) -> None:
        """Show the order that is handed back, and let it be signed for."""
        facing = pickup.facing
        facing.changed.connect(self.side.show_pickup)
        facing.ink_changed.connect(self.side.show_pickup_ink)
        self.side.signed_for_pickup.connect(facing.take_ink)

    @Slot(object)
    def _note_settings(self, changed: frozenset[str]) -> None:
        if "shop" in changed:
            self._desk.work.ask(decks.settings, then=self._show)

    @Slot()
    def _note_day(self) -> None:
        if opening_hours.today(self._settings, self._desk.clock()) != self._told_for:
            self._show(self._settings)

    def _show(self, settings: ShopSettings) -> None:
        self._settings = settings
        today = self._told_for = opening_hours.today(settings, self._desk.clock())
        self.side.show_front(settings.front)
        self.side.show_hours(posted_hours.posted(settings, today), posted_hours.closed_soon(settings, today))
