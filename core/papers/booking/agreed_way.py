"""How the price was agreed, in the sentences a paper says of it; what a flat price risks is on no paper."""

from __future__ import annotations

from core.model.price_ways import PriceWay
from core.model.quote_records import Quote
from core.papers.voice import Voice


def in_short(quote: Quote, speaker: Voice, ceiling_minor: int | None = None) -> str:
    """What holds beside the price: the ceiling, or that one sum is all.

    ``ceiling_minor``: the limit that holds by now; None: that of the quote. A flat sum is not all any more
    where a higher one was agreed since.
    """
    price = quote.price
    limit = price.ceiling_minor if ceiling_minor is None else ceiling_minor
    ceiling = speaker.money(limit, price.currency)
    if quote.flat_minor is not None and limit == price.ceiling_minor:
        return speaker.say("agreed-flat")
    if (fee := _fee(quote)) is not None:
        return speaker.say("agreed-play_first", fee=speaker.money(fee, price.currency), money=ceiling)
    return speaker.say("quote-ceiling", money=ceiling)


def terms(quote: Quote, speaker: Voice) -> tuple[str, ...]:
    """The same as terms, then what else the customer could choose."""
    price = quote.price
    if quote.flat_minor is not None:
        money = speaker.money(quote.flat_minor, price.currency)
        return (speaker.say("agreed-flat_terms", money=money), *_others(quote, speaker))
    ask_first = speaker.say("quote-ask_first", money=speaker.money(price.ceiling_minor, price.currency))
    if (fee := _fee(quote)) is not None:
        first = speaker.say("agreed-play_first_terms", fee=speaker.money(fee, price.currency))
        return (first, ask_first, *_others(quote, speaker))
    return (ask_first, *_others(quote, speaker))


def _fee(quote: Quote) -> int | None:
    """What is owed where nothing is picked; None where all is copied by agreement."""
    if quote.way is not PriceWay.PLAY_FIRST or quote.ways is None or quote.ways.look_first is None:
        return None
    return quote.ways.look_first.fee_minor


def _others(quote: Quote, speaker: Voice) -> tuple[str, ...]:
    ways, currency = quote.ways, quote.price.currency
    if ways is None:
        return ()
    told: dict[PriceWay, str] = {}
    if quote.way is not PriceWay.BY_PLAY:
        between, ceiling = speaker.money_range(ways.by_play, currency), ways.ceiling_minor
        money = speaker.money(ceiling, currency)
        told[PriceWay.BY_PLAY] = speaker.say("agreed-or_by_play", between=between, money=money)
    if ways.flat is not None:
        money = speaker.money(ways.flat.minor, currency)
        told[PriceWay.FLAT] = speaker.say("agreed-or_flat", money=money)
    if ways.look_first is not None:
        fee = speaker.money(ways.look_first.fee_minor, currency)
        told[PriceWay.PLAY_FIRST] = speaker.say("agreed-or_play_first", fee=fee)
    return tuple(sentence for way, sentence in told.items() if way is not quote.way)
