"""What stands on the slip, line by line, in the words the customer reads."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from core.catalogue import formats
from core.model.price_ways import PriceWay
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
    """Every charge with its reason, then what no deck of the shop plays, without a price.

    Within a flat price nothing has a price of its own.
    """
    currency, is_flat = quote.price.currency, quote.flat_minor is not None
    charges = (
        SlipLine(
            "charge",
            charge.text,
            "" if is_flat else text.money_range(charge.amount.rising, currency),
            charge.because if not is_flat else "",
        )
        for charge in quote.price.charges
        if not is_flat or charge.code != "flat"
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


def sum_lines(
    quote: Quote, paid_minor: int | None = None, *, tells_choice: bool = False
) -> tuple[SlipLine, ...]:
    """Net, each tax, the total where what is owed is rounded, the price large, what the shop promises.

    ``tells_choice``: and the other ways to agree on a price, until one is agreed.
    """
    price = quote.price
    currency = price.currency
    sums = [(text.sentence_case(tax.words), tax.amount) for tax in price.told_taxes]
    if sums:
        sums.insert(0, (say("slip", "net"), price.net))
    if price.is_rounded:
        sums += [(say("slip", "total"), price.gross), (say("slip", "rounding"), price.rounding.rising)]
    lines = [SlipLine("sum", words, text.money_range(amount, currency)) for words, amount in sums]
    lines.append(_price(quote))
    lines += [SlipLine("note", sentence) for sentence in _what_we_promise(quote, paid_minor)]
    if quote.tells_own_tapes:
        lines.append(SlipLine("note", say("paper", "quote-own_tapes", tapes=quote.own_tapes or 0)))
    if tells_choice and paid_minor is None:
        lines += [SlipLine("note", sentence) for sentence in _other_ways(quote)]
    return tuple(lines)


def _price(quote: Quote) -> SlipLine:
    """What is most likely to be owed, and under it between what and what that may turn out to be."""
    due, currency = quote.price.due, quote.price.currency
    if quote.flat_minor is not None or due.is_one_figure:
        words = say("slip", "price" if quote.flat_minor is None else "price_flat")
        return SlipLine("price", words, text.money(due.likely, currency))
    between = say("slip", "between", low=text.money(due.low, currency), high=text.money(due.high, currency))
    return SlipLine("price", say("slip", "price_likely"), text.money(due.likely, currency), between)


def in_words(lines: Iterable[SlipLine]) -> str:
    """The whole slip as text, for a screen reader."""
    return "\n".join(" ".join(filter(None, (line.words, line.amount, line.because))) for line in lines)


def _what_we_promise(quote: Quote, paid_minor: int | None) -> list[str]:
    price = quote.price
    ceiling = _agreed(quote)
    if paid_minor is not None:
        money = say("slip", "paid", amount=text.money(paid_minor, price.currency)) if paid_minor else ""
    else:
        money = say("slip", "deposit", amount=text.money(price.deposit_minor, price.currency))
    return [ceiling, money] if money else [ceiling]


def _agreed(quote: Quote) -> str:
    """What holds in the way that was chosen; for a flat price that it is all."""
    if quote.flat_minor is not None:
        return say("slip", "flat")
    amount = text.money(quote.price.ceiling_minor, quote.price.currency)
    first = quote.ways.look_first if quote.way is PriceWay.PLAY_FIRST and quote.ways else None
    if first is not None:
        fee = text.money(first.fee_minor, quote.price.currency)
        return say("slip", "play_first", fee=fee, amount=amount)
    return say("slip", "ceiling", amount=amount)


def _other_ways(quote: Quote) -> Iterator[str]:
    """What else the customer could choose."""
    ways, currency = quote.ways, quote.price.currency
    for way in ways.offered if ways is not None else ():
        if ways is None or way is quote.way:
            continue
        if way is PriceWay.BY_PLAY and quote.way is PriceWay.FLAT:
            ceiling = text.money(ways.ceiling_minor, currency)
            between = text.money_range(ways.by_play, currency)
            yield say("slip", "or_by_play", between=between, amount=ceiling)
        elif way is PriceWay.BY_PLAY:
            yield say("slip", "or_all")
        elif way is PriceWay.FLAT and ways.flat is not None:
            yield say("slip", "or_flat", amount=text.money(ways.flat.minor, currency))
        elif ways.look_first is not None:
            yield say("slip", "or_play_first", fee=text.money(ways.look_first.fee_minor, currency))
