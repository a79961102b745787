"""What somebody signs at drop-off, in words: the drop-off agreement prints it, the Customer side shows it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.model.own_shop.settings_records import ShopFront
from core.model.quote_records import Quote
from core.papers.booking import price_and_day
from core.papers.booking.price_and_day import PriceAndDay
from core.papers.tape_words import draft_name, expected
from core.papers.voice import Voice, voice


@dataclass(frozen=True, slots=True)
class SignedTapes:
    """Equal tapes: how many, what they are, what was found and is done."""

    count: int
    name: str
    expected: str


@dataclass(frozen=True, slots=True)
class SigningSheet:
    """What is signed before it is booked; every field is said as it stands. Empty ``told``: nothing was."""

    title: str
    name: str
    """Who signs."""
    tapes_head: str
    tapes: tuple[SignedTapes, ...]
    told_head: str
    told: tuple[str, ...]
    price_head: str
    price: PriceAndDay
    likely: str
    """The most likely price; nothing where the price is one figure anyway."""
    terms_head: str
    terms: tuple[str, ...]
    consent: str


def of_quote(quote: Quote, told: Sequence[str], front: ShopFront, by: str) -> SigningSheet:
    """What the customer of a quote signs, who was ``told`` so much by somebody called ``by``."""
    speaker, customer = voice(front), quote.inventory.customer
    return SigningSheet(
        title=speaker.say("agreement-title"),
        name=customer.name if customer else "",
        tapes_head=speaker.things(
            "slip-tapes", (tape.draft.format for tape in quote.tapes), n=len(quote.tapes)
        ),
        tapes=tuple(_equal(quote, speaker)),
        told_head=speaker.say("agreement-told", by=by),
        told=tuple(map(speaker.sentence, told)),
        price_head=price_and_day.price_head(quote.price, speaker),
        price=price_and_day.words(quote, quote.promise, quote.price.ceiling_minor, speaker),
        likely=_likely(quote, speaker),
        terms_head=speaker.say("quote-terms"),
        terms=(*terms(speaker), speaker.say("law")),
        consent=speaker.say("agreement-yes"),
    )


def _likely(quote: Quote, speaker: Voice) -> str:
    due, currency = quote.price.due, quote.price.currency
    return "" if due.is_one_figure else speaker.money(due.likely, currency)


def terms(speaker: Voice) -> tuple[str, ...]:
    """What holds for every order, the shop's own sentences among it."""
    keys = ("slip-keep", "slip-bring", "agreement-change")
    return (*map(speaker.say, keys), *speaker.front.extra_cautions)


def _equal(quote: Quote, speaker: Voice) -> Iterator[SignedTapes]:
    """The tapes in their order, equal ones of a line together."""
    counted: dict[tuple[int, str, str], int] = {}
    for tape in quote.tapes:
        name = " · ".join(filter(None, (draft_name(tape.draft, speaker), tape.draft.label)))
        key = (tape.line, name, expected(tape.draft, tape.verdict, speaker))
        counted[key] = counted.get(key, 0) + 1
    for (_, name, found), count in counted.items():
        yield SignedTapes(count, name, found)
