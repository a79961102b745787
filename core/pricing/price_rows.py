"""A price book as rows, one price to a row: the shape of its CSV file and of its editor.

Rows hold what stands in the book's file, letter for letter. Whether they make a book is for
`price_book.of_document` alone to say; `fault` finds the row and the column of what it refuses.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from core.catalogue.formats import catalogue
from core.model.dispositions import Disposition
from core.model.errors import WrongInput
from core.model.names import FormatName
from core.model.own_shop import shop_additions
from core.model.own_shop.shop_additions import OwnMedium, OwnRepair
from core.model.spoken_names import spoken
from core.pricing import disposition_rules
from core.pricing.price_book_file import PlayCharge
from core.wording import typed_amounts
from core.wording.messages import say

COLUMNS = ("part", "code", "words", "way", "price", "minutes", "percent", "value", "minimum", "on")
"""Names of the columns; the first two say which row it is."""
NEWER_COLUMNS = ("minimum", "on")
"""Columns that files written before them do not have."""
BOOK, CAPTURE, REPAIR, MEDIA, TERMS, BREAKS = "book", "capture", "repair", "media", "terms", "quantity_break"
TAXES, DISPOSITIONS = "further_tax", "dispositions"
PARTS = (BOOK, CAPTURE, REPAIR, MEDIA, DISPOSITIONS, TERMS, TAXES, BREAKS)
LISTS = (TAXES, BREAKS)
"""Parts whose rows are numbered, and which may have none."""

_HEADING = ("name", "remark", "invented", "currency", "valid_from")
_COLUMNS_OF: dict[str, dict[str, str]] = {
    CAPTURE: {"way": "way", "price": "price", "minutes": "minutes", "minimum": "minimum"},
    REPAIR: {"words": "words", "price": "price"},
    MEDIA: {"words": "words", "price": "price"},
    DISPOSITIONS: {"way": "play"},
    TAXES: {"words": "words", "percent": "percent", "on": "on"},
    BREAKS: {"value": "after", "percent": "percent"},
}
"""For each part the columns that are filled in, with their keys in the book's file."""
_TERMS: dict[str, dict[str, str]] = {
    "minimum": {"price": "price"},
    "rush": {"percent": "percent"},
    "deposit": {"percent": "percent"},
    "ceiling": {"percent": "percent"},
    "cancel": {"price": "price", "percent": "percent"},
    "inspection_fee": {"way": "way", "price": "price"},
    "storage_fee": {"way": "per", "price": "price", "value": "after_days"},
    "rounding": {"way": "mode", "price": "step"},
    "flat": {"way": "offered", "percent": "margin_percent"},
    "tax": {"words": "words", "way": "mode", "percent": "percent", "value": "remark", "on": "on"},
}
_VALID_DAYS = "quote_valid_days"
_COUNTED = {"minutes", "after", "after_days", _VALID_DAYS}
"""Keys that hold whole numbers."""
_MAY_STAY_EMPTY = {"minutes", "minimum", "on"}
_PARTS_OF_A_NAME = re.compile(r"[0-9]{1,9}|[^0-9]+")
_WHOLE = re.compile(r"[0-9]{1,9}")


@dataclass(frozen=True, slots=True)
class PriceRow:
    """One row; a column that does not belong to its part is empty."""

    part: str
    code: str
    words: str = ""
    way: str = ""
    price: str = ""
    minutes: str = ""
    percent: str = ""
    value: str = ""
    minimum: str = ""
    on: str = ""


@dataclass(frozen=True, slots=True)
class Fault:
    """What is refused in rows: the place of the row, None where none is to blame, and the column."""

    row: int | None
    column: str
    error: WrongInput


def of_document(content: Mapping[str, Any]) -> tuple[PriceRow, ...]:
    """The rows of a book that `price_book.document` gave as plain tables."""
    return tuple(_rows(content))


def document(rows: Sequence[PriceRow]) -> dict[str, Any]:
    """The plain tables of the rows, for `price_book.of_document` to check; it may refuse them."""
    found: dict[str, Any] = {part: {} for part in (CAPTURE, REPAIR, MEDIA)}
    for row in rows:
        if row.part in LISTS:
            found.setdefault(row.part, []).append(_table(row, _COLUMNS_OF[row.part]))
        elif row.part == DISPOSITIONS:
            found.setdefault(DISPOSITIONS, {})[row.code] = disposition_rules.entry_of(row.way)
        elif row.part in found and row.part in _COLUMNS_OF:
            found[row.part][row.code] = _table(row, _COLUMNS_OF[row.part])
        elif row.code in _TERMS:
            found[row.code] = _table(row, _TERMS[row.code])
        else:
            found[row.code] = _value(row.code, row.value)
    currency = found.get("currency")
    if isinstance(currency, str):
        found["minor_digits"] = typed_amounts.decimals(currency) if typed_amounts.is_currency(currency) else 2
    return found


def own_rows(part: str) -> tuple[PriceRow, ...]:
    """A row without a price for each repair, or medium, of the shop's own that is offered."""
    own = shop_additions.in_force()
    added: Sequence[OwnRepair | OwnMedium] = own.repairs if part == REPAIR else own.media
    return tuple(PriceRow(part, each.name, each.words) for each in shop_additions.offered(added))


def is_own(row: PriceRow) -> bool:
    """Whether the row is for a repair or a medium of the shop's own, which the book may have no price for."""
    named = {REPAIR: shop_additions.repair, MEDIA: shop_additions.medium}.get(row.part)
    return named is not None and named(row.code) is not None


def columns_of(row: PriceRow) -> frozenset[str]:
    """The columns a row fills in."""
    if row.part == TERMS and row.code in _TERMS:
        return frozenset(_TERMS[row.code])
    return frozenset(_COLUMNS_OF.get(row.part, {"value": ""}))


def codes_of(part: str) -> tuple[str, ...] | None:
    """The codes a part may hold; None where the shop may have others."""
    if part == BOOK:
        return _HEADING
    if part == DISPOSITIONS:
        return tuple(each.value for each in Disposition)
    return (*_TERMS, _VALID_DAYS) if part == TERMS else None


def fault(error: WrongInput, where: str, rows: Sequence[PriceRow]) -> Fault:
    """The row and the column that `price_book.of_document`, given ``where``, speaks of."""
    head, *further = error.place.removeprefix(where).strip(", ").split(", ")
    part, _, number = head.partition(" ")
    if part in LISTS and number.isdigit():
        places = [place for place, row in enumerate(rows) if row.part == part]
        return Fault(places[int(number) - 1], _column(_COLUMNS_OF[part], further), error)
    code, keys = head, further
    if head in _COLUMNS_OF:
        part, code, keys = head, "".join(further[:1]), further[1:]
    for place, row in enumerate(rows):
        if row.code == code and (row.part == part or head not in _COLUMNS_OF):
            columns = _TERMS.get(code, {}) if row.part == TERMS else _COLUMNS_OF.get(row.part, {})
            return Fault(place, _column(columns, keys), error)
    return Fault(None, "", error)


def _column(columns: Mapping[str, str], keys: Sequence[str]) -> str:
    """The column of a key; a row that is refused as a whole is refused for its minutes, or its value."""
    called = {key.partition(" ")[0] for key in keys}
    named = [column for column, key in columns.items() if key in called]
    return named[0] if named else ("minutes" if "minutes" in columns else "value")


def _rows(content: Mapping[str, Any]) -> Iterator[PriceRow]:
    for code in _HEADING:
        yield PriceRow(BOOK, code, words=_heading_words(code), value=_text(content[code]))
    for code, entry in sorted(content[CAPTURE].items(), key=_counter_place):
        yield _row(CAPTURE, code, entry, _COLUMNS_OF[CAPTURE], format_words(code))
    for part in (REPAIR, MEDIA):
        for code, entry in sorted(content[part].items(), key=_natural):
            yield _row(part, code, entry, _COLUMNS_OF[part])
    yield from _rules(content.get(DISPOSITIONS, {}))
    days = _text(content[_VALID_DAYS])
    yield PriceRow(TERMS, _VALID_DAYS, words=_heading_words(_VALID_DAYS), value=days)
    for code, columns in _TERMS.items():
        if code in content:
            yield _row(TERMS, code, content[code], columns, _heading_words(code))
    for n, entry in enumerate(content[TAXES], 1):
        yield _row(TAXES, str(n), entry, _COLUMNS_OF[TAXES])
    for n, entry in enumerate(content[BREAKS], 1):
        yield _row(BREAKS, str(n), entry, _COLUMNS_OF[BREAKS], _heading_words(BREAKS))


def _rules(own: Mapping[str, Any]) -> Iterator[PriceRow]:
    """What is charged by what became of a tape: the book's own rule, else the usual one."""
    for each, usual in disposition_rules.DEFAULTS.items():
        rule = usual
        if each.value in own:
            entry = own[each.value]
            besides = (bool(entry.get(name)) for name in disposition_rules.BESIDES)
            rule = disposition_rules.DispositionRule(PlayCharge(entry["play"]), *besides)
        yield PriceRow(DISPOSITIONS, each.value, words=spoken(each), way=disposition_rules.spelled(rule))


def _counter_place(entry: tuple[str, object]) -> tuple[int, str]:
    """In the order of the counter; what the catalogue does not know comes last."""
    names = catalogue().names
    return (names.index(FormatName(entry[0])) if entry[0] in names else len(names)), entry[0]


def _natural(entry: tuple[str, object]) -> list[tuple[bool, int, str]]:
    """By name, ``usb-16`` before ``usb-128``."""
    return [
        (each.isdigit(), int(each) if each.isdigit() else 0, each)
        for each in _PARTS_OF_A_NAME.findall(entry[0])
    ]


def format_words(code: str) -> str:
    """What the catalogue calls a format; its code where the catalogue does not know it."""
    try:
        return catalogue().format(code).words
    except WrongInput:
        return code


def _heading_words(code: str) -> str:
    return say("settings", f"prices-row-{code}")


def _row(
    part: str, code: str, entry: Mapping[str, Any], columns: Mapping[str, str], words: str = ""
) -> PriceRow:
    cells = {column: _text(entry[key]) for column, key in columns.items() if key in entry}
    return PriceRow(part, code, **{"words": words, **cells})


def _text(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(value)
    return str(value).lower() if isinstance(value, bool) else str(value)


def _table(row: PriceRow, columns: Mapping[str, str]) -> dict[str, Any]:
    cells = {key: getattr(row, column) for column, key in columns.items()}
    return {key: _value(key, cell) for key, cell in cells.items() if cell or key not in _MAY_STAY_EMPTY}


def _value(key: str, cell: str) -> Any:
    """A cell as it stands in a TOML file, where it can be read; else as it is, to be refused."""
    if key in _COUNTED and _WHOLE.fullmatch(cell):
        return int(cell)
    if key in ("invented", "offered") and cell in ("true", "false"):
        return cell == "true"
    if key == "on":
        return [part.strip() for part in cell.split(",")]
    return cell
