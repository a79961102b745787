"""The claim slip with the drop-off agreement on it, where both fit on one page above the stub for the box."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.papers.booking import claim_slip, drop_off_agreement, price_and_day
from core.papers.booking.fee_terms import storage_sentences
from core.papers.typesetting import printed_codes
from core.papers.typesetting.binding import Cover, Placed, about, arranged, story
from core.papers.typesetting.page import Book
from core.papers.typesetting.paper_tokens import HUGE, MARGIN, MM, NARROW, QUIET, STRONG, UNIT, sheet
from core.papers.typesetting.story import GUTTER, Cell, Story, TextLine, text_cell
from core.papers.voice import Voice, voice

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

_SQUARE = 24 * MM
_TIGHTENED = 4


@dataclass(frozen=True, slots=True)
class SlipBars:
    """The number of the order as Code 128, as wide as on the slip."""

    number: str
    height: float = 8 * MM

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        printed_codes.draw_bars(pen, x, y, self.height, self.number, claim_slip.BAR)


@dataclass(frozen=True, slots=True)
class SlipSquare:
    """The number as a QR code, its modules at the right edge."""

    number: str
    height: float = _SQUARE

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        printed_codes.draw_qr(pen, x + width - _SQUARE + _SQUARE * 4 / 29, y, _SQUARE, self.number)


def render(job: Job, front: ShopFront, *, paper: str | None = None) -> bytes | None:
    """One page as a PDF on ``a4`` or ``letter``; None where slip and agreement need a page each."""
    speaker = voice(front)
    size = sheet(paper or front.paper, front.currency)
    found = _fitted(job, speaker, paper, size[1] - claim_slip.STUB - UNIT)
    if found is None:
        return None
    told, rows = found
    book = Book(size, about(Cover(speaker.say("slip-title"), job.number), speaker))
    for placed in rows:
        placed.row.draw(book.pen, told.margin, placed.top)
    claim_slip.draw_cut(book, speaker)
    top = book.height - claim_slip.STUB + 3 * UNIT
    claim_slip.draw_stub(book.pen, top, book.width - 2 * MARGIN, job, speaker)
    book.turn_over()
    return book.closed()


def _fitted(job: Job, speaker: Voice, paper: str | None, bottom: float) -> tuple[Story, list[Placed]] | None:
    for margin in (MARGIN, NARROW):
        told = _told(job, speaker, paper, margin)
        for _ in range(_TIGHTENED + 1):
            first, *more = arranged(told.pieces, margin, margin, bottom)
            if not more:
                return told, first
            told.tighten()
    return None


def _told(job: Job, speaker: Voice, paper: str | None, margin: float) -> Story:
    told = story(speaker, paper, short=True, margin=margin)
    _tell_number(told, job, speaker)
    heading = price_and_day.price_head(job.quote.price, speaker)
    price_and_day.tell(told, job.quote, job.promise, job.ceiling_minor, heading, speaker)
    drop_off_agreement.tell_tapes(told, job, speaker)
    drop_off_agreement.tell_told(told, job, speaker)
    drop_off_agreement.tell_agreed(told, job, speaker)
    ask = speaker.say("slip-ask", phone=speaker.front.phone)
    told.say(
        " ".join((ask, *storage_sentences(job.quote.price, speaker), speaker.front.closing)).strip(), QUIET
    )
    return told


def _tell_number(told: Story, job: Job, speaker: Voice) -> None:
    """The number in figures and in both codes, whose order it is, who took it in, what was paid."""
    widths = (told.width - _SQUARE - GUTTER, _SQUARE)
    figures: Cell = (TextLine(speaker.say("slip-title"), QUIET), TextLine(job.number, HUGE))
    cell = (*figures, SlipBars(job.number))
    cell += text_cell(job.customer.name, widths[0], STRONG)
    when = {"day": speaker.day_of(job.booked_at), "time": speaker.clock(job.booked_at)}
    paid = speaker.money(job.paid_minor, job.quote.price.currency)
    taken = speaker.say("agreement-taken", by=job.booked_by, **when)
    deposit = speaker.say("slip-deposit_paid", money=paid)
    cell += text_cell(f"{taken} · {deposit}", widths[0], QUIET)
    told.beside((cell, (SlipSquare(job.number),)), widths, before=UNIT)
