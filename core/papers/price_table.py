"""The price on paper: every charge with its reason, then net, each tax, total and what is owed of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from core.model.money import MoneyRange
from core.model.quote_records import Charge, Price
from core.papers.typesetting import lettering
from core.papers.typesetting.paper_tokens import BODY, QUIET, STRONG, UNIT, Style
from core.papers.typesetting.story import Cell, PaperTable, Story, TableColumn
from core.papers.voice import Voice

Figures = Callable[[MoneyRange], tuple[int, ...]]

FLAT = "flat"
"""The code of the charge that brings all others to the sum agreed."""
_MOST_QUANTITY = 104.0
"""Points; a longer quantity takes two lines."""


def tell(story: Story, price: Price, voice: Voice) -> None:
    """The charges and their sums: one amount when it is known, else from, most likely and up to.

    Before they are played, the parts of a flat price have no price of their own.
    """
    known = is_known(price)
    in_one = not known and any(charge.code == FLAT for charge in price.charges)
    figures = _one if known or in_one else _three
    table = PaperTable(_columns(price, voice, figures), story.width)
    if in_one:
        rows = [_part_row(table, charge) for charge in price.charges if charge.code != FLAT]
    else:
        rows = [_charge_row(table, charge, price.currency, voice, figures) for charge in price.charges]
    rows += _sum_rows(table, price, voice, figures)
    story.table(table, rows)


def is_known(price: Price) -> bool:
    """Whether every amount of it is one figure."""
    return all(amount.is_one_figure for amount in _amounts(price))


def _amounts(price: Price) -> Iterator[MoneyRange]:
    yield from (charge.amount for charge in price.charges)
    yield from (price.net, price.tax, price.gross, price.rounding, price.due)


def _columns(price: Price, voice: Voice, figures: Figures) -> list[TableColumn]:
    """Wide enough that no amount and, if it is of usual length, no quantity is broken."""
    names = ("amount",) if figures is _one else ("from", "likely", "to")
    titles = [voice.say(f"price-{name}") for name in names]
    money = [voice.money(minor, price.currency) for amount in _amounts(price) for minor in figures(amount)]
    widest = _widest(*titles, *money) + UNIT / 2
    quantity = voice.say("price-quantity")
    counted = [charge.quantity for charge in price.charges]
    counted += [each(charge, price.currency, voice) for charge in price.charges]
    return [
        TableColumn(voice.say("price-what")),
        TableColumn(quantity, min(_widest(quantity, *counted), _MOST_QUANTITY), "right"),
        *(TableColumn(title, widest, "right") for title in titles),
    ]


def each(charge: Charge, currency: str, voice: Voice) -> str:
    """The price of one; nothing for a percentage."""
    return (
        voice.say("price-each", money=voice.money(charge.unit_minor, currency)) if charge.unit_minor else ""
    )


def _widest(*texts: str) -> float:
    """The width that holds each of the texts on one line, bold or not."""
    return max(lettering.measured(text, style) for text in texts for style in (BODY, STRONG)) + 1


def _one(amount: MoneyRange) -> tuple[int, ...]:
    return (amount.likely,)


def _three(amount: MoneyRange) -> tuple[int, ...]:
    return amount.low, amount.likely, amount.high


def _charge_row(
    table: PaperTable, charge: Charge, currency: str, voice: Voice, figures: Figures
) -> tuple[Cell, ...]:
    return (
        table.cell(0, (charge.text, BODY), (voice.capital(charge.because), QUIET)),
        table.cell(1, (charge.quantity, BODY), (each(charge, currency, voice), QUIET)),
        *_money_cells(table, charge.amount, currency, voice, figures, BODY),
    )


def _part_row(table: PaperTable, charge: Charge) -> tuple[Cell, ...]:
    """A charge within a flat price."""
    return table.cell(0, (charge.text, BODY)), table.cell(1, (charge.quantity, BODY)), ()


def _sum_rows(table: PaperTable, price: Price, voice: Voice, figures: Figures) -> Iterator[tuple[Cell, ...]]:
    for words, base, amount, style in sums(price, voice):
        told = voice.say("price-tax-base", money=voice.money_range(base, price.currency)) if base else ""
        yield (
            table.cell(0, (words, style), (told, QUIET)) if told else table.cell(0, (words, style)),
            (),
            *_money_cells(table, amount, price.currency, voice, figures, style),
        )


def sums(price: Price, voice: Voice) -> Iterator[tuple[str, MoneyRange | None, MoneyRange, Style]]:
    """Words, what a tax is charged on where that is not everything, amount, and how it is written."""
    taxes = price.told_taxes
    if taxes:
        yield voice.say("price-net"), None, price.net, BODY
    for tax in taxes:
        words = voice.capital(tax.words) or voice.say("price-tax")
        yield words, None if tax.base == price.net else tax.base, tax.amount, BODY
    yield voice.say("price-gross"), None, price.gross, BODY if price.is_rounded else STRONG
    if price.is_rounded:
        yield voice.say("price-rounding"), None, price.rounding, BODY
        yield voice.say("price-due"), None, price.due, STRONG


def _money_cells(
    table: PaperTable, amount: MoneyRange, currency: str, voice: Voice, figures: Figures, style: Style
) -> tuple[Cell, ...]:
    return tuple(
        table.cell(index, (voice.money(minor, currency), style))
        for index, minor in enumerate(figures(amount), start=2)
    )
