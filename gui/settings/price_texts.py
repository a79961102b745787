"""What stands in a cell of the price table, and what may be typed there: amounts, counts, choices.

No Qt. A row holds what the book's file holds; here that is shown as the shop writes it, and read back.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from enum import Enum
from itertools import combinations

from core.model.dispositions import Disposition
from core.model.price_terms import ChargeKind, InspectionWay, StorageFee, StoragePeriod
from core.pricing import disposition_rules
from core.pricing.price_book_file import Offered, RoundingMode, TaxMode, Way
from core.pricing.price_rows import BREAKS, CAPTURE, DISPOSITIONS, TAXES, PriceRow, is_own
from core.pricing.storage_charge import storage_charge
from core.wording import locale_figures, locale_numbers, typed_amounts
from core.wording.messages import current
from gui.tables import choices
from gui.tables.choices import CellChoice
from gui.toolkit.text import say

EVERYTHING = ", ".join(kind.value for kind in ChargeKind)
"""The cell of a tax on all charges."""
FEES = ("rounding", "inspection_fee", "storage_fee", "flat")
"""Rows whose empty price means that nothing is charged, or rounded."""
MONEY = ("price", "minimum")
_KINDS: Mapping[str, type[Enum]] = {
    "tax": TaxMode,
    "rounding": RoundingMode,
    "inspection_fee": InspectionWay,
    "storage_fee": StoragePeriod,
    "flat": Offered,
}
_UNITS = {"quote_valid_days": "days", "storage_fee": "after-days"}
_EXAMPLE_DAYS = 30
_COUNT = re.compile(r"[0-9]{1,6}")


def key_of(row: PriceRow, column: str) -> str:
    """The column of the book's row that a column of the table shows; nothing where it shows none."""
    if column != "number":
        return column if column not in ("value", "on") else ""
    if row.part == CAPTURE:
        return "minutes"
    if is_tax(row):
        return "on"
    return "value" if unit_of(row) else ""


def is_tax(row: PriceRow) -> bool:
    return row.part == TAXES or row.code == "tax"


def unit_of(row: PriceRow) -> str:
    """What is counted in the row: ``minutes``, ``tapes``, ``days``, ``after-days``; or nothing."""
    if row.part == CAPTURE:
        return "minutes"
    return "tapes" if row.part == BREAKS else _UNITS.get(row.code, "")


def ways(row: PriceRow) -> tuple[CellChoice, ...]:
    """The ways of charging, of taxing or of rounding, as they are offered."""
    if row.part == DISPOSITIONS:
        words = map(disposition_rules.spelled, disposition_rules.possible(Disposition(row.code)))
        return tuple(CellChoice(_rule_words(word), (word,)) for word in words)
    kinds = tuple(_KINDS.get(row.code, Way) if row.part != CAPTURE else Way)
    return tuple(
        CellChoice(say("settings", f"prices-way-{_group(row)}{kind.value}"), (kind.value,)) for kind in kinds
    )


def _rule_words(word: str) -> str:
    return say("settings", f"prices-rule-{word.replace('+', '-')}")


def taxed(row: PriceRow) -> tuple[CellChoice, ...]:
    """What a tax may be charged on, as it is offered; nothing in a row of another kind."""
    if not is_tax(row):
        return ()
    sets = [kinds for count in (3, 1, 2) for kinds in combinations(ChargeKind, count)]
    return tuple(CellChoice(_on(kinds), (", ".join(kind.value for kind in kinds),)) for kinds in sets)


def shown(row: PriceRow, column: str, currency: str) -> str:
    """The cell as it stands in the table."""
    cell = str(getattr(row, key_of(row, column), ""))
    if column == "way":
        return _words_of(ways(row), cell)
    if column == "number":
        return _words_of(taxed(row), cell or EVERYTHING) if is_tax(row) else _counted(row, cell)
    return _in_locale(column, cell, currency) if column in (*MONEY, "percent") else cell


def read(row: PriceRow, column: str, text: str, currency: str) -> str | None:
    """What was typed as it stands in the book's file; None for what cannot be read."""
    if not text:
        return _emptied(row, column)
    if column == "words":
        return text
    if column == "way" or (column == "number" and is_tax(row)):
        found = choices.meant(ways(row) if column == "way" else taxed(row), text)
        return found.aliases[0] if found else None
    if column == "number":
        return _count(row, text)
    return price_of(text, currency) if column in MONEY else percent_of(text)


def accepted(row: PriceRow, column: str, currency: str) -> str:
    """What may stand in a cell."""
    if column in MONEY:
        return say("settings", "prices-accepted-price", example=typed_amounts.example(currency))
    if column == "number" and is_tax(row):
        return say("settings", "prices-accepted-on")
    return say("settings", f"prices-accepted-{column}")


def storage_example(row: PriceRow, currency: str) -> str:
    """What the storage fee of a row comes to a month after it begins; nothing while it cannot be read."""
    try:
        minor = int(Decimal(row.price).scaleb(typed_amounts.decimals(currency)))
        fee = StorageFee(minor, StoragePeriod(row.way), int(row.value))
    except (ArithmeticError, ValueError):
        return ""
    if not fee.minor:
        return ""
    days = fee.after_days + _EXAMPLE_DAYS
    money = locale_figures.money(storage_charge(fee, days), currency)
    return say("settings", "prices-storage-example", days=days, money=money)


def price_of(text: str, currency: str) -> str | None:
    """An amount typed in the shop's locale as the book's file has it: ``9,50`` is ``9.50``."""
    minor = typed_amounts.minor_of(text, currency)
    if minor is None:
        return None
    digits = typed_amounts.decimals(currency)
    return f"{Decimal(minor).scaleb(-digits):.{digits}f}"


def percent_of(text: str) -> str | None:
    """A percentage typed in the shop's locale, with or without its sign, as the book's file has it."""
    value = typed_amounts.number_of(text.removesuffix("%"))
    return None if value is None else f"{value.normalize():f}"


def _group(row: PriceRow) -> str:
    return f"{row.code}-" if row.part != CAPTURE and row.code in FEES else ""


def _words_of(offered: tuple[CellChoice, ...], cell: str) -> str:
    return next((each.words for each in offered if each.aliases == (cell,)), cell)


def _on(kinds: tuple[ChargeKind, ...]) -> str:
    if len(kinds) == len(ChargeKind):
        return say("settings", "prices-on-everything")
    return locale_figures.listed([say("settings", f"prices-on-{kind.value}") for kind in kinds])


def _emptied(row: PriceRow, column: str) -> str | None:
    if row.part in (BREAKS, TAXES) or ((row.part == CAPTURE or is_own(row)) and column in MONEY):
        return ""
    return "0" if row.code in FEES and column == "price" else None


def _counted(row: PriceRow, cell: str) -> str:
    """A count with its unit: ``30 min``, ``after 10 tapes``."""
    return say("settings", f"prices-unit-{unit_of(row)}", n=int(cell)) if _COUNT.fullmatch(cell) else cell


def _count(row: PriceRow, text: str) -> str | None:
    """The digits of a count, alone or written out with the unit as it is shown."""
    found = _COUNT.findall(text)
    if len(found) != 1 or text not in (found[0], _counted(row, found[0])):
        return None
    return str(int(found[0]))


def _in_locale(column: str, cell: str, currency: str) -> str:
    try:
        value = Decimal(cell)
    except ArithmeticError:
        return cell
    if column in MONEY:
        return typed_amounts.typed_amount(value.scaleb(typed_amounts.decimals(currency)), currency)
    places = max(0, -int(value.normalize().as_tuple().exponent))
    return say("settings", "prices-percent", n=locale_numbers.decimal(float(value), current().locale, places))
