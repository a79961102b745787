"""Prices that were typed and are not saved."""

from __future__ import annotations

from dataclasses import dataclass

from core.services.own_shop.price_conflicts import Book
from gui.settings.price_page import PriceState


@dataclass(frozen=True, slots=True)
class PriceDraft:
    """What stands on the page, and what it was typed over."""

    state: PriceState
    base: Book
    """The book over which they were begun to be typed."""
    number: int
    """Of the newest entry then."""
