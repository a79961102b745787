"""Taxes and decimals against the world outside: a published invoice, tax authorities' fractions, ISO 4217."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from babel.numbers import get_currency_precision

from core.model.money import flat
from core.model.price_terms import ChargeKind
from core.model.quote_records import Charge
from core.pricing import taxes
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode
from core.pricing.price_rules import Rounding, Tax, TaxRate
from core.wording import typed_amounts
from tests.support.shops import book


def _charge(minor: int, kind: ChargeKind) -> Charge:
    return Charge("x", "x", "x", "1", minor, flat(minor), kind)


def _book(
    percent: str, *on: ChargeKind, mode: TaxMode = TaxMode.ON_TOP, further: tuple[TaxRate, ...] = ()
) -> PriceBook:
    tax = Tax(mode, Decimal(percent), "VAT", "local law goes first", on or tuple(ChargeKind))
    return replace(book(), tax=tax, further_taxes=further)


def test_the_invoice_of_three_rates_that_comes_with_en_16931() -> None:
    """CEN/TC 434's example 2 (ubl-tc434-example2.xml of the validation artefacts for EN 16931, NOK).

    At 25 %: lines of 1,273.00 and 187.50, an allowance and a charge of 100.00; at 15 %: -3.96 and 4.96;
    exempt: -25.00. Published: tax 365.13 on 1,460.50 (365.125 goes up), 0.15 on 1.00, in all 365.28; with tax
    1,801.78.
    """
    standard, lower, free = ChargeKind.COPYING, ChargeKind.REPAIR, ChargeKind.GOODS
    lines = [(127300, standard), (18750, standard), (-10000, standard), (10000, standard)]
    lines += [(-396, lower), (496, lower), (-2500, free)]
    rates = _book("25", standard, further=(TaxRate("VAT", Decimal(15), (lower,)),))
    found = taxes.taxed([_charge(*line) for line in lines], rates)
    assert found.net == flat(143650)
    assert [(tax.base, tax.amount) for tax in found.taxes] == [
        (flat(146050), flat(36513)),
        (flat(100), flat(15)),
    ]
    assert (found.tax, found.gross) == (flat(36528), flat(180178))


@pytest.mark.parametrize(
    ("percent", "gross", "tax"),
    [("20", 12000, 2000), ("5", 10500, 500), ("20", 999, 167), ("17.5", 11750, 1750)],
)
def test_the_tax_inside_a_price_is_its_vat_fraction(percent: str, gross: int, tax: int) -> None:
    """HMRC, VAT Notice 700: rate ÷ (100 + rate): 1/6 at 20 %, 1/21 at 5 %, 7/47 at 17.5 % (from memory)."""
    found = taxes.taxed([_charge(gross, ChargeKind.COPYING)], _book(percent, mode=TaxMode.INSIDE))
    assert (found.tax, found.net, found.gross) == (flat(tax), flat(gross - tax), flat(gross))


def test_state_and_local_tax_are_charged_on_the_same_price_and_never_on_each_other() -> None:
    """A combined rate is the sum of its parts: 4 % of a state and 4.5 % of a city on $100.00 are $8.50.

    How U.S. states with local taxes compute them (arithmetic; the rule is common practice, no source).
    """
    local = (TaxRate("city tax", Decimal("4.5")),)
    found = taxes.taxed([_charge(10000, ChargeKind.COPYING)], _book("4", further=local))
    assert [tax.amount for tax in found.taxes] == [flat(400), flat(450)]
    assert found.gross == flat(10850)


@pytest.mark.parametrize(("third", "minor"), [("0.084", 8), ("0.085", 9), ("0.0849", 8)])
def test_half_a_cent_of_tax_goes_up(third: str, minor: int) -> None:
    """Streamlined Sales and Use Tax Agreement, section 324: a third decimal above 4 goes up (from memory)."""
    percent = str(Decimal(third) * 100)
    assert taxes.taxed([_charge(100, ChargeKind.GOODS)], _book(percent)).tax == flat(minor)


@pytest.mark.parametrize(
    ("minor", "due"), [(102, 100), (103, 105), (107, 105), (108, 110), (101, 100), (104, 105)]
)
def test_cash_without_its_smallest_coin_is_rounded_to_five(minor: int, due: int) -> None:
    """Canada's rounding since the cent went: 1 and 2, 6 and 7 down; 3 and 4, 8 and 9 up (from memory)."""
    assert minor + Rounding(5).to_add(minor) == due


@pytest.mark.parametrize(
    ("currency", "digits"),
    [
        ("JPY", 0),
        ("KRW", 0),
        ("CLP", 0),
        ("USD", 2),
        ("EUR", 2),
        ("CHF", 2),
        ("KWD", 3),
        ("BHD", 3),
        ("TND", 3),
    ],
)
def test_the_decimals_of_a_currency_are_those_of_iso_4217_and_of_babel(currency: str, digits: int) -> None:
    """ISO 4217, column "minor unit" (from memory), beside CLDR's table as Babel has it."""
    assert typed_amounts.decimals(currency) == get_currency_precision(currency) == digits
