"""The panel that says what was agreed: the price and its limit at the left, the promised day at the right."""

from __future__ import annotations

from dataclasses import dataclass

from core.model.promise_records import Promise
from core.model.quote_records import Price, Quote
from core.papers.booking import agreed_way
from core.papers.typesetting.paper_tokens import QUIET, TITLE, UNIT
from core.papers.typesetting.story import Gap, Story, text_cell
from core.papers.voice import Voice


@dataclass(frozen=True, slots=True)
class PriceAndDay:
    """What is agreed about money and time, in words."""

    price: str
    limit: str
    day_head: str
    day: str
    chance: str
    """Nothing where no day can be named."""


def words(quote: Quote, promise: Promise, ceiling_minor: int, speaker: Voice) -> PriceAndDay:
    """``ceiling_minor`` is the limit that holds now."""
    price = quote.price
    return PriceAndDay(
        price=speaker.money_range(price.due, price.currency),
        limit=agreed_way.in_short(quote, speaker, ceiling_minor),
        day_head=speaker.say("slip-ready" if promise.day else "slip-when"),
        day=speaker.promised(promise),
        chance=speaker.chance(promise) if promise.day else "",
    )


def price_head(price: Price, speaker: Voice) -> str:
    """What stands over a price: with tax only where one is told."""
    return speaker.say("slip-cost" if price.told_taxes and not price.exempt else "slip-cost-plain")


def tell(
    told: Story, quote: Quote, promise: Promise, ceiling_minor: int, heading: str, speaker: Voice
) -> None:
    """``ceiling_minor`` is the limit that holds now; ``heading`` stands over the price."""
    said, widths = words(quote, promise, ceiling_minor, speaker), told.panel_widths(1, 1)
    money = text_cell(heading, widths[0], QUIET)
    money += text_cell(said.price, widths[0], TITLE)
    money += (Gap(UNIT / 2), *text_cell(said.limit, widths[0]))
    day = text_cell(said.day_head, widths[1], QUIET)
    day += text_cell(said.day, widths[1], TITLE)
    if said.chance:
        day += (Gap(UNIT / 2), *text_cell(said.chance, widths[1]))
    told.panel((money, day), widths)
