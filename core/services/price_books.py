"""The shop's price books in its records: dated and never changed; which one is in force on a day."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from functools import lru_cache
from typing import Any

from sqlalchemy import select

from core.model import settings_differences
from core.model.errors import Conflict, Refused, WrongInput
from core.pricing import price_book
from core.pricing.price_book import PriceBook
from core.services import settings_versions
from core.store import history
from core.store.tables import SettingsVersionRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

PRICES = "prices"
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


def in_force(unit: Unit, on: date, known_at: datetime | None = None) -> PriceBook:
    """The book in force on a day: the youngest of the shop's own that is valid by then, else the example.

    ``known_at``: only what had been entered by that moment, so that an old quote keeps its own book.
    """
    return _book(_in_force(unit, on, known_at)) or example(on, settings_versions.current(unit).front.currency)


def document_in_force(unit: Unit, on: date) -> Mapping[str, Any]:
    """The book in force on a day as the plain tables of its file, to be edited."""
    row = _in_force(unit, on, None)
    if row is not None:
        return _document(row)
    return example_document(on, settings_versions.current(unit).front.currency)


def is_confirmed(unit: Unit, on: date) -> bool:
    """Whether the shop has prices of its own on a day, and not only examples."""
    found = _book(_in_force(unit, on, None))
    return found is not None and not found.invented


def example(on: date, currency: str) -> PriceBook:
    """The example book of a day in a currency; its figures are invented."""
    book = price_book.in_force(on)
    if book.currency == currency:
        return book
    return price_book.of_document(example_document(on, currency), book.name)


def example_document(on: date, currency: str) -> dict[str, Any]:
    """The example book as the plain tables of its file."""
    return price_book.in_currency(price_book.document(price_book.in_force(on)), currency)


def standing_documents(unit: Unit) -> tuple[Mapping[str, Any], ...]:
    """Every price book that was not taken back, by the day it is valid from, oldest entry first."""
    rows = sorted(_standing(unit, None), key=lambda row: (str(row.valid_from), row.number))
    newest = {row.valid_from: row for row in rows}
    return tuple(_document(row) for row in newest.values())


def enter(
    unit: Unit, content: Mapping[str, Any], *, based_on: int | None = None, where: str = ""
) -> PriceBook:
    """Keeps a price book, in force from its ``valid_from`` on; quotes made before keep theirs.

    Nothing is written when the same book stands already. WrongInput for what does not fit, or a currency
    that is not the shop's; Conflict when somebody entered another one since version ``based_on``.
    """
    where = where or say("settings", "the-prices")
    book = price_book.of_document(content, where)
    currency = settings_versions.current(unit).front.currency
    if book.currency != currency:
        raise WrongInput(
            f"{where}, currency", book.currency, say("settings", "currency-of-shop", currency=currency)
        )
    content = price_book.document(book)
    before = _in_force(unit, book.valid_from, None)
    _check_nobody_else(unit, based_on)
    if before is not None and _document(before) == content:
        return book
    was = _document(before) if before is not None else example_document(book.valid_from, currency)
    _append(unit, content, book.valid_from, _words(book, was, content), None)
    return book


def withdraw(unit: Unit) -> None:
    """Takes the newest price book back, so that what was in force before is again; Refused without one."""
    standing = _standing(unit, None)
    if not standing:
        raise Refused(say("settings", "no-prices-to-undo"))
    newest = max(standing, key=lambda row: row.number)
    words = say("settings", "prices-taken-back", number=newest.number)
    _append(unit, None, newest.valid_from, words, newest.number)


def versions(unit: Unit) -> tuple[PriceBookVersion, ...]:
    """Everything entered, newest first."""
    rows = unit.session.scalars(_rows().order_by(SettingsVersionRow.number.desc()))
    return tuple(
        PriceBookVersion(
            row.number,
            row.at,
            row.by,
            row.words,
            row.undoes,
            _book(row),
            _document(row) if row.value else None,
        )
        for row in rows
    )


def number(unit: Unit) -> int:
    """The number of the newest entry; 0 before the first."""
    return max((row.number for row in unit.session.scalars(_rows())), default=0)


def _append(
    unit: Unit,
    content: Mapping[str, Any] | None,
    valid_from: date | str | None,
    words: str,
    undoes: int | None,
) -> None:
    value = "" if content is None else json.dumps(content, ensure_ascii=False, sort_keys=True, default=str)
    row = SettingsVersionRow(
        part=PRICES,
        number=number(unit) + 1,
        valid_from=str(valid_from),
        value=value,
        words=words,
        undoes=undoes,
        at=unit.now,
        by=unit.who,
    )
    unit.session.add(row)
    unit.session.flush()
    history.append(
        unit, "prices", words, part=PRICES, number=row.number, value_sha256=history.fingerprint(value)
    )


def _check_nobody_else(unit: Unit, based_on: int | None) -> None:
    if based_on is not None and based_on != number(unit):
        newest = versions(unit)[0]
        raise Conflict(say("settings", "changed-meanwhile", who=newest.by, what=newest.words))


def _words(book: PriceBook, was: Mapping[str, Any], now: Mapping[str, Any]) -> str:
    found = settings_differences.differences(was, now)
    lines = [each.words for each in found if each.path[0] not in _HEADING]
    changes = "; ".join(lines) or say("files", "nothing")
    return say(
        "settings",
        "prices-from",
        name=book.name,
        day=locale_figures.full_day(book.valid_from),
        changes=changes,
    )


def _in_force(unit: Unit, on: date, known_at: datetime | None) -> SettingsVersionRow | None:
    valid = [row for row in _standing(unit, known_at) if row.valid_from and row.valid_from <= on.isoformat()]
    return max(valid, key=lambda row: (row.valid_from, row.number), default=None)


def _standing(unit: Unit, known_at: datetime | None) -> Sequence[SettingsVersionRow]:
    """Entries nobody had taken back by a moment."""
    rows = [row for row in unit.session.scalars(_rows()) if known_at is None or row.at <= known_at]
    gone = {row.undoes for row in rows}
    return [row for row in rows if row.undoes is None and row.number not in gone]


def _rows() -> Any:
    return select(SettingsVersionRow).where(SettingsVersionRow.part == PRICES)


def _book(row: SettingsVersionRow | None) -> PriceBook | None:
    return None if row is None or not row.value else _read(row.value)


def _document(row: SettingsVersionRow) -> Mapping[str, Any]:
    return price_book.document(_read(row.value))


@lru_cache(maxsize=32)
def _read(value: str) -> PriceBook:
    content = json.loads(value)
    content["valid_from"] = date.fromisoformat(content["valid_from"])
    return price_book.of_document(content, say("settings", "the-prices"))
