"""The quote while somebody types: made at every key, but only when the key can change it.

The price comes with the key. The day of a large box takes longer than one frame of the screen; it
follows as soon as the keys pause.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from core.errors import WrongInput
from core.inventory import Inventory
from core.present import Present
from core.records import Quote

MOST_AT_ONCE = 12
"""Tapes up to which the day is worked out at every key; above, it follows when the keys pause."""


class LiveQuote:
    """Remembers the last quote. Names and labels change neither price nor date."""

    def __init__(self) -> None:
        self.present: Present | None = None
        self.is_settled = True
        """Whether the day belongs to the tapes; else `settle` is still to come."""
        self._asked: tuple[Present, Inventory] | None = None
        self._quote: Quote | None = None
        self._failure: WrongInput | None = None

    def of(self, inventory: Inventory, now: datetime) -> tuple[Quote | None, WrongInput | None]:
        """The quote, or why there is none; neither for an empty tray or before the shop was read."""
        if self.present is None or not inventory.lines:
            self._asked, self._quote, self._failure, self.is_settled = None, None, None, True
            return None, None
        asked = (self.present, _without_words(inventory))
        if asked != self._asked:
            self._asked = asked
            self._make(self.present, inventory, now)
        return self._quote, self._failure

    def settle(self, inventory: Inventory, now: datetime) -> None:
        """Work out the day, too."""
        if self.present is not None and not self.is_settled:
            self._work_out(self.present, inventory, now)

    def fresh(self, inventory: Inventory, now: datetime) -> Quote:
        """The quote to be booked, names and labels included. WrongInput as `Present.quote`."""
        assert self.present is not None
        return self.present.quote(inventory, now)

    def _make(self, present: Present, inventory: Inventory, now: datetime) -> None:
        last = self._quote
        if last is None or sum(line.count for line in inventory.lines) <= MOST_AT_ONCE:
            self._work_out(present, inventory, now)
            return
        self.is_settled = False
        try:
            self._quote, self._failure = present.at_once(inventory, last, now), None
        except WrongInput as failure:
            self._quote, self._failure, self.is_settled = None, failure, True

    def _work_out(self, present: Present, inventory: Inventory, now: datetime) -> None:
        self.is_settled = True
        try:
            self._quote, self._failure = present.quote(inventory, now), None
        except WrongInput as failure:
            self._quote, self._failure = None, failure


def _without_words(inventory: Inventory) -> Inventory:
    lines = tuple(replace(line, label="") if line.label else line for line in inventory.lines)
    return replace(inventory, lines=lines, customer=None)
