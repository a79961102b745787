"""The claim slip: the number the customer comes back with, and a stub that stays with the box."""

from __future__ import annotations

from typing import TYPE_CHECKING

from core.model.job_records import Job
from core.model.names import FormatName
from core.model.own_shop.settings_records import ShopFront
from core.papers.booking import agreed_way, price_and_day
from core.papers.booking.fee_terms import storage_sentences
from core.papers.tape_words import apart, tally
from core.papers.typesetting import letterhead, lettering, printed_codes
from core.papers.typesetting.binding import Cover, about
from core.papers.typesetting.page import Book
from core.papers.typesetting.paper_tokens import (
    BODY,
    HUGE,
    LEAD,
    LINE,
    MARGIN,
    MM,
    MUTED,
    QUIET,
    STRONG,
    TITLE,
    UNIT,
    Style,
    sheet,
)
from core.papers.typesetting.story import Cell, TextLine, few_cell, text_cell
from core.papers.voice import Voice, voice

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

QR = 30 * MM
BAR = QR * 21 / 29 / 68
"""0.32 mm: the 68 narrow bars of a job number are then as wide as the QR code without its quiet zone."""
BAR_HEIGHT = 11 * MM
STUB = 80 * MM
"""Height of the part that is torn off."""
_MOST_LINES = 2
"""Of a name or a list on the slip, so that the slip never grows into the stub."""
_MOST_CAUTIONS = 6
"""Lines of the shop's own cautions."""


def render(job: Job, front: ShopFront, *, paper: str | None = None) -> bytes:
    """One page as a PDF on ``a4`` or ``letter``: the slip above, the stub for the box below."""
    speaker = voice(front)
    size = sheet(paper or front.paper, front.currency)
    book = Book(size, about(Cover(speaker.say("slip-title"), job.number), speaker))
    width = book.width - 2 * MARGIN
    _draw_slip(book.pen, width, job, speaker)
    draw_cut(book, speaker)
    draw_stub(book.pen, book.height - STUB + 3 * UNIT, width, job, speaker)
    book.turn_over()
    return book.closed()


def _draw_slip(pen: Pen, width: float, job: Job, speaker: Voice) -> None:
    y = _draw_shop(pen, width, speaker) + 3 * UNIT
    y = _draw_number(pen, y, width, job, speaker) + 2 * UNIT
    pen.rule(MARGIN, y, width, LINE)
    y += 2 * UNIT
    short = {speaker.say("slip-apart"), speaker.say("slip-name")} if _apart(job, speaker) else set()
    for label, texts in facts(job, speaker):
        y = _draw_fact(pen, y, width, label, texts, 1 if label in short else _MOST_LINES) + UNIT
    asked = (speaker.say(sentence, phone=speaker.front.phone) for sentence in ("slip-ask", "slip-keep"))
    for told in (speaker.things("slip-bring", _formats(job)), *asked):
        y = _draw(pen, text_cell(told, width), y + UNIT / 2, width)
    terms = " ".join(storage_sentences(job.quote.price, speaker))
    y = _draw_as_fits(pen, y, width, terms, _MOST_CAUTIONS)
    y = _draw_as_fits(pen, y, width, " ".join(speaker.front.extra_cautions), _MOST_CAUTIONS)
    _draw_as_fits(pen, y, width, speaker.front.closing, _MOST_LINES)


def _draw_as_fits(pen: Pen, y: float, width: float, text: str, most_lines: int) -> float:
    """A paragraph of the shop's own in the lines left above the stub; returns where it ends."""
    lines = min(most_lines, int((pen.height - STUB - y - UNIT) // QUIET.leading))
    return _draw(pen, few_cell(text, width, QUIET, lines), y + UNIT / 2, width) if text and lines > 0 else y


def _draw_shop(pen: Pen, width: float, speaker: Voice) -> float:
    """The shop's head, its logo at the right; returns where it ends."""
    logo = letterhead.small_logo(speaker)
    if logo is None:
        return _draw(pen, letterhead.slip_cell(speaker, width, _MOST_LINES), MARGIN, width)
    logo.draw(pen, MARGIN + width - logo.width, MARGIN, logo.width)
    room = width - logo.width - 2 * UNIT
    end = _draw(pen, letterhead.slip_cell(speaker, room, _MOST_LINES), MARGIN, room)
    return max(end, MARGIN + logo.height)


def _draw_number(pen: Pen, y: float, width: float, job: Job, speaker: Voice) -> float:
    """The number with its bars at the left, the QR code at the right; returns where they end."""
    pen.text(MARGIN, y, speaker.say("slip-title"), QUIET)
    pen.text(MARGIN, y + QUIET.leading, job.number, HUGE)
    top = y + QUIET.leading + HUGE.leading + UNIT / 2
    printed_codes.draw_bars(pen, MARGIN, top, BAR_HEIGHT, job.number, BAR)
    # The quiet zone of the QR code would set it in from the margin; let its modules meet the edge instead.
    printed_codes.draw_qr(pen, MARGIN + width - QR + QR * 4 / 29, y, QR, job.number)
    return max(top + BAR_HEIGHT, y + QR)


def _formats(job: Job) -> list[FormatName]:
    return [tape.format for tape in job.tapes]


def facts(job: Job, speaker: Voice) -> list[tuple[str, list[tuple[str, Style]]]]:
    """What the customer is to know of the order: what it is, and the lines that say it."""
    promise, price = job.promise, job.quote.price
    tapes = speaker.things("slip-tapes", _formats(job), n=len(job.tapes))
    ready = [(speaker.promised(promise), TITLE)]
    if promise.day:
        ready.append((speaker.chance(promise), BODY))
    return [
        (speaker.say("slip-ready" if promise.day else "slip-when"), ready),
        (speaker.say("slip-name"), [(job.customer.name, STRONG)]),
        (
            speaker.say("slip-box"),
            [(tapes, STRONG), (tally((tape.format_words for tape in job.tapes), speaker), QUIET)],
        ),
        *_apart(job, speaker),
        (
            price_and_day.price_head(price, speaker),
            [
                (speaker.money_range(price.due, price.currency), STRONG),
                (agreed_way.in_short(job.quote, speaker), QUIET),
            ],
        ),
        (speaker.say("slip-deposit"), [(speaker.money(job.paid_minor, price.currency), STRONG)]),
        (speaker.say("slip-booked"), [(speaker.day_of(job.booked_at), BODY)]),
    ]


def _apart(job: Job, speaker: Voice) -> list[tuple[str, list[tuple[str, Style]]]]:
    """The tapes that no deck of the shop plays, with the partner who may copy them."""
    found = [(each.format_words, each.verdict.elsewhere) for each in job.tapes if each.verdict.elsewhere]
    lines = apart(found, speaker)
    return [(speaker.say("slip-apart"), [(line, STRONG) for line in lines[:_MOST_LINES]])] if lines else []


def _draw_fact(
    pen: Pen, y: float, width: float, label: str, texts: list[tuple[str, Style]], lines: int
) -> float:
    """What it is at the left, what is to be known at the right, their first lines on one base line."""
    indent = 16 * UNIT
    drop = (texts[0][1].leading - QUIET.leading) / 2 + (texts[0][1].size - QUIET.size) * 0.36
    pen.text(MARGIN, y + drop, label, QUIET)
    cell = tuple(line for text, style in texts for line in few_cell(text, width - indent, style, lines))
    return _draw(pen, cell, y, width - indent, left=MARGIN + indent)


def draw_cut(book: Book, speaker: Voice) -> None:
    """The line along which the stub is torn off."""
    y = book.height - STUB
    words = speaker.say("slip-cut")
    wide = lettering.measured(words, QUIET)
    book.pen.rule(MARGIN, y, book.width - 2 * MARGIN - wide - UNIT, MUTED, dashed=True)
    book.pen.text(book.width - MARGIN - wide, y - QUIET.leading / 2, words, QUIET)


def draw_stub(pen: Pen, y: float, width: float, job: Job, speaker: Voice) -> None:
    """What stays with the box: its number, large and in both codes, and whose it is."""
    right = width - QR - 2 * UNIT
    pen.text(MARGIN, y, speaker.say("slip-stub"), QUIET)
    pen.text(MARGIN, y + QUIET.leading, job.number, HUGE)
    printed_codes.draw_qr(pen, MARGIN + width - QR + QR * 4 / 29, y, QR, job.number)
    _draw(pen, stub_cell(job, speaker, right), y + QUIET.leading + HUGE.leading + UNIT / 2, right)
    printed_codes.draw_bars(
        pen,
        MARGIN + width - printed_codes.bars_width(job.number, BAR),
        y + QR,
        BAR_HEIGHT,
        job.number,
        BAR,
    )


def stub_cell(job: Job, speaker: Voice, width: float) -> Cell:
    """What stays with the box, beside the number."""
    kinds = tally((tape.format_words for tape in job.tapes), speaker)
    counted = f"{speaker.things('slip-tapes', _formats(job), n=len(job.tapes))}: {kinds}"
    promised = speaker.promised(job.promise)
    ready = speaker.say("slip-stub_ready", day=promised) if job.promise.day else promised
    rush = (TextLine(speaker.say("slip-rush"), STRONG),) if job.rush else ()
    name = few_cell(job.customer.name, width, LEAD, _MOST_LINES)
    return name + few_cell(counted, width, BODY, _MOST_LINES) + text_cell(ready, width) + rush


def _draw(pen: Pen, cell: Cell, y: float, width: float, *, left: float = MARGIN) -> float:
    """The lines of a cell below each other; returns where they end."""
    for item in cell:
        item.draw(pen, left, y, width)
        y += item.height
    return y
