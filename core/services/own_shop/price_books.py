"""The shop's price books in its records: dated and never changed; which one is in force on a day."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from core.model.errors import Conflict, Refused, WrongInput
from core.model.own_shop import settings_differences
from core.model.own_shop.settings_records import Permission
from core.pricing import price_book
from core.pricing.price_book import PriceBook
from core.services.own_shop import setting_names
from core.store import current_prices, current_settings, permissions, settings_entries
from core.store.steps import step
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

_HEADING = ("valid_from", "name", "remark", "invented")
"""Keys of a price book that are no price."""


@dataclass(frozen=True, slots=True)
class PriceBookVersion:
    """One entry of the record of prices: a price book, or one taken back (``book`` is None)."""

    number: int
    at: datetime
    by: str
    words: str
    undoes: int | None
    book: PriceBook | None
    document: Mapping[str, Any] | None
    """The book as the plain tables of its file."""


def document_in_force(unit: Unit, on: date) -> Mapping[str, Any]:
    """The book in force on a day as the plain tables of its file, to be edited."""
    return price_book.document(current_prices.in_force(unit, on))


def standing_documents(unit: Unit) -> tuple[Mapping[str, Any], ...]:
    """Every price book that was not taken back, by the day it is valid from, oldest entry first."""
    rows = sorted(current_prices.standing(unit), key=lambda row: (str(row.valid_from), row.number))
    newest = {row.valid_from: row for row in rows}
    return tuple(current_prices.document_of(row) for row in newest.values())


def enter(
    unit: Unit, content: Mapping[str, Any], *, based_on: int | None = None, where: str = ""
) -> PriceBook:
    """Keeps a price book, in force from its ``valid_from`` on; quotes made before keep theirs.

    Nothing is written when the same book stands already. WrongInput for what does not fit, or a currency
    that is not the shop's; Conflict when somebody entered another one since version ``based_on``; Refused
    when the person acting may not change prices.
    """
    where = where or say("settings", "the-prices")
    book = price_book.of_document(content, where)
    currency = current_settings.read(unit).front.currency
    if book.currency != currency:
        raise WrongInput(
            f"{where}, currency", book.currency, say("settings", "currency-of-shop", currency=currency)
        )
    content = price_book.document(book)
    before = current_prices.entry_in_force(unit, book.valid_from)
    _check_nobody_else(unit, based_on)
    if before is not None and current_prices.document_of(before) == content:
        return book
    permissions.check(unit, Permission.PRICES)
    was = document_in_force(unit, book.valid_from)
    _append(unit, content, book.valid_from, _words(book, was, content), None)
    return book


@step
def put_in_force(unit: Unit, content: Mapping[str, Any], *, based_on: int | None = None) -> None:
    """`enter` for prices that were typed."""
    enter(unit, content, based_on=based_on)


@step
def withdraw(unit: Unit) -> None:
    """Takes the newest price book back, so that what was in force before is again; Refused without one."""
    permissions.check(unit, Permission.PRICES)
    standing = current_prices.standing(unit)
    if not standing:
        raise Refused(say("settings", "no-prices-to-undo"))
    newest = max(standing, key=lambda row: row.number)
    words = say("settings", "prices-taken-back", number=newest.number)
    _append(unit, None, newest.valid_from, words, newest.number)


def versions(unit: Unit) -> tuple[PriceBookVersion, ...]:
    """Everything entered, newest first."""
    return tuple(
        PriceBookVersion(
            row.number,
            row.at,
            row.by,
            row.words,
            row.undoes,
            current_prices.book_of(row.value) if row.value else None,
            current_prices.document_of(row) if row.value else None,
        )
        for row in reversed(current_prices.entries(unit))
    )


def number(unit: Unit) -> int:
    """The number of the newest entry; 0 before the first."""
    return settings_entries.number(unit, current_prices.PART)


def _append(
    unit: Unit,
    content: Mapping[str, Any] | None,
    valid_from: date | str | None,
    words: str,
    undoes: int | None,
) -> None:
    value = "" if content is None else json.dumps(content, ensure_ascii=False, sort_keys=True, default=str)
    settings_entries.append(
        unit, current_prices.PART, "prices", value, words, valid_from=str(valid_from), undoes=undoes
    )


def _check_nobody_else(unit: Unit, based_on: int | None) -> None:
    if based_on is not None and based_on != number(unit):
        newest = current_prices.entries(unit)[-1]
        raise Conflict(say("settings", "changed-meanwhile", who=newest.by, what=newest.words))


def _words(book: PriceBook, was: Mapping[str, Any], now: Mapping[str, Any]) -> str:
    found = settings_differences.differences(was, now)
    lines = [setting_names.price_line(each) for each in found if each.path[0] not in _HEADING]
    changes = "; ".join(lines) or say("files", "nothing")
    return say(
        "settings",
        "prices-from",
        name=book.name,
        day=locale_figures.full_day(book.valid_from),
        changes=changes,
    )
