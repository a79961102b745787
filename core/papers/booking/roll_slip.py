"""The claim slip for a printer with roll paper: the same facts one below the other, as long as they need."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.papers.booking.claim_slip import BAR, BAR_HEIGHT, QR, facts, stub_cell
from core.papers.stickers.label_test import SAMPLE
from core.papers.typesetting import letterhead, printed_codes
from core.papers.typesetting.binding import Cover, about
from core.papers.typesetting.page import Book
from core.papers.typesetting.paper_tokens import HUGE, LINE, MM, MUTED, QUIET, STRONG, UNIT
from core.papers.typesetting.story import Cell, TextLine, gap, text_cell
from core.papers.voice import Voice, voice
from core.wording.locale_figures import figure

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

EDGE = 4 * MM
"""What printers of roll paper leave free at both sides, and a little more (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Bars:
    """The number of an order as Code 128, at the left."""

    number: str
    height: float = BAR_HEIGHT

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        printed_codes.draw_bars(pen, x, y, self.height, self.number, BAR)


@dataclass(frozen=True, slots=True)
class SquareCode:
    """The number of an order as a QR code, its modules at the left edge."""

    number: str
    height: float = QR

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        printed_codes.draw_qr(pen, x - QR * 4 / 29, y, QR, self.number)


@dataclass(frozen=True, slots=True)
class CutLine:
    """Where the part for the box is torn off."""

    height: float = UNIT

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        pen.rule(x, y + self.height / 2, width, MUTED, dashed=True)


def render(job: Job, front: ShopFront) -> bytes:
    """One page as wide as the shop's roll; the slip above, the part for the box below."""
    speaker = voice(front)
    wide = front.printing.roll_width_mm * MM
    width = wide - 2 * EDGE
    cell = _slip(job, speaker, width) + gap(2 * UNIT) + _stub(job, speaker, width)
    size = (wide, sum(item.height for item in cell) + 2 * EDGE)
    book = Book(size, about(Cover(speaker.say("slip-title"), job.number), speaker))
    draw(cell, book, EDGE, width)
    return book.closed()


def render_test(front: ShopFront) -> bytes:
    """A test print: a frame as far from the edges as a slip, and codes to scan."""
    speaker = voice(front)
    wide = front.printing.roll_width_mm * MM
    width = wide - 4 * EDGE
    told = speaker.say("roll-test-frame", width=figure(front.printing.roll_width_mm, speaker.locale))
    cell = text_cell(speaker.say("roll-test"), width, STRONG) + text_cell(told, width) + gap(UNIT)
    cell += (Bars(SAMPLE), *gap(UNIT), SquareCode(SAMPLE))
    high = sum(item.height for item in cell) + 2 * EDGE
    book = Book((wide, high + 2 * EDGE), about(Cover(speaker.say("roll-test")), speaker))
    book.pen.box((EDGE, EDGE, wide - 2 * EDGE, high), line=LINE)
    draw(cell, book, 2 * EDGE, width)
    return book.closed()


def draw(cell: Cell, book: Book, edge: float, width: float) -> None:
    """The pieces of a slip below each other on the one page of ``book``."""
    y = edge
    for item in cell:
        item.draw(book.pen, edge, y, width)
        y += item.height
    book.turn_over()


def _slip(job: Job, speaker: Voice, width: float) -> Cell:
    cell = head(speaker, width) + gap(2 * UNIT) + _number(job, speaker.say("slip-title"))
    for label, texts in facts(job, speaker):
        cell += gap(UNIT) + text_cell(label, width, QUIET)
        for text, style in texts:
            cell += text_cell(text, width, style)
    for sentence in ("slip-bring", "slip-ask", "slip-keep"):
        cell += gap(UNIT) + text_cell(speaker.say(sentence, phone=speaker.front.phone), width)
    for own in (" ".join(speaker.front.extra_cautions), speaker.front.closing):
        cell += gap(UNIT) + text_cell(own, width, QUIET) if own else ()
    return cell


def _stub(job: Job, speaker: Voice, width: float) -> Cell:
    cut = (CutLine(), *text_cell(speaker.say("slip-cut"), width, QUIET))
    return cut + gap(UNIT) + _number(job, speaker.say("slip-stub")) + stub_cell(job, speaker, width)


def head(speaker: Voice, width: float) -> Cell:
    """Logo, name, whereabouts and greeting of the shop."""
    logo = letterhead.small_logo(speaker)
    cell: Cell = (logo, *gap(UNIT)) if logo is not None else ()
    cell += text_cell(speaker.front.name, width, letterhead.name_style(speaker))
    for line in (*speaker.whereabouts, speaker.front.greeting):
        cell += text_cell(line, width, QUIET) if line else ()
    return cell


def _number(job: Job, title: str) -> Cell:
    """The number, in figures and in both codes, each with the white a scanner needs below it."""
    figures: Cell = (TextLine(title, QUIET), TextLine(job.number, HUGE))
    return figures + gap(UNIT / 2) + (Bars(job.number),) + gap(UNIT) + (SquareCode(job.number),)
