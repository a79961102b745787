"""What the customer signs at drop-off, and the place to sign: the same words that the paper says.

Nothing here ever takes the keyboard; a pen, a finger or the mouse is enough.
"""

from __future__ import annotations

from PySide6.QtCore import QRectF, Signal
from PySide6.QtWidgets import QPushButton

from core.papers.booking.signing_sheet import SigningSheet
from gui.customer_side.facing_page import FacingPage, PaperBack, inside
from gui.customer_side.page_scale import is_upright, unit
from gui.customer_side.page_turner import PageTurner
from gui.customer_side.signing_box import SignatureBox
from gui.customer_side.text_blocks import Paragraph, TextBlock, block
from gui.customer_side.text_sheet import TextSheet
from gui.toolkit import sizes
from gui.toolkit.text import say
from gui.widgets.signature_pad import SignaturePad

_AGREED = 1.4 * sizes.GREAT


class SigningPage(FacingPage):
    """The sheet at the left, in pages where it is long; price, day and the pad at the right, always."""

    signed = Signal(object)
    """The strokes as they stand after each stroke; none after *Clear*."""

    def __init__(self) -> None:
        super().__init__("signing-page")
        self.paper = inside(self, PaperBack("signing-paper"))
        self.sheet = inside(self, TextSheet("signing-sheet", most_columns=3))
        self.agreed = inside(self, TextSheet("signing-agreed"))
        self.box = inside(self, SignatureBox())
        self.box.signed.connect(self.signed)
        self.turner = inside(self, PageTurner(turns_itself=False))
        self.pages_of(self.turner, (self.sheet,))

    @property
    def pad(self) -> SignaturePad:
        return self.box.pad

    @property
    def clear_button(self) -> QPushButton:
        return self.box.clear_button

    def show_sheet(self, sheet: SigningSheet) -> None:
        """Show what is to be signed, with an empty pad."""
        self.pad.clear()
        self.sheet.setAccessibleName(sheet.title)
        self.sheet.write(tuple(_sheet_blocks(sheet)))
        self.agreed.write(_agreed_blocks(sheet))
        self.box.ask(sheet.consent, sheet.name)
        self.turner.begin(1)
        self.lay_out()

    def lay_at(self, scale: float) -> bool:
        margin = 3 * unit(scale)
        if is_upright(self.size()):
            return self._lay_upright(scale, margin)
        wide = round(self.width() * 0.54)
        high = self.height() - 2 * margin
        self._lay_sheet(QRectF(margin, margin, wide, high), scale)
        left = margin + wide + margin
        width = self.width() - left - margin
        return self._lay_agreed(QRectF(left, margin, width, high), scale)

    def _lay_upright(self, scale: float, margin: float) -> bool:
        width = self.width() - 2 * margin
        needed = self.agreed.natural_height(width, scale) + self.box.height_at(width, scale) + 2 * unit(scale)
        high = self.height() - 3 * margin - needed
        self._lay_sheet(QRectF(margin, margin, width, high), scale)
        self._lay_agreed(QRectF(margin, 2 * margin + high, width, needed), scale)
        return high >= self.height() * 0.4

    def _lay_agreed(self, room: QRectF, scale: float) -> bool:
        """Price and day above, the pad at the foot; returns whether both have their room."""
        above = self.agreed.natural_height(room.width(), scale)
        below = self.box.height_at(room.width(), scale)
        self.agreed.lay(QRectF(room.left(), room.top(), room.width(), above), scale)
        self.box.lay(QRectF(room.left(), room.bottom() - below, room.width(), below), scale)
        return above + below + unit(scale) <= room.height()

    def _lay_sheet(self, room: QRectF, scale: float) -> None:
        self.paper.setGeometry(room.toRect())
        side = 2.5 * unit(scale)
        inner = room.adjusted(side, side, -side, -side)
        self.sheet.lay(inner.adjusted(0, 0, 0, -self.turner_room(scale)), scale)
        self.turner.lay_below(inner, scale)


def _sheet_blocks(sheet: SigningSheet) -> list[TextBlock]:
    written = [
        block(
            Paragraph(sheet.title, sizes.LEAD, bold=True), Paragraph(sheet.name, sizes.BODY), with_next=True
        ),
        block(Paragraph(sheet.tapes_head, bold=True), before=1.5, ruled=True, with_next=True),
    ]
    written += [
        block(
            Paragraph(say("customer", "sign_tapes", count=tapes.count, words=tapes.name)),
            Paragraph(tapes.expected, sizes.SMALL, "muted"),
        )
        for tapes in sheet.tapes
    ]
    for heading, sentences in ((sheet.told_head, sheet.told), (sheet.terms_head, sheet.terms)):
        if sentences:
            written.append(block(Paragraph(heading, bold=True), before=1.5, ruled=True, with_next=True))
            written += [block(Paragraph(sentence, sizes.SMALL), before=0.5) for sentence in sentences]
    return written


def _agreed_blocks(sheet: SigningSheet) -> tuple[TextBlock, ...]:
    said = sheet.price
    return (
        block(
            Paragraph(sheet.price_head, sizes.BODY, "muted"),
            Paragraph(sheet.likely or said.price, _AGREED, bold=True, is_whole=True),
            Paragraph(said.price if sheet.likely else "", sizes.LEAD, bold=True),
            Paragraph(said.limit, sizes.BODY),
        ),
        block(
            Paragraph(said.day_head, sizes.BODY, "muted"),
            Paragraph(said.day, _AGREED, "time", bold=True, is_whole=True),
            Paragraph(said.chance, sizes.BODY),
            before=2.0,
        ),
    )
