"""The ways to agree on a price, side by side, each with a box to tick."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.model.price_ways import PriceWay, WaysToAgree
from core.model.quote_records import Quote
from core.papers.typesetting.paper_tokens import INK, STRONG, UNIT
from core.papers.typesetting.story import Cell, Story, text_cell
from core.papers.voice import Voice

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

_SIDE = 9.0
_INDENT = 2 * UNIT


@dataclass(frozen=True, slots=True)
class TickedLine:
    """A line of text behind a box to tick; ticked where that is what was chosen."""

    text: str
    is_ticked: bool

    @property
    def height(self) -> float:
        return STRONG.leading

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        top = y + (STRONG.leading - _SIDE) / 2
        pen.box((x, top, _SIDE, _SIDE), line=INK)
        if self.is_ticked:
            left, right, bottom = x + 2, x + _SIDE - 2, top + _SIDE - 2
            pen.lines((((left, top + 2), (right, bottom)), ((left, bottom), (right, top + 2))), 1.2)
        pen.text(x + _INDENT, y, self.text, STRONG)


def tell(told: Story, quote: Quote, speaker: Voice) -> bool:
    """The ways that are offered; False and silent where there is nothing to choose from."""
    ways = quote.ways
    if ways is None or len(ways.offered) < 2:
        return False
    told.head(speaker.say("ways-head"))
    said = dict(_sentences(ways, quote.price.currency, speaker))
    widths = told.beside_widths(*(1 for _ in said))
    cells = tuple(
        _cell(way, said[way], width, speaker, is_ticked=way is quote.way)
        for way, width in zip(said, widths, strict=True)
    )
    told.beside(cells, widths, before=UNIT / 2)
    return True


def _cell(way: PriceWay, said: str, width: float, speaker: Voice, *, is_ticked: bool) -> Cell:
    first, *more = text_cell(speaker.say(f"ways-{way.value}"), width - _INDENT, STRONG)
    ticked = TickedLine(getattr(first, "text", ""), is_ticked)
    return (ticked, *more, *text_cell(said, width))


def _sentences(ways: WaysToAgree, currency: str, speaker: Voice) -> Iterator[tuple[PriceWay, str]]:
    between = speaker.money_range(ways.by_play, currency)
    ceiling = speaker.money(ways.ceiling_minor, currency)
    yield PriceWay.BY_PLAY, speaker.say("ways-by-play-says", between=between, money=ceiling)
    if ways.flat is not None:
        money = speaker.money(ways.flat.minor, currency)
        yield PriceWay.FLAT, speaker.say("ways-flat-says", money=money)
    if ways.look_first is not None:
        fee = speaker.money(ways.look_first.fee_minor, currency)
        yield PriceWay.PLAY_FIRST, speaker.say("ways-play-first-says", fee=fee)
