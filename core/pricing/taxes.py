"""Taxes of a whole document: worked out once for each tax, told apart by rate, inside the prices or on top.

On top, a tax is its rate times the sum of the charges that bear it, rounded once (EN 16931: the VAT amount of
a category BT-117 is its taxable amount BT-116 times its rate BT-119, rounded to the currency's decimals). No
tax is charged on another tax.

Inside, all charges that bear the same taxes are taken apart together: of their sum G with rates that add up
to R, G × R ÷ (100 + R) is tax (the "VAT fraction"), rounded once and shared out to the taxes by their rates.
The charges are then shown without it, shared out so that they add up. An exempt customer pays what is left.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TypeAlias

from core.model.money import NOTHING, MoneyRange, rounded, shared_out, total
from core.model.price_terms import ChargeKind, TaxAmount
from core.model.quote_records import Charge
from core.pricing.price_book import PriceBook
from core.pricing.price_book_file import TaxMode
from core.pricing.price_rules import TaxRate
from core.wording import locale_figures
from core.wording.messages import say

PERCENT = Decimal(100)
"""By definition."""
Bundle: TypeAlias = tuple[int, ...]
"""Places of the taxes that a charge bears, of `PriceBook.taxes`."""
_COLUMNS = ("low", "likely", "high")


@dataclass(frozen=True, slots=True)
class Taxed:
    """Charges without tax, what they add up to, each tax, and all of it together."""

    charges: tuple[Charge, ...]
    net: MoneyRange
    taxes: tuple[TaxAmount, ...]
    tax: MoneyRange
    gross: MoneyRange
    words: str


def taxed(charges: Sequence[Charge], book: PriceBook, exempt: str = "") -> Taxed:
    """The charges of a book with the taxes on them; ``exempt`` says why there are none."""
    rates, sums = book.taxes, bundled(charges, book)
    columns = [_column_taxes(_sums(sums, column), rates, book.tax.mode) for column in _COLUMNS]
    amounts = tuple(MoneyRange(*each) for each in zip(*columns, strict=True))
    if book.tax.mode is TaxMode.INSIDE:
        charges = _without_tax(charges, book)
    net = total(charge.amount for charge in charges)
    if exempt and rates:
        told = say("charges", "tax-exempt", reason=exempt)
        return Taxed(tuple(charges), net, (), NOTHING, net, told)
    taxes = tuple(
        TaxAmount(_words(rate, book), str(rate.percent), _base(charges, rate), amount)
        for rate, amount in zip(rates, amounts, strict=True)
    )
    tax = total(amounts)
    return Taxed(tuple(charges), net, taxes, tax, net + tax, _all_words(book))


def bundled(charges: Sequence[Charge], book: PriceBook) -> Mapping[Bundle, MoneyRange]:
    """What the charges add up to, apart for those that bear different taxes, in the order of the charges."""
    of = bundles(book)
    found: dict[Bundle, MoneyRange] = {}
    for charge in charges:
        bundle = of[charge.kind]
        found[bundle] = found.get(bundle, NOTHING) + charge.amount
    return found


def bundles(book: PriceBook) -> Mapping[ChargeKind | None, Bundle]:
    """The taxes on each kind of charge; none on a charge of no kind."""
    rates = tuple(enumerate(book.taxes))
    return {kind: tuple(place for place, rate in rates if kind in rate.on) for kind in (*ChargeKind, None)}


def column_total(sums: Mapping[Bundle, int], book: PriceBook, exempt: str = "") -> int:
    """The total of one column with the tax that is charged; ``sums`` are the charges as the book has them."""
    whole, inside = sum(sums.values()), book.tax.mode is TaxMode.INSIDE
    if inside != bool(exempt):
        return whole
    tax = sum(_column_taxes(sums, book.taxes, book.tax.mode))
    return whole - tax if inside else whole + tax


def _sums(bundles: Mapping[Bundle, MoneyRange], column: str) -> dict[Bundle, int]:
    return {bundle: getattr(amount, column) for bundle, amount in bundles.items()}


def _column_taxes(sums: Mapping[Bundle, int], rates: Sequence[TaxRate], mode: TaxMode) -> tuple[int, ...]:
    """Each tax on the sums of one column."""
    if mode is TaxMode.INSIDE:
        parts = [
            dict(zip(bundle, _inside(minor, bundle, rates), strict=True)) for bundle, minor in sums.items()
        ]
        return tuple(sum(part.get(place, 0) for part in parts) for place in range(len(rates)))
    bases = [sum(minor for bundle, minor in sums.items() if place in bundle) for place in range(len(rates))]
    return tuple(rounded(base * rate.percent / PERCENT) for base, rate in zip(bases, rates, strict=True))


def _inside(minor: int, bundle: Bundle, rates: Sequence[TaxRate]) -> tuple[int, ...]:
    """Each tax of a bundle contained in a sum."""
    percents = [rates[place].percent for place in bundle]
    together = sum(percents, Decimal(0))
    return shared_out(rounded(minor * together / (PERCENT + together)), _as_whole(percents))


def _as_whole(percents: Sequence[Decimal]) -> list[int]:
    """Whole numbers in the same proportion."""
    places = max((-int(percent.as_tuple().exponent) for percent in percents), default=0)
    return [int(percent.scaleb(max(0, places))) for percent in percents]


def _without_tax(charges: Sequence[Charge], book: PriceBook) -> tuple[Charge, ...]:
    """The charges net of the tax inside them: each bundle in each column by largest remainder."""
    net, of = list(charges), bundles(book)
    for bundle in dict.fromkeys(of[one.kind] for one in charges):
        places = [place for place, one in enumerate(charges) if of[one.kind] == bundle]
        amounts = [charges[place].amount for place in places]
        columns = [_net_shares(amounts, bundle, column, book) for column in _COLUMNS]
        for place, shares in zip(places, zip(*columns, strict=True), strict=True):
            net[place] = replace(charges[place], amount=MoneyRange(*shares))
    return tuple(net)


def _net_shares(
    amounts: Sequence[MoneyRange], bundle: Bundle, column: str, book: PriceBook
) -> tuple[int, ...]:
    gross: list[int] = [getattr(amount, column) for amount in amounts]
    return shared_out(sum(gross) - sum(_inside(sum(gross), bundle, book.taxes)), gross)


def _base(charges: Sequence[Charge], rate: TaxRate) -> MoneyRange:
    return total(charge.amount for charge in charges if charge.kind in rate.on)


def _words(rate: TaxRate, book: PriceBook) -> str:
    return say("charges", f"tax-{_where(book)}", tax=rate.words, percent=str(rate.percent))


def _all_words(book: PriceBook) -> str:
    """All taxes in one phrase; nothing where there are none."""
    rates = book.taxes
    if len(rates) < 2:
        return "".join(_words(rate, book) for rate in rates)
    named = [say("charges", "tax-named", tax=rate.words, percent=str(rate.percent)) for rate in rates]
    return say("charges", f"taxes-{_where(book)}", taxes=locale_figures.listed(named))


def _where(book: PriceBook) -> str:
    return "inside" if book.tax.mode is TaxMode.INSIDE else "on-top"
