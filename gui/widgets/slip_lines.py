"""What stands on the slip, line by line, in the words the customer reads."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from core.catalogue import formats
from core.model.money import MoneyRange
from core.model.quote_records import Quote
from gui.toolkit import text
from gui.toolkit.text import say


@dataclass(frozen=True, slots=True)
class SlipLine:
    """One line: words at the left, an amount at the right, and the reason under it."""

    kind: str
    """``charge``, ``sum``, ``price`` or ``note``."""
    words: str
    amount: str = ""
    because: str = ""


def charge_lines(quote: Quote) -> tuple[SlipLine, ...]:
    """Every charge with its reason, then what no deck of the shop plays, without a price."""
    currency = quote.price.currency
    charges = (
        SlipLine("charge", charge.text, text.money_range(charge.amount, currency), charge.because)
        for charge in quote.price.charges
    )
    return (*charges, *_apart(quote))


def _apart(quote: Quote) -> Iterator[SlipLine]:
    """Tapes that are not copied here, line by line, with the partner who may copy them."""
    for tape in quote.tapes:
        elsewhere = tape.verdict.elsewhere
        if elsewhere is None or tape.n > 1:
            continue
        words = formats.catalogue().format(tape.draft.format).words
        told = {"partner": elsewhere.partner, "price": elsewhere.price}
        key = (
            ("apart_priced" if elsewhere.price else "apart_partner") if elsewhere.partner else "apart_nobody"
        )
        because = say("slip", key, days=elsewhere.days, **told)
        yield SlipLine("charge", say("slip", "apart", count=tape.draft.count, format=words), "", because)


def sum_lines(quote: Quote, paid_minor: int | None = None) -> tuple[SlipLine, ...]:
    """Net, each tax, the total where what is owed is rounded, the price large, what the shop promises."""
    price = quote.price
    currency = price.currency
    sums = [(text.sentence_case(tax.words), tax.amount) for tax in price.told_taxes]
    if sums:
        sums.insert(0, (say("slip", "net"), price.net))
    if price.is_rounded:
        sums += [(say("slip", "total"), price.gross), (say("slip", "rounding"), _from_least(price.rounding))]
    lines = [SlipLine("sum", words, text.money_range(amount, currency)) for words, amount in sums]
    lines.append(SlipLine("price", say("slip", "price"), text.money_range(price.due, currency)))
    lines += [SlipLine("note", sentence) for sentence in _what_we_promise(quote, paid_minor)]
    return tuple(lines)


def _from_least(amount: MoneyRange) -> MoneyRange:
    """Columns that do not rise with the work, written from the least to the most."""
    least, middle, most = sorted((amount.low, amount.likely, amount.high))
    return MoneyRange(least, middle, most)


def in_words(lines: Iterable[SlipLine]) -> str:
    """The whole slip as text, for a screen reader."""
    return "\n".join(" ".join(filter(None, (line.words, line.amount, line.because))) for line in lines)


def _what_we_promise(quote: Quote, paid_minor: int | None) -> list[str]:
    price = quote.price
    ceiling = say("slip", "ceiling", amount=text.money(price.ceiling_minor, price.currency))
    if paid_minor is not None:
        money = say("slip", "paid", amount=text.money(paid_minor, price.currency)) if paid_minor else ""
    else:
        money = say("slip", "deposit", amount=text.money(price.deposit_minor, price.currency))
    return [ceiling, money] if money else [ceiling]
