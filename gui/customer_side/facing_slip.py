"""The slip turned to the customer: head, charges and price on the paper, day and dots on its stub."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from core.model.promise_records import Promise
from core.model.quote_records import Quote
from gui.customer_side import quote_blocks
from gui.customer_side.facing_page import inside
from gui.customer_side.page_scale import plain, unit
from gui.customer_side.text_blocks import Paragraph, block
from gui.customer_side.text_sheet import TextSheet
from gui.toolkit import sizes, text, theme
from gui.toolkit.text import say
from gui.widgets import slip_paper
from gui.widgets.twenty_dots import PromiseDots

_HOLE = 6.0
"""Radius of the hole at either end of the perforation, in pixels."""


class FacingSlip(QWidget):
    """The paper with head, charges and price; the stub with the day is torn off at its right or below."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("customer-slip")
        self.setAccessibleName(say("slip", "name"))
        self.head = inside(self, TextSheet("customer-head"))
        self.charges = inside(self, TextSheet("customer-charges"))
        self.price = inside(self, TextSheet("customer-price"))
        self.quote: Quote | None = None

    @property
    def price_words(self) -> str:
        """The most likely price as it stands there; empty when there is none."""
        return quote_blocks.likely_price(self.quote) if self.quote is not None else ""

    @property
    def mark_words(self) -> str:
        """That the prices are no prices of this shop's own; empty when they are."""
        is_example = self.quote is not None and self.quote.example_prices
        return say("settings", "first-example-prices") if is_example else ""

    def write(
        self, quote: Quote, about: str, shop: str, number: str = "", paid_minor: int | None = None
    ) -> None:
        """Write this quote; with a ``number`` it is the slip of an order."""
        self.quote = quote
        self.head.write(quote_blocks.head(shop, about, number, quote.example_prices))
        self.charges.write(quote_blocks.charges(quote))
        self.price.write(quote_blocks.price(quote, paid_minor))
        parts = (self.head, self.charges, self.price)
        self.setAccessibleDescription("\n".join(part.words for part in parts))

    def spare(self, size: QSizeF, scale: float) -> float:
        """What head and price leave of the height for the charges."""
        width = size.width() - 5 * unit(scale)
        return (
            size.height()
            - 6 * unit(scale)
            - sum(part.natural_height(width, scale) for part in (self.head, self.price))
        )

    def lay(self, rect: QRectF, scale: float) -> None:
        """Give it its room on a page of this scale."""
        self.setGeometry(rect.toRect())
        side, gap = 2.5 * unit(scale), 1.5 * unit(scale)
        width, y = self.width() - 2 * side, gap
        high = self.head.natural_height(width, scale)
        self.head.lay(QRectF(side, y, width, high), scale)
        y += high + gap
        below = self.price.natural_height(width, scale)
        end = self.height() - 2 * unit(scale) - below
        self.price.lay(QRectF(side, end, width, below), scale)
        self.charges.lay(QRectF(side, y, width, max(0.0, end - gap - y)), scale)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        slip_paper.paint_sheet(painter, QSizeF(self.size()), theme.current_tokens())
        painter.end()


class FacingStub(QWidget):
    """The promised day and its dots, on the part of the slip that is torn off."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("customer-stub")
        self.setAccessibleName(say("slip", "days"))
        self.day = inside(self, TextSheet("customer-day"))
        self.dots = inside(self, PromiseDots())
        self.explained = inside(self, TextSheet("customer-dots"))
        self.day_words = ""
        """The promised day as it stands there."""
        self.is_beside = True
        """Whether it hangs at the right of the slip, not below."""

    def write(self, promise: Promise, is_late: bool) -> None:
        """Write the day; ``is_late``: another is being worked out, and this one is marked."""
        self.day_words = text.day(promise.day) if promise.day is not None else ""
        self.day.write(quote_blocks.day(promise, is_late, tells_reasons=promise.day is None))
        self.dots.show_promise(promise, is_late)
        words = quote_blocks.dots_explained(promise)
        self.explained.write((block(Paragraph(words, sizes.SMALL, "muted")),) if words else ())
        self.setAccessibleDescription("\n".join((self.day.words, self.dots.accessibleDescription())))

    def height_at(self, width: float, scale: float) -> float:
        """How high all of it is."""
        inside = width - 5 * unit(scale)
        words = sum(part.natural_height(inside, scale) for part in (self.day, self.explained))
        return words + self._dots_high(scale) + 5 * unit(scale)

    def lay(self, rect: QRectF, scale: float) -> None:
        """Give it its room on a page of this scale."""
        self.setGeometry(rect.toRect())
        side = 2.5 * unit(scale)
        width, y = self.width() - 2 * side, 1.5 * unit(scale)
        high = self.day.natural_height(width, scale)
        self.day.lay(QRectF(side, y, width, high), scale)
        y += high + unit(scale)
        self.dots.rescale(plain(scale))
        self.dots.setGeometry(QRectF(side, y, width, self._dots_high(scale)).toRect())
        self.dots.setVisible(self.dots.is_drawn)
        y += self._dots_high(scale) + unit(scale) / 2
        self.explained.lay(QRectF(side, y, width, self.explained.natural_height(width, scale)), scale)

    def _dots_high(self, scale: float) -> float:
        return 10.0 * unit(scale) if self.dots.is_drawn else 0.0

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tokens, size = theme.current_tokens(), QSizeF(self.size())
        slip_paper.paint_sheet(painter, size, tokens)
        if self.is_beside:
            _paint_side_perforation(painter, size.height(), tokens)
        else:
            slip_paper.paint_perforation(painter, size.width(), 0.0, tokens)
        painter.end()


def _paint_side_perforation(painter: QPainter, high: float, tokens: theme.Tokens) -> None:
    """A dashed line down the left edge of the stub, with a hole at either end."""
    pen = QPen(QColor(tokens.edge), 1.5)
    pen.setDashPattern([2, 4])
    painter.setPen(pen)
    painter.drawLine(QPointF(0.75, _HOLE), QPointF(0.75, high - _HOLE))
    painter.setPen(QPen(QColor(tokens.line), 1))
    painter.setBrush(QColor(tokens.ground))
    for y in (0.0, high):
        painter.drawEllipse(QPointF(0.0, y), _HOLE, _HOLE)
