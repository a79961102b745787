"""The receipt for a printer of roll paper: the same facts one below the other, as long as they need."""

from __future__ import annotations

from core.model.job_records import Pickup
from core.model.own_shop.settings_records import ShopFront
from core.model.tape_records import TapeRecord
from core.papers import price_table
from core.papers.booking.roll_slip import EDGE, draw, head
from core.papers.handover import home_cautions, receipt_end, receipt_tapes
from core.papers.handover.spliced_tapes import splice_cell, tried_cell
from core.papers.tape_words import became, full_name, short_code, spliced, standing
from core.papers.typesetting.binding import Cover, about
from core.papers.typesetting.not_for_reuse_band import band
from core.papers.typesetting.page import Book
from core.papers.typesetting.paper_tokens import BODY, LEAD, MM, QUIET, STRONG, UNIT
from core.papers.typesetting.story import Cell, gap, ruled_gap, text_cell
from core.papers.voice import Voice, voice


def render(pickup: Pickup, front: ShopFront) -> bytes:
    """One page as wide as the shop's roll."""
    speaker = voice(front)
    wide = front.printing.roll_width_mm * MM
    width = wide - 2 * EDGE
    cell = _told(pickup, width, speaker)
    size = (wide, sum(item.height for item in cell) + 2 * EDGE)
    book = Book(size, about(Cover(speaker.say("receipt-title"), pickup.job.number), speaker))
    draw(cell, book, EDGE, width)
    return book.closed()


def _told(pickup: Pickup, width: float, speaker: Voice) -> Cell:
    job, when = pickup.job, {"day": speaker.day_of(pickup.at), "time": speaker.clock(pickup.at)}
    cell = head(speaker, width) + gap(UNIT)
    cell += text_cell(speaker.say("receipt-head", number=job.number, name=job.customer.name), width, LEAD)
    cell += text_cell(speaker.say("receipt-handed", by=pickup.by, **when), width, QUIET)
    cell += _to_do(pickup, width, speaker) + _tapes(pickup, width, speaker)
    if price_table.is_known(pickup.final):
        cell += gap(UNIT) + receipt_end.price_cell(pickup, width, speaker, with_reasons=False)
    cell += receipt_end.paid_cell(pickup, width, speaker) + gap(UNIT)
    cell += receipt_end.signature_cell(pickup, width, speaker)
    return cell + (
        gap(UNIT) + text_cell(speaker.front.closing, width, QUIET) if speaker.front.closing else ()
    )


def _to_do(pickup: Pickup, width: float, speaker: Voice) -> Cell:
    marked = spliced(pickup.returned)
    cell: Cell = ()
    if marked:
        cell += gap(UNIT) + (band(speaker.count("band-full", len(marked)), width),)
        cell += text_cell(speaker.say("splice-why"), width)
    return cell + home_cautions.hazards_cell(pickup.returned, width, speaker)


def _tapes(pickup: Pickup, width: float, speaker: Voice) -> Cell:
    back, gone, here = pickup.returned, pickup.not_returned, pickup.still_here
    cell: Cell = ()
    for key, tapes in (("receipt-tapes", back), ("receipt-not_returned", gone), ("receipt-still_here", here)):
        if not tapes:
            continue
        heading = speaker.things(key, receipt_tapes.formats(tapes), n=len(tapes))
        cell += gap(UNIT) + text_cell(heading, width, LEAD)
        for tape in sorted(tapes, key=lambda each: not each.not_for_reuse):
            cell += _tape(tape, width, speaker, is_here=tapes is here)
    return cell + (text_cell(speaker.say("receipt-not_returned_says"), width) if gone else ())


def _tape(tape: TapeRecord, width: float, speaker: Voice, *, is_here: bool) -> Cell:
    name = receipt_tapes.named(tape, full_name(tape), speaker)
    cell = ruled_gap() + text_cell(short_code(tape), width, STRONG) + text_cell(name, width)
    if is_here:
        return cell + text_cell(standing(tape, speaker), width, QUIET)
    cell += text_cell(became(tape, speaker), width, BODY)
    if tape.not_for_reuse and tape.is_returned:
        cell += (band(speaker.say("band-short"), width), *splice_cell(tape, width, speaker))
    cell += tried_cell(tape, width, speaker)
    return cell + tuple(
        line for fact in home_cautions.facts(tape, speaker) for line in text_cell(fact, width)
    )
