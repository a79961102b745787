"""A quote, or an order just booked, as the customer reads it: charges, price, day, what must be told."""

from __future__ import annotations

from collections.abc import Sequence

from core.catalogue import containers
from core.model.price_ways import PriceWay
from core.model.promise_records import Promise
from core.model.quote_records import Price, Quote, QuotedTape
from core.wording import shop_clock
from gui.customer_side.text_blocks import Paragraph, TextBlock, block
from gui.toolkit import sizes, text
from gui.toolkit.text import say
from gui.widgets import slip_lines
from gui.widgets.notice_sentences import must_tell

PRICE = 2 * sizes.GREAT
"""The most likely price: the largest figure of the page."""
DAY = 1.5 * sizes.GREAT


def greeting(quote: Quote) -> str:
    """``Your 3 tapes``, or reels, or discs."""
    kind = containers.together(tape.draft.format for tape in quote.tapes)
    key = "tapes" if len(quote.tapes) > 1 else "tape"
    return say("customer", containers.sentence("customer", key, kind), count=len(quote.tapes))


def quoted_on(quote: Quote) -> str:
    """From when the quote is, and how long it stands."""
    made = text.short_day(shop_clock.day(quote.made_at))
    return say("slip", "quoted", day=made, until=text.short_day(quote.valid_until))


def head(shop: str, about: str, number: str, is_example: bool) -> tuple[TextBlock, ...]:
    """The top of the slip: the shop, the number of an order, since when it stands."""
    return (
        block(
            Paragraph(shop, sizes.LEAD, "oxide", bold=True),
            Paragraph(number, sizes.GREAT, bold=True),
            Paragraph(about, sizes.SMALL, "muted"),
            Paragraph(
                say("settings", "first-example-prices") if is_example else "",
                sizes.BODY,
                "attention",
                bold=True,
            ),
        ),
    )


def charges(quote: Quote) -> tuple[TextBlock, ...]:
    """Every charge with its reason, then tax where there is any."""
    written = [
        block(
            Paragraph(line.words, amount=line.amount),
            Paragraph(line.because, sizes.SMALL, "muted", is_reason=True),
        )
        for line in slip_lines.charge_lines(quote)
    ]
    sums = [line for line in slip_lines.sum_lines(quote) if line.kind == "sum"]
    if sums:
        written.append(block(*(Paragraph(line.words, amount=line.amount) for line in sums), ruled=True))
    return tuple(written)


def price(quote: Quote, paid_minor: int | None) -> tuple[TextBlock, ...]:
    """The most likely price, large; its range beneath, then what was agreed about it."""
    return (
        block(
            Paragraph(price_head(quote), sizes.BODY, "muted"),
            Paragraph(likely_price(quote), PRICE, bold=True, is_whole=True),
            Paragraph(price_range(quote.price), sizes.BODY, bold=True),
        ),
        block(*(Paragraph(sentence, sizes.SMALL) for sentence in _agreed(quote, paid_minor)), before=0.5),
    )


def price_head(quote: Quote) -> str:
    """What stands over the price."""
    if quote.flat_minor is not None:
        return say("slip", "price_flat")
    return say("customer", "price_sure" if quote.price.due.is_one_figure else "price_likely")


def likely_price(quote: Quote) -> str:
    return text.money(quote.price.due.likely, quote.price.currency)


def price_range(of: Price) -> str:
    """From the least to the most it may come to; nothing where it is one figure."""
    if of.due.is_one_figure:
        return ""
    low, high = (text.money(minor, of.currency) for minor in (of.due.low, of.due.high))
    return say("customer", "price_range", low=low, high=high)


def _agreed(quote: Quote, paid_minor: int | None) -> list[str]:
    lines = slip_lines.sum_lines(quote, paid_minor, tells_choice=True)
    return [line.words for line in lines if line.kind == "note"]


def day(promise: Promise, is_late: bool, *, tells_reasons: bool) -> tuple[TextBlock, ...]:
    """The promised day, large; from when on it may be ready beneath. The odds are the dots' to tell."""
    if promise.day is None:
        waits = not promise.held_by
        held = say("slip", "held", reasons="; ".join(promise.held_by[:2])) if tells_reasons else ""
        words = say("slip", "opening" if waits else "no_day")
        return (block(Paragraph(words, sizes.LEAD, bold=True), Paragraph("" if waits else held)),)
    return (
        block(
            Paragraph(say("slip", "ready_by"), sizes.BODY, "muted"),
            Paragraph(text.day(promise.day), DAY, "muted" if is_late else "time", bold=True, is_whole=True),
            Paragraph(say("slip", "working") if is_late else _earliest(promise), sizes.BODY),
        ),
    )


def dots_explained(promise: Promise) -> str:
    """What a dot stands for; nothing where there are none."""
    return say("customer", "dots") if promise.chances else ""


def _earliest(promise: Promise) -> str:
    """When it may well be ready already."""
    even = promise.p50
    if even is None or promise.day is None or even >= promise.day:
        return say("slip", "that_day")
    return say("slip", "sooner", day=text.day(even))


def told(tapes: Sequence[QuotedTape]) -> tuple[TextBlock, ...]:
    """What comes back not for reuse, then what must be said about which tapes."""
    count = sum(tape.verdict.not_for_reuse for tape in tapes)
    written: list[TextBlock] = []
    if count:
        words = say("customer", "band" if count > 1 else "band_one", count=count)
        written.append(TextBlock((Paragraph(words),), band=say("customer", "band_words")))
    for which, sentences in must_tell(tapes):
        written.append(block(Paragraph(which, bold=True), Paragraph(sentences)))
    return tuple(written)


def way_blocks(quote: Quote, way: PriceWay) -> tuple[TextBlock, ...]:
    """One way to agree on the price: its name, what it comes to, what it means."""
    ways, currency = quote.ways, quote.price.currency
    assert ways is not None
    amount, beneath = "", ""
    if way is PriceWay.FLAT and ways.flat is not None:
        amount, beneath = text.money(ways.flat.minor, currency), say("customer", "way_flat_is")
    elif way is PriceWay.PLAY_FIRST and ways.look_first is not None:
        fee, whole = ways.look_first.fee_minor, ways.look_first.due.likely
        amount = say("customer", "way_from", amount=text.money(fee, currency))
        beneath = say("customer", "way_first_is", amount=text.money(whole, currency))
    elif way is PriceWay.BY_PLAY:
        amount = text.money(ways.by_play.likely, currency)
        low, high = (text.money(n, currency) for n in (ways.by_play.low, ways.by_play.high))
        beneath = say("customer", "price_range", low=low, high=high) if low != high else ""
    limit = text.money(ways.ceiling_minor, currency)
    return (
        block(Paragraph(say("counter", f"way-{way.value}"), sizes.LEAD, "oxide", bold=True)),
        block(
            Paragraph(amount, 1.5 * sizes.GREAT, bold=True, is_whole=True),
            Paragraph(beneath, sizes.BODY, bold=True),
            before=1.0,
        ),
        block(Paragraph(say("customer", f"way-{way.value}", limit=limit)), before=1.0),
    )
