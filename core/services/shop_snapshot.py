"""The shop at this moment: everything a quote is made against, read once and asked at every key."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from core.model.inventory import Inventory
from core.model.quote_records import Quote
from core.model.settings_records import ShopSettings
from core.playtime.habits import STARTING, ShopHabits
from core.pricing.price_book import PriceBook
from core.promise import turnaround
from core.scheduling import opening_hours
from core.services import captures, price_books, promises, quoting
from core.store.unit import Unit


@dataclass(frozen=True, slots=True, eq=False)
class ShopSnapshot:
    """ShopSettings, price book and the queue already worked through."""

    fittings: ShopSettings
    book: PriceBook
    load: turnaround.Load
    now: datetime
    """When it was read, as the clock on the shop's wall shows it."""
    habits: ShopHabits = STARTING
    """What the shop has learned of its customers' tapes."""

    @property
    def today(self) -> date:
        return opening_hours.today(self.fittings, self.now)

    def quote(self, inventory: Inventory, now: datetime) -> Quote:
        """The quote of a box; pure. WrongInput for what the catalogue or the book do not know."""
        moment = now.astimezone(self.now.tzinfo)
        return quoting.quote(
            inventory, book=self.book, fittings=self.fittings, load=self.load, now=moment, shop=self.habits
        )

    def at_once(self, inventory: Inventory, last: Quote | None, now: datetime) -> Quote:
        """The price at once, with the day of ``last``, if there is one. WrongInput as `quote`."""
        moment = now.astimezone(self.now.tzinfo)
        return quoting.at_once(
            inventory,
            last,
            book=self.book,
            fittings=self.fittings,
            load=self.load,
            now=moment,
            shop=self.habits,
        )


def read(unit: Unit) -> ShopSnapshot:
    """The shop as its records tell it now. Costly: it works the whole queue through."""
    load = promises.load(unit)
    fittings, now = load.fittings, load.made_at
    book = price_books.in_force(unit, opening_hours.today(fittings, now))
    return ShopSnapshot(fittings, book, load, now, captures.habits(unit))
