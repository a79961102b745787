"""The panel that says what was agreed: the price and its limit at the left, the promised day at the right."""

from __future__ import annotations

from core.model.promise_records import Promise
from core.model.quote_records import Quote
from core.papers import agreed_way
from core.papers.paper_tokens import QUIET, TITLE, UNIT
from core.papers.story import Gap, Story, text_cell
from core.papers.voice import Voice


def tell(
    told: Story, quote: Quote, promise: Promise, ceiling_minor: int, heading: str, speaker: Voice
) -> None:
    """``ceiling_minor`` is the limit that holds now; ``heading`` stands over the price."""
    price, widths = quote.price, told.panel_widths(1, 1)
    money = text_cell(heading, widths[0], QUIET)
    money += text_cell(speaker.money_range(price.due, price.currency), widths[0], TITLE)
    money += (Gap(UNIT / 2), *text_cell(agreed_way.in_short(quote, speaker, ceiling_minor), widths[0]))
    day = text_cell(speaker.say("slip-ready" if promise.day else "slip-when"), widths[1], QUIET)
    day += text_cell(speaker.promised(promise), widths[1], TITLE)
    if promise.day:
        day += (Gap(UNIT / 2), *text_cell(speaker.chance(promise), widths[1]))
    told.panel((money, day), widths)
