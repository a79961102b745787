"""The shop at this moment, read once: what the Counter and the command line quote against."""

from __future__ import annotations

from core.scheduling import opening_hours
from core.services import deck_queue, promises
from core.services.quoting import ShopSnapshot
from core.store import current_prices
from core.store.unit import Unit


def read(unit: Unit) -> ShopSnapshot:
    """The shop as its records tell it now. Costly: it works the whole queue through."""
    looked = promises.load(unit)
    today = opening_hours.today(looked.settings, looked.made_at)
    return ShopSnapshot(
        looked.settings, current_prices.in_force(unit, today), looked, looked.made_at, deck_queue.habits(unit)
    )
