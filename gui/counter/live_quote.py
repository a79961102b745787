"""The quote while somebody types: price and ranges with the key, the day as soon as it is worked out.

Tapes, hours, copies and price take some milliseconds and come at once. The day takes longer than one frame of
the screen; until it comes the last one stands. A day worked out for a box that has changed since is dropped.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING

from core.model.errors import WrongInput
from core.model.inventory import Inventory
from core.model.quote_records import Quote

if TYPE_CHECKING:
    from core.services.quoting import ShopSnapshot


@dataclass(frozen=True, slots=True)
class PendingDay:
    """The question a quote answers: shop and box. Names and labels change neither price nor date."""

    snapshot: ShopSnapshot
    inventory: Inventory

    def quote(self, now: datetime) -> Quote:
        """The whole quote, its day included. WrongInput as `ShopSnapshot.quote`."""
        return self.snapshot.quote(self.inventory, now)


class LiveQuote:
    """Holds the last quote, and whether its promised day belongs to its tapes."""

    def __init__(self) -> None:
        self.snapshot: ShopSnapshot | None = None
        self.open: PendingDay | None = None
        """The question whose day is still worked out; None: the day on show belongs to the tapes on show."""
        self._asked: PendingDay | None = None
        self._quote: Quote | None = None
        self._failure: WrongInput | None = None

    @property
    def is_settled(self) -> bool:
        """Whether the day belongs to the tapes."""
        return self.open is None

    def quote(self, inventory: Inventory, now: datetime) -> tuple[Quote | None, WrongInput | None]:
        """The quote, or why there is none; neither for an empty tray or before the shop was read."""
        if self.snapshot is None or not inventory.lines:
            self._asked = self.open = self._quote = self._failure = None
            return None, None
        asked = PendingDay(self.snapshot, _without_words(inventory))
        if asked != self._asked:
            self._asked = self.open = asked
            self._make(asked, now)
        return self._quote, self._failure

    def settle(self, asked: PendingDay, quote: Quote) -> bool:
        """Accept a whole quote; returns False when the box or the shop has changed since it was asked for."""
        if asked is not self.open:
            return False
        self.open, self._quote, self._failure = None, quote, None
        return True

    def refuse(self, asked: PendingDay, failure: WrongInput) -> bool:
        """Accept the reason why there is no quote; returns False as `settle` does."""
        if asked is not self.open:
            return False
        self.open, self._quote, self._failure = None, None, failure
        return True

    def _make(self, asked: PendingDay, now: datetime) -> None:
        try:
            self._quote = asked.snapshot.at_once(asked.inventory, self._quote, now)
            self._failure = None
        except WrongInput as failure:
            self.refuse(asked, failure)


def _without_words(inventory: Inventory) -> Inventory:
    lines = tuple(replace(line, label="") if line.label else line for line in inventory.lines)
    return replace(inventory, lines=lines, customer=None)
