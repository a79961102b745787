"""The ways to agree on the price of one box, side by side, and the price in the way that was chosen."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.model.errors import WrongInput, one_of
from core.model.money import MoneyRange
from core.model.names import Outcome
from core.model.price_ways import FlatOffer, LookFirstOffer, PriceWay, WaysToAgree
from core.model.quote_records import Price, QuotedTape, Storage
from core.model.ranges import ZERO
from core.playtime.box_habits import Box
from core.pricing import box_price, drawn_box, flat_price
from core.pricing.drawn_box import AlikeTapes
from core.pricing.price_book import PriceBook
from core.wording.messages import say

_NO_COPIES = Storage(ZERO, ZERO, ())


@dataclass(frozen=True, slots=True)
class PricedBox:
    """All that a price is made from besides the book; ``lots`` are those of the tapes that are played."""

    tapes: tuple[QuotedTape, ...]
    lots: tuple[AlikeTapes, ...]
    storage: Storage
    box: Box
    rush: bool
    exempt: str = ""


def priced(
    box: PricedBox, book: PriceBook, way: PriceWay, last: WaysToAgree | None = None
) -> tuple[Price, WaysToAgree]:
    """The price in the chosen ``way``, and what each way would come to.

    The flat sum is the costly part: ``last``, what each way came to a moment ago, keeps it as it was while a
    box is typed, unless it is the way chosen.
    WrongInput for a way that this book does not offer for this box, and as `box_price.price`.
    """
    by_play = price_by_play(box, book)
    flat = last.flat if last is not None and way is not PriceWay.FLAT else _flat(box, book)
    ways = WaysToAgree(by_play.due, by_play.ceiling_minor, flat, _look_first(box, by_play, book))
    if way not in ways.offered and box.lots:
        accepted = one_of([each.value for each in ways.offered])
        raise WrongInput(say("quotes", "way"), way.value, accepted)
    return (at_flat(box, book, flat) if way is PriceWay.FLAT and flat else by_play), ways


def price_by_play(box: PricedBox, book: PriceBook) -> Price:
    """The price by what the box plays, its tapes drawn together."""
    drawn = drawn_box.copying(box.lots, book, box.box)
    most = drawn_box.at_most(box.lots, book, box.box)
    return box_price.price(
        box.tapes, box.storage, book, rush=box.rush, exempt=box.exempt, drawn=drawn, at_most=most
    )


def _flat(box: PricedBox, book: PriceBook) -> FlatOffer | None:
    fees = box_price.inspection_fee(box.tapes, book)
    return flat_price.offer(
        box.lots, box.tapes, box.storage, fees, book, box.box, rush=box.rush, exempt=box.exempt
    )


def at_flat(box: PricedBox, book: PriceBook, flat: FlatOffer) -> Price:
    """The price of a box at its flat sum."""
    return box_price.price(
        box.tapes, box.storage, book, rush=box.rush, exempt=box.exempt, agreed_flat=flat.minor
    )


def _look_first(box: PricedBox, by_play: Price, book: PriceBook) -> LookFirstOffer | None:
    """The fee where none of the tapes is chosen, up to all of them copied; None where the book has no fee."""
    if not book.inspection_fee.minor or not box.lots:
        return None
    fee = box_price.price(
        [_not_copied(tape) for tape in box.tapes], _NO_COPIES, book, rush=False, exempt=box.exempt
    ).due.likely
    due = by_play.due
    return LookFirstOffer(fee, MoneyRange(min(fee, due.low), max(fee, due.likely), max(fee, due.high)))


def _not_copied(tape: QuotedTape) -> QuotedTape:
    return replace(tape, minutes=ZERO, verdict=replace(tape.verdict, outcome=Outcome.CANNOT))
