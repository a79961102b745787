"""What copying the tapes of an order is expected to cost together, while some are still to be played."""

from __future__ import annotations

from collections.abc import Sequence

from core.model import common_random_numbers
from core.model.money import MoneyRange
from core.model.quote_records import QuotedTape
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import facts
from core.pricing import disposition_rules, drawn_box
from core.pricing.drawn_box import AlikeTapes
from core.pricing.price_book import PriceBook
from core.scheduling import box_scenarios
from core.scheduling.plan_records import drawn_as


def copying(tapes: Sequence[QuotedTape], book: PriceBook, habits: ShopHabits) -> MoneyRange | None:
    """As `drawn_box.copying`, from the numbers its quote was drawn from; None where nothing is open."""
    played = [tape for tape in tapes if disposition_rules.is_played(tape, book.dispositions)]
    if sum(tape.minutes.low < tape.minutes.high for tape in played) < 2:
        return None
    return drawn_box.copying([_lot(tape, habits) for tape in played], book, box_scenarios.of(habits))


def _lot(tape: QuotedTape, habits: ShopHabits) -> AlikeTapes:
    """One tape, drawn from its belief where that is still the one behind its minutes."""
    believed = drawn_as(facts(tape.draft), habits, tape.minutes)
    key = common_random_numbers.key(tape.line, tape.n)
    return AlikeTapes(tape, None if believed is None else believed[0], (key,))
