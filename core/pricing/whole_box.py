"""The charges that no tape has by itself: what many tapes cost less, what counting them together changes."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from itertools import zip_longest

from core.model.money import NOTHING, MoneyRange, by_column, rounded, total
from core.model.price_terms import ChargeKind
from core.model.quote_records import Charge, Price
from core.pricing.price_book import PriceBook
from core.pricing.price_rules import QuantityBreak
from core.wording.messages import say

TOGETHER = "together"
"""The code of the charge that says what counting the tapes of a box together changes."""
_APART = ("capture-", "quantity-break")
COPYING = (*_APART, TOGETHER)
"""How the codes of all charges for copying begin."""
_PERCENT = Decimal(100)
"""By definition."""


def quantity_break(per_tape: Sequence[Sequence[MoneyRange]], book: PriceBook) -> list[Charge]:
    """Less for the tapes beyond each break, dearest tapes first, in every column by itself."""
    amounts = [amount for line in per_tape for amount in line]
    if not book.breaks or len(amounts) <= book.breaks[0].after:
        return []
    off = by_column(lambda column: -_off(column, book.breaks), amounts)
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
            kind=ChargeKind.COPYING,
        )
    ]


def counted_together(
    drawn: MoneyRange | None, apart: MoneyRange, amounts: Sequence[MoneyRange], book: PriceBook
) -> list[Charge]:
    """What the box costs together less what its tapes cost by themselves (``apart``), breaks taken off."""
    if drawn is None:
        return []
    together = _at_least(drawn, amounts, book)
    more = MoneyRange(*(a - b for a, b in zip(together.columns, apart.columns, strict=True)))
    if more == NOTHING:
        return []
    return [
        Charge(
            code=TOGETHER,
            text=say("charges", "together-text", tapes=len(amounts)),
            because=say("charges", "together-because"),
            quantity=say("charges", "break-quantity", tapes=len(amounts)),
            unit_minor=0,
            amount=more,
            kind=ChargeKind.COPYING,
        )
    ]


def in_proportion(before: Price, amounts: Sequence[MoneyRange], book: PriceBook) -> MoneyRange | None:
    """What tapes of these ``amounts`` cost together, if that changes as much of it as in a price ``before``.

    None where that price counted each by itself.
    """
    together = [charge.amount for charge in before.charges if charge.code == TOGETHER]
    if not together:
        return None
    apart = by_column(lambda column: sum(column) - _off(column, book.breaks), amounts)
    was = total(each.amount for each in before.charges if each.code.startswith(_APART))
    found = zip(apart.columns, was.columns, total(together).columns, strict=True)
    return MoneyRange(
        *(rounded(Decimal(now * (old + more)) / old) if old else now for now, old, more in found)
    )


def _at_least(drawn: MoneyRange, amounts: Sequence[MoneyRange], book: PriceBook) -> MoneyRange:
    """Never below all that is certain of a box and its dearest tape, which a few draws may miss."""
    known = [amount for amount in amounts if amount.low == amount.high]
    others = [amount for amount in amounts if amount.low != amount.high]
    dearest = by_column(max, others) if others else NOTHING
    certain = total(known) + dearest
    if all(found >= least for found, least in zip(drawn.columns, certain.columns, strict=True)):
        return drawn
    less = by_column(lambda column: sum(column) - _off(column, book.breaks), [*known, dearest])
    return MoneyRange(*(max(pair) for pair in zip(drawn.columns, less.columns, strict=True)))


def _off(column: Sequence[int], breaks: Sequence[QuantityBreak]) -> int:
    dearest_first = sorted(column, reverse=True)
    edges = zip_longest(breaks, breaks[1:])
    parts = (
        sum(dearest_first[step.after : following.after if following else None]) * step.percent
        for step, following in edges
    )
    return rounded(sum(parts, Decimal(0)) / _PERCENT)
