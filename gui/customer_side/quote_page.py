"""The quote as it grows, or the order just booked: the slip with its stub, and the tapes in their tray."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSizeF

from core.model.job_records import Job
from core.model.quote_records import Quote
from core.wording import shop_clock
from gui.customer_side import quote_blocks
from gui.customer_side.facing_page import FacingPage, inside
from gui.customer_side.facing_slip import FacingSlip, FacingStub
from gui.customer_side.page_scale import is_upright, unit
from gui.customer_side.page_turner import PageTurner
from gui.customer_side.tapes_drawing import TapesDrawing, drawn_tapes
from gui.customer_side.text_blocks import Paragraph, TextBlock, block
from gui.customer_side.text_sheet import TextSheet
from gui.toolkit import sizes, text
from gui.toolkit.text import say

_LEAST_LINES = 14.0
"""Grid steps that charges and tray each keep; where they have less the whole page takes smaller type."""

_SLIP_SHARE, _NARROW_SHARE = 0.53, 0.46
"""Of the width: the slip gives way to the tray of a box of many kinds."""
_FEW = 3


class QuotePage(FacingPage):
    """Landscape: the slip at the left, tapes above the stub at the right; upright: one below the other."""

    def __init__(self) -> None:
        super().__init__("customer-quote")
        self.slip = inside(self, FacingSlip())
        self.stub = inside(self, FacingStub())
        self.heading = inside(self, TextSheet("customer-heading"))
        self.tapes = inside(self, TapesDrawing())
        self.told = inside(self, TextSheet("customer-told"))
        self.turner = inside(self, PageTurner(turns_itself=True))
        self.pages_of(self.turner, (self.slip.charges, self.tapes, self.told))

    def show_quote(self, quote: Quote, shop: str, is_late: bool) -> None:
        """Write the quote as it stands now; a day not its own says so."""
        self.slip.write(quote, quote_blocks.quoted_on(quote), shop)
        self._write(quote, quote_blocks.greeting(quote), "")
        self.stub.write(quote.promise, is_late)
        self.lay_out()

    def show_job(self, job: Job, shop: str, how: str) -> None:
        """The order is booked: its number, and ``how`` it is collected."""
        about = say("slip", "booked", day=text.short_day(shop_clock.day(job.booked_at)))
        number = say("slip", "number", number=job.number)
        self.slip.write(job.quote, about, shop, number, job.paid_minor)
        self._write(job.quote, say("customer", "booked"), how)
        self.stub.write(job.promise, False)
        self.lay_out()

    def _write(self, quote: Quote, heading: str, how: str) -> None:
        self.heading.write((block(Paragraph(heading, sizes.GREAT, bold=True)),))
        self.tapes.show_tapes(drawn_tapes(quote.tapes))
        below: tuple[TextBlock, ...] = (block(Paragraph(how)),) if how else ()
        self.told.write((*below, *quote_blocks.told(quote.tapes)))

    # --- laying out ----------------------------------------------------------------------

    def lay_at(self, scale: float) -> bool:
        return self._lay_upright(scale) if is_upright(self.size()) else self._lay_beside(scale)

    def _lay_beside(self, scale: float) -> bool:
        margin, area = 3 * unit(scale), QSizeF(self.size())
        share = _SLIP_SHARE if len(self.tapes.shown) <= _FEW else _NARROW_SHARE
        wide, high = round(area.width() * share), area.height() - 2 * margin
        left, right = margin + wide, area.width() - 2 * margin - wide
        stub_high = self.stub.height_at(right, scale)
        self.slip.lay(QRectF(margin, margin, wide, high), scale)
        self.stub.is_beside = True
        self.stub.lay(QRectF(left, margin + high - stub_high, right, stub_high), scale)
        above = QRectF(
            left + 3 * unit(scale), margin, right - 3 * unit(scale), high - stub_high - 2 * unit(scale)
        )
        spare = self._lay_tapes(above, scale)
        return min(spare, self.slip.spare(QSizeF(wide, high), scale)) >= _LEAST_LINES * unit(scale)

    def _lay_upright(self, scale: float) -> bool:
        margin, area = 3 * unit(scale), QSizeF(self.size())
        width, high = area.width() - 2 * margin, area.height() - 2 * margin
        stub_high = self.stub.height_at(width, scale)
        above = high * 0.36
        spare = self._lay_tapes(QRectF(margin, margin, width, above), scale)
        slip_high = high - above - 2 * unit(scale) - stub_high
        top = margin + above + 2 * unit(scale)
        self.slip.lay(QRectF(margin, top, width, slip_high), scale)
        self.stub.is_beside = False
        self.stub.lay(QRectF(margin, top + slip_high, width, stub_high), scale)
        return min(spare, self.slip.spare(QSizeF(width, slip_high), scale)) >= _LEAST_LINES * unit(scale)

    def _lay_tapes(self, room: QRectF, scale: float) -> float:
        """Heading, tray, what must be told; the tray gives way to it, down to half of the room."""
        gap = 1.5 * unit(scale)
        high = self.heading.natural_height(room.width(), scale)
        self.heading.lay(QRectF(room.left(), room.top(), room.width(), high), scale)
        turner = self.turner_room(scale)
        left = room.height() - high - gap - turner
        told = self._told_high(room.width(), left, scale)
        tray = left - (told + gap if told else 0.0)
        y = room.top() + high + gap
        self.tapes.lay(QRectF(room.left(), y, room.width(), tray), scale)
        y += tray + gap
        self.told.lay(QRectF(room.left(), y, room.width(), told), scale)
        self.turner.lay_below(room, scale)
        return tray if self.tapes.is_whole else 0.0

    def _told_high(self, width: float, left: float, scale: float) -> float:
        """Of the room that is left, so that the tray keeps enough for a cassette with its words."""
        if not self.told.blocks:
            return 0.0
        most = max(8 * unit(scale), min(left * 0.45, left - _LEAST_LINES * unit(scale)))
        return min(self.told.natural_height(width, scale), most)
