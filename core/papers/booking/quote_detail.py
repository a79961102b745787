"""The second page of a quote, where somebody asks for it: how the price adds up, and what the copies are."""

from __future__ import annotations

from core.model.quote_records import Quote
from core.papers import price_table
from core.papers.typesetting.paper_tokens import QUIET
from core.papers.typesetting.story import Story
from core.papers.voice import Voice


def tell(told: Story, quote: Quote, speaker: Voice) -> None:
    """Every charge with its reason, the sums, then pieces and size of the copies; on a page of its own."""
    told.turn_over()
    told.head(speaker.say("quote-charges"))
    price_table.tell(told, quote.price, speaker)
    _tell_hours(told, quote, speaker)
    _tell_copies(told, quote, speaker)


def _tell_hours(told: Story, quote: Quote, speaker: Voice) -> None:
    hours = quote.capture_hours
    told.say(
        speaker.things(
            "quote-hours",
            (tape.draft.format for tape in quote.tapes),
            low=speaker.number(hours.low, 1),
            likely=speaker.number(hours.likely, 1),
            high=speaker.number(hours.high, 1),
        ),
        QUIET,
    )


def _tell_copies(told: Story, quote: Quote, speaker: Voice) -> None:
    storage = quote.storage
    if not storage.copies:
        return
    told.head(speaker.say("quote-copies"))
    for copy in storage.copies:
        pieces = speaker.length_range(copy.count)
        told.say(speaker.say("quote-copy", count=pieces, words=copy.words))
    size = storage.gigabytes
    told.say(speaker.say("quote-size", low=speaker.number(size.low), high=speaker.number(size.high)), QUIET)
