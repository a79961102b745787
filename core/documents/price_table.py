"""The price on paper: every charge with its reason, then net, tax and total."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from core.documents.flow import Cell
from core.documents.story import Column, Story, Table
from core.documents.tokens import BODY, QUIET, STRONG, Style
from core.documents.voice import Voice
from core.money import MoneyRange
from core.records import Charge, Price

Figures = Callable[[MoneyRange], tuple[int, ...]]


def tell(story: Story, price: Price, voice: Voice) -> None:
    """The charges and their sums: one amount when it is known, else from, most likely and up to."""
    known = all(amount.is_one_figure for amount in _amounts(price))
    table = Table(_columns(voice, known=known), story.width)
    figures = _one if known else _three
    rows = [_charge_row(table, charge, price.currency, voice, figures) for charge in price.charges]
    rows += _sum_rows(table, price, voice, figures)
    story.table(table, rows)


def _amounts(price: Price) -> Iterator[MoneyRange]:
    yield from (charge.amount for charge in price.charges)
    yield from (price.net, price.tax, price.gross)


def _columns(voice: Voice, *, known: bool) -> list[Column]:
    names = ("amount",) if known else ("from", "likely", "to")
    amounts = [Column(voice.say(f"price.{name}"), 76 if known else 60, "right") for name in names]
    return [Column(voice.say("price.what")), Column(voice.say("price.quantity"), 66, "right"), *amounts]


def _one(amount: MoneyRange) -> tuple[int, ...]:
    return (amount.likely,)


def _three(amount: MoneyRange) -> tuple[int, ...]:
    return amount.low, amount.likely, amount.high


def _charge_row(
    table: Table, charge: Charge, currency: str, voice: Voice, figures: Figures
) -> tuple[Cell, ...]:
    each = (
        voice.say("price.each", money=voice.money(charge.unit_minor, currency)) if charge.unit_minor else ""
    )
    return (
        table.cell(0, (charge.text, BODY), (charge.because, QUIET)),
        table.cell(1, (charge.quantity, BODY), (each, QUIET)),
        *_money_cells(table, charge.amount, currency, voice, figures, BODY),
    )


def _sum_rows(table: Table, price: Price, voice: Voice, figures: Figures) -> Iterator[tuple[Cell, ...]]:
    sums = (
        (voice.say("price.net"), price.net, BODY),
        (price.tax_words or voice.say("price.tax"), price.tax, BODY),
        (voice.say("price.gross"), price.gross, STRONG),
    )
    for words, amount, style in sums:
        yield (
            table.cell(0, (words, style)),
            (),
            *_money_cells(table, amount, price.currency, voice, figures, style),
        )


def _money_cells(
    table: Table, amount: MoneyRange, currency: str, voice: Voice, figures: Figures, style: Style
) -> tuple[Cell, ...]:
    return tuple(
        table.cell(index, (voice.money(minor, currency), style))
        for index, minor in enumerate(figures(amount), start=2)
    )
