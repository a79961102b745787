"""What a box of tapes costs, charge by charge, with the reason for each figure.

Three columns. Each column takes every tape at the same percentile of its own play time (all at the
10th, all at the 50th, all at the 90th) and adds up. Independent tapes would average out and narrow
the range, but the tapes of one family share a camera and a speed, so they tend to be short or long
together; the shop lets them, and the range it names is honest.

Rounding: the price of each tape, each action, each piece, each percentage is rounded once to minor
units (`core.model.money`); everything after that is a sum of whole numbers. Adding a tape, a minute, a
repair or a copy never makes the total smaller.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from decimal import Decimal
from itertools import zip_longest

from core.model.money import NOTHING, MoneyRange, rounded, shared_out, total
from core.model.quote_records import Charge, Price, QuotedTape, Storage
from core.pricing.charges import captures, copies, repairs
from core.pricing.price_book import PriceBook, QuantityBreak
from core.pricing.price_book_file import TaxMode
from core.wording.messages import say

PERCENT = Decimal(100)


def price(
    tapes: Sequence[QuotedTape],
    storage: Storage,
    book: PriceBook,
    *,
    rush: bool,
    agreed_ceiling: int | None = None,
) -> Price:
    """The price of these tapes with their copies, after this book.

    ``agreed_ceiling`` (gross, minor units) is what was promised at the counter: the total is held to
    it by a charge of its own. At pickup the tapes come with the minutes that were really played, so
    that the three columns agree. WrongInput when the book has no price for a format, repair or piece.
    """
    played = captures(tapes, book)
    charges = [charge for charge, _ in played] + repairs(tapes, book)
    charges += _quantity_break([each for _, each in played], book)
    charges += _rush(charges, book) if rush else []
    charges += copies(storage, book)
    charges += _smallest_job(charges, book)
    if agreed_ceiling is not None:
        charges += _held_to(agreed_ceiling, charges, book)
    return _taxed(tuple(charges), book, agreed_ceiling)


def _quantity_break(per_tape: Sequence[Sequence[MoneyRange]], book: PriceBook) -> list[Charge]:
    """Less for the tapes beyond each break, dearest tapes first, in every column by itself."""
    amounts = [amount for line in per_tape for amount in line]
    if not book.breaks or len(amounts) <= book.breaks[0].after:
        return []
    off = _by_column(lambda column: -_off(column, book.breaks), amounts)
    reached = [step for step in book.breaks if step.after < len(amounts)]
    steps = ", ".join(
        say("charges", "break-step", percent=str(step.percent), after=step.after) for step in reached
    )
    return [
        Charge(
            code="quantity-break",
            text=say("charges", "break-text", tapes=len(amounts)),
            because=say("charges", "break-because", steps=steps),
            quantity=say("charges", "break-quantity", tapes=len(amounts) - reached[0].after),
            unit_minor=0,
            amount=off,
        )
    ]


def _off(column: Sequence[int], breaks: Sequence[QuantityBreak]) -> int:
    dearest_first = sorted(column, reverse=True)
    edges = zip_longest(breaks, breaks[1:])
    parts = (
        sum(dearest_first[step.after : following.after if following else None]) * step.percent
        for step, following in edges
    )
    return rounded(sum(parts, Decimal(0)) / PERCENT)


def _rush(charges: Iterable[Charge], book: PriceBook) -> list[Charge]:
    work = total(charge.amount for charge in charges)
    return [
        Charge(
            code="rush",
            text=say("charges", "rush-text", percent=str(book.rush_percent)),
            because=say("charges", "rush-because"),
            quantity=say("charges", "rush-quantity", percent=str(book.rush_percent)),
            unit_minor=0,
            amount=_by_column(lambda column: _percent(column[0], book.rush_percent), [work]),
        )
    ]


def _smallest_job(charges: Sequence[Charge], book: PriceBook) -> list[Charge]:
    """A top-up where the work in the box costs less than the smallest job."""
    amount = total(charge.amount for charge in charges)
    if amount.high <= 0:
        return []
    missing = _by_column(lambda column: max(0, book.minimum_minor - column[0]), [amount])
    if missing == NOTHING:
        return []
    return [
        Charge(
            code="minimum",
            text=say("charges", "minimum-text"),
            because=say("charges", "minimum-because", amount=book.spelled(book.minimum_minor)),
            quantity="1",
            unit_minor=book.minimum_minor,
            amount=missing,
        )
    ]


def _held_to(ceiling: int, charges: Sequence[Charge], book: PriceBook) -> list[Charge]:
    """What is taken off so that no column goes beyond the agreed ceiling once tax is in it."""
    amount = total(charge.amount for charge in charges)
    highest = _highest_before_tax(ceiling, book)
    over = _by_column(lambda column: min(0, highest - column[0]), [amount])
    if over == NOTHING:
        return []
    return [
        Charge(
            code="ceiling",
            text=say("charges", "ceiling-text"),
            because=say("charges", "ceiling-because", amount=book.spelled(ceiling)),
            quantity="1",
            unit_minor=0,
            amount=over,
        )
    ]


def _highest_before_tax(ceiling: int, book: PriceBook) -> int:
    """The largest sum of charges whose total, tax included, stays within ``ceiling``."""
    if book.tax.mode is TaxMode.INSIDE:
        return ceiling
    net = rounded(ceiling * PERCENT / (PERCENT + book.tax.percent)) + 1
    while net + _percent(net, book.tax.percent) > ceiling:
        net -= 1
    return net


def _taxed(charges: tuple[Charge, ...], book: PriceBook, agreed_ceiling: int | None) -> Price:
    amount = total(charge.amount for charge in charges)
    if book.tax.mode is TaxMode.ON_TOP:
        net = amount
        tax = _by_column(lambda column: _percent(column[0], book.tax.percent), [net])
        gross, where = net + tax, "tax-on-top"
    else:
        gross, where = amount, "tax-inside"
        tax = _by_column(lambda column: _inside(column[0], book.tax.percent), [gross])
        net = MoneyRange(gross.low - tax.low, gross.likely - tax.likely, gross.high - tax.high)
        charges = _without_tax(charges, net)
    return Price(
        currency=book.currency,
        charges=charges,
        net=net,
        tax=tax,
        gross=gross,
        tax_words=say("charges", where, tax=book.tax.words, percent=str(book.tax.percent)),
        ceiling_minor=_ceiling(gross.high, book) if agreed_ceiling is None else agreed_ceiling,
        deposit_minor=_percent(gross.likely, book.deposit_percent),
    )


def _without_tax(charges: tuple[Charge, ...], net: MoneyRange) -> tuple[Charge, ...]:
    """The charges net of the tax inside them: the net of each column shared out by largest remainder."""
    amounts = [charge.amount for charge in charges]
    low = shared_out(net.low, [amount.low for amount in amounts])
    likely = shared_out(net.likely, [amount.likely for amount in amounts])
    high = shared_out(net.high, [amount.high for amount in amounts])
    columns = zip(low, likely, high, strict=True)
    return tuple(
        replace(charge, amount=MoneyRange(*column)) for charge, column in zip(charges, columns, strict=True)
    )


def _ceiling(highest: int, book: PriceBook) -> int:
    """The highest estimate with the book's margin, up to a whole unit of the currency."""
    with_margin = highest + _percent(highest, book.ceiling_percent)
    return -(-with_margin // book.whole_unit) * book.whole_unit


def _percent(minor: int, percent: Decimal) -> int:
    return rounded(minor * percent / PERCENT)


def _inside(minor: int, percent: Decimal) -> int:
    """The tax contained in a gross amount."""
    return rounded(minor * percent / (PERCENT + percent))


def _by_column(make: Callable[[list[int]], int], amounts: Sequence[MoneyRange]) -> MoneyRange:
    """One figure made from all amounts, column by column."""
    return MoneyRange(
        make([amount.low for amount in amounts]),
        make([amount.likely for amount in amounts]),
        make([amount.high for amount in amounts]),
    )
