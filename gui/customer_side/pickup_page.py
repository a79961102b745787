"""Pickup, for whoever collects: the tapes, which are not for reuse, what is owed, what is signed."""

from __future__ import annotations

from PySide6.QtCore import QRectF, Signal

from core.papers.handover.pickup_sheet import PickupSheet
from gui.customer_side.facing_page import FacingPage, PaperBack, inside
from gui.customer_side.page_scale import is_upright, unit
from gui.customer_side.page_turner import PageTurner
from gui.customer_side.signing_box import SignatureBox
from gui.customer_side.text_blocks import Paragraph, TextBlock, block
from gui.customer_side.text_sheet import TextSheet
from gui.toolkit import sizes
from gui.toolkit.text import say


class PickupPage(FacingPage):
    """The tapes at the left, counted back one by one; what is owed and the pad at the right."""

    signed = Signal(object)
    """The strokes as they stand after each stroke; none after *Clear*."""

    def __init__(self) -> None:
        super().__init__("customer-pickup")
        self.heading = inside(self, TextSheet("pickup-heading"))
        self.paper = inside(self, PaperBack("pickup-paper"))
        self.tapes = inside(self, TextSheet("pickup-tapes", most_columns=3))
        self.tapes.setAccessibleName(say("pickup", "tapes_head"))
        self.owed = inside(self, TextSheet("pickup-owed"))
        self.box = inside(self, SignatureBox())
        self.box.signed.connect(self.signed)
        self.turner = inside(self, PageTurner(turns_itself=True))
        self.pages_of(self.turner, (self.tapes,))
        self._number = ""

    def show_sheet(self, sheet: PickupSheet) -> None:
        """Show how far the order is counted back; the ink of another order goes."""
        if sheet.number != self._number:
            self._number = sheet.number
            self.box.pad.clear()
            self.turner.begin(1)
        self.heading.write(_heading(sheet))
        self.tapes.write(_tapes(sheet))
        self.owed.write(_owed(sheet))
        self.box.ask(sheet.consent, sheet.signer)
        self.box.setVisible(bool(sheet.consent) and not sheet.is_done)
        self.lay_out()

    def lay_at(self, scale: float) -> bool:
        margin = 3 * unit(scale)
        width = self.width() - 2 * margin
        head = self.heading.natural_height(width, scale)
        self.heading.lay(QRectF(margin, margin, width, head), scale)
        top = margin + head + 1.5 * unit(scale)
        room = QRectF(margin, top, width, self.height() - margin - top)
        if is_upright(self.size()):
            needed = self._owed_high(width, scale)
            high = room.height() - needed - margin
            self._lay_tapes(QRectF(margin, top, width, high), scale)
            self._lay_owed(QRectF(margin, top + high + margin, width, needed), scale)
            return high >= room.height() * 0.4
        wide = round(width * 0.56)
        self._lay_tapes(QRectF(margin, top, wide, room.height()), scale)
        left = margin + wide + margin
        return self._lay_owed(QRectF(left, top, self.width() - left - margin, room.height()), scale)

    def _owed_high(self, width: float, scale: float) -> float:
        pad = self.box.height_at(width, scale) + 2 * unit(scale) if not self.box.isHidden() else 0.0
        return self.owed.natural_height(width, scale) + pad

    def _lay_owed(self, room: QRectF, scale: float) -> bool:
        above = self.owed.natural_height(room.width(), scale)
        self.owed.lay(QRectF(room.left(), room.top(), room.width(), above), scale)
        below = self.box.height_at(room.width(), scale)
        self.box.lay(QRectF(room.left(), room.bottom() - below, room.width(), below), scale)
        return self._owed_high(room.width(), scale) <= room.height()

    def _lay_tapes(self, room: QRectF, scale: float) -> None:
        self.paper.setGeometry(room.toRect())
        side = 2.5 * unit(scale)
        inner = room.adjusted(side, side, -side, -side)
        self.tapes.lay(inner.adjusted(0, 0, 0, -self.turner_room(scale)), scale)
        self.turner.lay_below(inner, scale)


def _heading(sheet: PickupSheet) -> tuple[TextBlock, ...]:
    key = "pickup_done" if sheet.is_done else "pickup_head"
    about = say("customer", "pickup_order", number=sheet.number, name=sheet.customer)
    words = say("customer", key, count=len(sheet.tapes))
    return (block(Paragraph(words, sizes.GREAT, bold=True), Paragraph(about, sizes.BODY, "muted")),)


def _tapes(sheet: PickupSheet) -> tuple[TextBlock, ...]:
    written = [
        TextBlock(
            (
                Paragraph(tape.name, sizes.BODY, bold=tape.is_counted),
                Paragraph(
                    say("customer", "pickup_counted" if tape.is_counted else "pickup_not_yet"),
                    sizes.SMALL,
                    "time" if tape.is_counted else "muted",
                ),
            ),
            shell=tape.format,
            band=tape.band,
            before=1.0,
        )
        for tape in sheet.tapes
    ]
    if sheet.copies:
        head = Paragraph(say("pickup", "copies_head"), bold=True)
        written.append(block(head, *map(Paragraph, sheet.copies), before=1.5, ruled=True))
    if sheet.waiting:
        written.append(block(Paragraph(say("customer", "pickup_waiting", count=sheet.waiting)), before=1.5))
    for n, sentence in enumerate(sheet.told):
        written.append(block(Paragraph(sentence), before=0.75 if n else 1.5, ruled=n == 0))
    return tuple(written)


def _owed(sheet: PickupSheet) -> tuple[TextBlock, ...]:
    return (
        block(*(Paragraph(words, sizes.LEAD, amount=amount) for words, amount in sheet.amounts)),
        block(
            Paragraph(sheet.due_head, sizes.LEAD, "muted"),
            Paragraph(sheet.due, 2 * sizes.GREAT, bold=True, is_whole=True),
            before=1.0,
            ruled=True,
        ),
    )
