"""A price book as a CSV file (RFC 4180), for a spreadsheet; every row and column is checked as the book is.

Amounts have a decimal point whatever the language. A cell that a spreadsheet would take for a formula is
written behind an apostrophe, and read back without it.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from typing import Any

from core.model.errors import WrongInput, one_of
from core.pricing import price_book, price_rows
from core.pricing.price_rows import COLUMNS, NEWER_COLUMNS, PriceRow
from core.wording.messages import say

_FORMULA = "=+-@\t\r"
"""First characters on which a spreadsheet takes a cell for a formula (OWASP, CSV Injection)."""
_APOSTROPHE = "'"
_OLDEST = tuple(column for column in COLUMNS if column not in NEWER_COLUMNS)
_SENTENCES = ("words", "value")
"""Columns whose cells are taken to the letter."""


def written(content: Mapping[str, Any]) -> str:
    """The book of `price_book.document` as the text of a CSV file, lines ended as RFC 4180 says."""
    out = io.StringIO()
    table = csv.writer(out)
    table.writerow(COLUMNS)
    for row in price_rows.of_document(content):
        table.writerow([_safe(cell) for cell in asdict(row).values()])
    return out.getvalue()


def parsed(text: str, where: str) -> dict[str, Any]:
    """The book of a CSV file as plain tables; WrongInput names the row and column of what does not fit."""
    numbered = tuple(_numbered_rows(text, where))
    rows = [row for _, row in numbered]
    content = price_rows.document(rows)
    try:
        return price_book.document(price_book.of_document(content, where))
    except WrongInput as wrong:
        found = price_rows.fault(wrong, where, rows)
        if found.row is None:
            raise
        raise _wrong(where, numbered[found.row][0], found.column, wrong.found, wrong.accepted) from None


def _numbered_rows(text: str, where: str) -> Iterator[tuple[int, PriceRow]]:
    """The rows with their numbers as a spreadsheet counts them, the row of headings being the first."""
    lines = _lines(text, where)
    heads = [cell.strip().casefold() for cell in lines[0]] if lines else []
    if len(set(heads)) != len(heads) or not set(_OLDEST) <= set(heads) <= set(COLUMNS):
        raise WrongInput(
            _place(where, 1), ",".join(heads), say("settings", "prices-heads", heads=",".join(COLUMNS))
        )
    seen: set[tuple[str, str]] = set()
    for number, line in enumerate(lines[1:], 2):
        if not any(cell.strip() for cell in line):
            continue
        if len(line) > len(heads):
            raise WrongInput(
                _place(where, number), len(line), say("settings", "prices-cells", count=len(heads))
            )
        cells = {head: _plain(head, cell) for head, cell in zip(heads, line, strict=False)}
        row = PriceRow(**{"part": "", "code": "", **cells})
        _check(row, where, number, seen)
        yield number, row


def _lines(text: str, where: str) -> Sequence[list[str]]:
    try:
        return list(csv.reader(io.StringIO(text.removeprefix("\ufeff"), newline=""), strict=True))
    except csv.Error as failure:
        raise WrongInput(where, str(failure), say("settings", "prices-csv")) from None


def _check(row: PriceRow, where: str, number: int, seen: set[tuple[str, str]]) -> None:
    """What a row must be before the book is looked at; WrongInput by row and column."""
    if row.part not in price_rows.PARTS:
        raise _wrong(where, number, "part", row.part, one_of(price_rows.PARTS))
    known = price_rows.codes_of(row.part)
    if known is not None and row.code not in known:
        raise _wrong(where, number, "code", row.code, one_of(known))
    if not row.code or (row.part, row.code) in seen:
        raise _wrong(where, number, "code", row.code, say("settings", "prices-once"))
    seen.add((row.part, row.code))
    for column in COLUMNS[3:]:
        cell = getattr(row, column)
        if cell and column not in price_rows.columns_of(row):
            raise _wrong(where, number, column, cell, say("settings", "prices-stays-empty"))


def _wrong(where: str, number: int, column: str, found: object, accepted: str) -> WrongInput:
    return WrongInput(
        say("settings", "prices-cell-place", file=where, row=str(number), column=column), found, accepted
    )


def _place(where: str, number: int) -> str:
    return say("settings", "prices-row-place", file=where, row=str(number))


def _safe(cell: str) -> str:
    return _APOSTROPHE + cell if cell[:1] and cell[0] in _FORMULA + _APOSTROPHE else cell


def _plain(head: str, cell: str) -> str:
    """The cell without its apostrophe; around a figure or a name spaces do not count."""
    if cell[:1] == _APOSTROPHE and cell[1:2] and cell[1] in _FORMULA + _APOSTROPHE:
        cell = cell[1:]
    return cell if head in _SENTENCES else cell.strip()
