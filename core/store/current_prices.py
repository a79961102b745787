"""The shop's price books in its records: which one is in force on a day, as it was known at a moment."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from functools import lru_cache, partial
from typing import Any

from sqlalchemy import select

from core.pricing import price_book
from core.pricing.price_book import PriceBook
from core.store import current_settings
from core.store.shop_tables import SettingsVersionRow
from core.store.unit import Unit
from core.wording.messages import say

PART = "prices"
"""What the entries are kept under."""


def in_force(unit: Unit, on: date, known_at: datetime | None = None) -> PriceBook:
    """The book in force on a day: the youngest of the shop's own that is valid by then, else the example.

    ``known_at``: only what had been entered by that moment, so that an old quote keeps its own book.
    """
    row = entry_in_force(unit, on, known_at)
    if row is None:
        return price_book.example(on, current_settings.read(unit).front.currency)
    return book_of(row.value)


def is_confirmed(unit: Unit, on: date) -> bool:
    """Whether the shop has prices of its own on a day, and not only examples."""
    row = entry_in_force(unit, on)
    return row is not None and not book_of(row.value).invented


def entry_in_force(unit: Unit, on: date, known_at: datetime | None = None) -> SettingsVersionRow | None:
    """The entry of the book in force; None as long as there are only examples."""
    day = on.isoformat()
    valid = [row for row in standing(unit, known_at) if row.valid_from is not None and row.valid_from <= day]
    return max(valid, key=lambda row: (row.valid_from, row.number), default=None)


def standing(unit: Unit, known_at: datetime | None = None) -> Sequence[SettingsVersionRow]:
    """Entries nobody had taken back by a moment, oldest first."""
    found = [row for row in entries(unit) if known_at is None or row.at <= known_at]
    gone = {row.undoes for row in found}
    return [row for row in found if row.undoes is None and row.number not in gone]


def entries(unit: Unit) -> Sequence[SettingsVersionRow]:
    """Every entry, oldest first."""
    return current_settings.remembered(unit, PART, partial(_entries, unit))


def _entries(unit: Unit) -> Sequence[SettingsVersionRow]:
    asked = select(SettingsVersionRow).where(SettingsVersionRow.part == PART)
    return unit.session.scalars(asked.order_by(SettingsVersionRow.number)).all()


def document_of(row: SettingsVersionRow) -> Mapping[str, Any]:
    """The book of an entry as the plain tables of its file."""
    return price_book.document(book_of(row.value))


@lru_cache(maxsize=32)
def book_of(value: str) -> PriceBook:
    """The book an entry holds."""
    content = json.loads(value)
    content["valid_from"] = date.fromisoformat(content["valid_from"])
    return price_book.of_document(content, say("settings", "the-prices"))
