"""The ways to agree on the price, side by side, for the customer to choose by saying so or by touch."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from PySide6.QtCore import QRectF, QSizeF, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton

from core.model.price_ways import PriceWay
from core.model.quote_records import Quote
from gui.customer_side import quote_blocks
from gui.customer_side.facing_page import FacingPage, inside
from gui.customer_side.page_scale import is_upright, unit
from gui.customer_side.text_blocks import Paragraph, block, in_words
from gui.customer_side.text_sheet import TextSheet
from gui.toolkit import sizes, theme
from gui.toolkit.text import say

_LARGER = (1.6, 1.45, 1.3, 1.15)
"""Times the type of the page that is tried on the cards, where little stands on much paper."""


class WayCard(QAbstractButton):
    """One way on paper of its own; all of it is the target of a finger, and it says when it is chosen."""

    def __init__(self, way: PriceWay) -> None:
        super().__init__()
        self.way = way
        self.setObjectName(f"customer-way-{way.value}")
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.sheet = inside(self, TextSheet(f"customer-way-{way.value}-words"))
        self.chosen = inside(self, TextSheet(f"customer-way-{way.value}-chosen"))
        for part in (self.sheet, self.chosen):
            part.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def write(self, quote: Quote) -> None:
        """What this way comes to; ``chosen`` as the quote has it."""
        blocks = quote_blocks.way_blocks(quote, self.way)
        self.sheet.write(blocks)
        is_chosen = quote.way is self.way
        self.setChecked(is_chosen)
        words = say("customer", "way_chosen") if is_chosen else ""
        self.chosen.write((block(Paragraph(words, sizes.BODY, "oxide", bold=True)),) if words else ())
        self.setAccessibleName(say("counter", f"way-{self.way.value}"))
        self.setAccessibleDescription("\n".join(filter(None, (in_words(blocks), words))))

    def nextCheckState(self) -> None:
        """A touch asks; the mark moves once the Counter has taken it."""

    def needs(self, width: float, scale: float) -> float:
        """How high its words are in a card of this width."""
        return self.sheet.natural_height(width - 5 * unit(scale), scale) + 7.5 * unit(scale)

    def lay(self, rect: QRectF, scale: float, larger: float) -> None:
        """Give it its room on a page of this scale; its words are so many times ``larger``."""
        self.setGeometry(rect.toRect())
        side, high = 2.5 * unit(scale), 3 * unit(scale)
        width = self.width() - 2 * side
        room = QRectF(side, 2 * unit(scale), width, self.height() - 4.5 * unit(scale) - high)
        self.sheet.lay(room, scale * larger)
        self.chosen.lay(QRectF(side, self.height() - 1.5 * unit(scale) - high, width, high), scale)

    def paintEvent(self, event: QPaintEvent) -> None:
        tokens = theme.current_tokens()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        edge, wide = (tokens.oxide, 4.0) if self.isChecked() else (tokens.edge, 1.5)
        painter.setPen(QPen(QColor(edge), wide))
        painter.setBrush(QColor(tokens.slip))
        painter.drawRect(QRectF(self.rect()).adjusted(wide / 2, wide / 2, -wide / 2, -wide / 2))
        painter.end()


class WaysPage(FacingPage):
    """A card for each way the shop offers for this box."""

    chosen = Signal(object)
    """The `PriceWay` that was touched."""

    def __init__(self) -> None:
        super().__init__("customer-ways")
        self.heading = inside(self, TextSheet("customer-ways-heading"))
        self.foot = inside(self, TextSheet("customer-ways-foot"))
        self.cards = {way: inside(self, WayCard(way)) for way in PriceWay}
        for way, card in self.cards.items():
            card.clicked.connect(partial(self.chosen.emit, way))

    def show_quote(self, quote: Quote) -> None:
        """The ways of this quote, the chosen one marked."""
        offered = quote.ways.offered if quote.ways is not None else ()
        self.heading.write((block(Paragraph(say("customer", "ways"), sizes.GREAT, bold=True)),))
        self.foot.write((block(Paragraph(say("customer", "ways_foot"), sizes.BODY, "muted")),))
        for way, card in self.cards.items():
            card.setVisible(way in offered)
            if way in offered:
                card.write(quote)
        self.lay_out()

    def lay_at(self, scale: float) -> bool:
        margin, gap = 3 * unit(scale), 2 * unit(scale)
        width = self.width() - 2 * margin
        head, foot = (part.natural_height(width, scale) for part in (self.heading, self.foot))
        self.heading.lay(QRectF(margin, margin, width, head), scale)
        self.foot.lay(QRectF(margin, self.height() - margin - foot, width, foot), scale)
        room = QRectF(margin, margin + head + gap, width, self.height() - 2 * (margin + gap) - head - foot)
        shown = [card for card in self.cards.values() if not card.isHidden()]
        places = [_share(room, n, len(shown), gap, is_upright(self.size())) for n in range(len(shown))]
        larger = _larger(shown, places, scale)
        for card, place in zip(shown, places, strict=True):
            card.lay(place, scale, larger)
        return all(card.sheet.page_count == 1 for card in shown)


def _larger(cards: Sequence[WayCard], places: Sequence[QRectF], scale: float) -> float:
    """How many times larger than the page's the words of all cards can be."""
    for larger in _LARGER:
        if all(
            card.needs(place.width(), scale * larger) <= place.height()
            for card, place in zip(cards, places, strict=True)
        ):
            return larger
    return 1.0


def _share(room: QRectF, n: int, of: int, gap: float, is_below: bool) -> QRectF:
    """The place of the ``n``-th of so many cards, beside each other or one below the other."""
    size = QSizeF(room.width(), (room.height() - gap * (of - 1)) / of)
    if is_below:
        return QRectF(room.left(), room.top() + n * (size.height() + gap), size.width(), size.height())
    wide = (room.width() - gap * (of - 1)) / of
    return QRectF(room.left() + n * (wide + gap), room.top(), wide, room.height())
