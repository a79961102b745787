"""Amounts as people type them in their locale, and the currencies of ISO 4217 by CLDR's tables.

An amount is never guessed: what reads in two ways, or has more decimals than the currency, is refused.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from functools import cache

from babel import Locale
from babel.numbers import (
    NumberFormatError,
    get_currency_precision,
    get_currency_symbol,
    list_currencies,
    parse_decimal,
)

from core.wording.locale_numbers import decimal
from core.wording.messages import current

MOST_UNITS = 10**9
_FIGURES = re.compile(r"[0-9.,'’ \u00a0\u202f]+")
_SPACES = " \u00a0\u202f"
_APOSTROPHES = "'’"


def is_currency(code: str) -> bool:
    """Whether ISO 4217, as CLDR lists it, has or had the code."""
    return code in _currencies()


def decimals(currency: str) -> int:
    """Decimal places of a currency: 2 for USD, 0 for JPY, 3 for KWD (CLDR's supplemental data)."""
    return int(get_currency_precision(currency))


def symbol(currency: str, locale: str | None = None) -> str:
    """The sign of a currency as the locale writes it: ``$``, ``€``, ``CHF``."""
    return str(get_currency_symbol(currency, locale=_locale(locale)))


def minor_of(typed: str, currency: str, locale: str | None = None) -> int | None:
    """The amount typed, in minor units of the currency; None for what is no amount of it in the locale.

    ``93.15`` is 9315 cents to an American and nothing to a German, who types ``93,15``. Group marks may stand
    only where the locale puts them, three digits apart or as the locale has it.
    """
    value = number_of(_without_symbol(typed, currency, _locale(locale)), locale)
    if value is None or not 0 <= value < MOST_UNITS:
        return None
    minor = value.scaleb(decimals(currency))
    return int(minor) if minor == minor.to_integral_value() else None


def number_of(typed: str, locale: str | None = None) -> Decimal | None:
    """A number as the locale writes it; None for anything else, such as a group mark out of place."""
    name = _locale(locale)
    text = typed.strip()
    if not _FIGURES.fullmatch(text):
        return None
    try:
        return Decimal(parse_decimal(_grouped(text, name), locale=name, strict=True))
    except (NumberFormatError, ArithmeticError):  # more digits than Decimal counts with
        return None


def typed_amount(minor: int | Decimal, currency: str, locale: str | None = None) -> str:
    """An amount as a person would type it into a field: ``1234.50`` without group marks or symbol.

    A price in fractions of a minor unit keeps its decimals.
    """
    value = Decimal(minor).scaleb(-decimals(currency))
    places = max(decimals(currency), -int(value.normalize().as_tuple().exponent))
    plain = f"{value:.{places}f}"
    return plain.replace(".", _decimal_mark(_locale(locale)))


def typed_number(value: float, form: str = ".10g", locale: str | None = None) -> str:
    """A number as a person would type it: ``1.5`` or ``1,5``; ``form`` as of `format`."""
    return f"{value:{form}}".replace(".", _decimal_mark(_locale(locale)))


def example(currency: str, locale: str | None = None) -> str:
    """How an amount is typed here, for a sentence on what is accepted: ``9.50``, ``9,50`` or ``950``."""
    places = decimals(currency)
    return decimal(9.5 if places else 950, _locale(locale), places)


def _without_symbol(typed: str, currency: str, locale: str) -> str:
    text = typed.strip()
    for mark in (currency, get_currency_symbol(currency, locale=locale)):
        text = text.removeprefix(mark).removesuffix(mark)
    return text.strip()


def _grouped(text: str, locale: str) -> str:
    """The text with the locale's own group mark, where a keyboard has only its plain sister."""
    group = str(_symbols(locale)["group"])
    for alike in (_SPACES, _APOSTROPHES):
        if group in alike:
            text = re.sub(f"[{alike}]", group, text)
    return text


def _decimal_mark(locale: str) -> str:
    return str(_symbols(locale)["decimal"])


def _symbols(locale: str) -> Mapping[str, object]:
    symbols: Mapping[str, object] = Locale.parse(locale).number_symbols["latn"]
    return symbols


def _locale(locale: str | None) -> str:
    return current().locale if locale is None else locale.replace("-", "_")


@cache
def _currencies() -> frozenset[str]:
    return frozenset(list_currencies())
