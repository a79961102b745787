"""The quote while somebody types: made at every key, but only when the key can change it."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from core.errors import WrongInput
from core.inventory import Inventory
from core.records import Quote
from gui.present import Present


class LiveQuote:
    """Remembers the last quote. Names and labels change neither price nor date."""

    def __init__(self) -> None:
        self.present: Present | None = None
        self._asked: tuple[Present, Inventory] | None = None
        self._quote: Quote | None = None
        self._failure: WrongInput | None = None

    def of(self, inventory: Inventory, now: datetime) -> tuple[Quote | None, WrongInput | None]:
        """The quote, or why there is none; neither for an empty tray or before the shop was read."""
        if self.present is None or not inventory.lines:
            return None, None
        asked = (self.present, _without_words(inventory))
        if asked != self._asked:
            self._quote, self._failure = _made(self.present, inventory, now)
            self._asked = asked
        return self._quote, self._failure

    def fresh(self, inventory: Inventory, now: datetime) -> Quote:
        """The quote to be booked, names and labels included. WrongInput as `Present.quote`."""
        assert self.present is not None
        return self.present.quote(inventory, now)


def _made(present: Present, inventory: Inventory, now: datetime) -> tuple[Quote | None, WrongInput | None]:
    try:
        return present.quote(inventory, now), None
    except WrongInput as failure:
        return None, failure


def _without_words(inventory: Inventory) -> Inventory:
    lines = tuple(replace(line, label="") if line.label else line for line in inventory.lines)
    return replace(inventory, lines=lines, customer=None)
