"""What cash can pay: amounts rounded to the smallest coin in use, as Unicode CLDR lists it by currency.

Source: CLDR supplemental data, ``currencyData/fractions``, attributes ``cashDigits`` and ``cashRounding``
(https://www.unicode.org/reports/tr35/tr35-numbers.html#Supplemental_Currency_Data), by way of Babel. Where
the law of a country rounds otherwise, the law goes first.
"""

from __future__ import annotations


def step(currency: str) -> int:
    """The smallest coin in use, in minor units of ISO 4217; 1 where every amount can be paid."""
    from babel.core import get_global  # costs a tenth of a second to import
    from babel.numbers import get_currency_precision

    known = get_global("currency_fractions")
    _, _, digits, rounding = known.get(currency) or known["DEFAULT"]
    return int(max(1, rounding) * 10 ** max(0, get_currency_precision(currency) - digits))


def payable(minor: int, currency: str) -> int:
    """The amount nearest to ``minor`` that coins can pay; half a coin goes up."""
    coin = step(currency)
    return (2 * minor + coin) // (2 * coin) * coin


def is_unpayable(left_minor: int, cash_minor: int, currency: str) -> bool:
    """Whether what is left after ``cash_minor`` is only what no coin can pay."""
    coin = step(currency)
    is_whole = cash_minor % coin == 0
    return is_whole and left_minor != 0 and payable(cash_minor + left_minor, currency) == cash_minor
