"""Sheets of stickers: one for each cassette, and the mark for each that must not be used again."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from core.model.errors import WrongInput
from core.model.job_records import Job
from core.model.names import Finding
from core.model.own_shop.settings_records import ShopFront
from core.model.tape_records import TapeRecord
from core.papers.stickers import label_stock
from core.papers.stickers.label_stock import LabelSheet
from core.papers.tape_words import record_name, short_code, surname
from core.papers.typesetting import lettering, printed_codes
from core.papers.typesetting.binding import Cover, about
from core.papers.typesetting.not_for_reuse_band import PrintedBand, band
from core.papers.typesetting.page import Book
from core.papers.typesetting.paper_tokens import BODY, LEAD, QUIET, STRONG
from core.papers.typesetting.story import TextLine, even_cell, few_cell, text_cell, whole_cell
from core.papers.voice import Voice, voice
from core.wording.messages import say

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen, Rectangle


_HIGHEST_BARS = 20.0
_LOW_BARS = 16.0
_SMALLEST_QR = 45.0
"""Points; its modules are then 0.55 mm, which a phone reads with ease."""

_AIR = 6.0
"""Kept free above and below."""

_PLAIN = replace(BODY, leading=12)
_BOLD, _FAINT = replace(STRONG, leading=12), replace(QUIET, leading=12)
_WARNED = (
    Finding.MOULD,
    Finding.NITRATE,
    Finding.VINEGAR,
    Finding.STICKY,
    Finding.SNAPPED,
    Finding.OFF_HUB,
)


@dataclass(frozen=True, slots=True)
class Sticker:
    """One sticker: of a tape, or the mark that the tape must not be used again."""

    tape: TapeRecord
    surname: str
    is_mark: bool


def render(
    job: Job,
    front: ShopFront,
    only_marks: bool = False,
    *,
    paper: str | None = None,
    start_at: int | None = None,
) -> bytes:
    """Stickers as a PDF on the shop's labels, or on the usual ones of ``a4`` or ``letter`` sheets.

    ``only_marks`` prints the marks alone; ``start_at`` is the first unused place of the first sheet,
    counted from 1 along the rows (the shop's own by default). With nothing to print the sheet is empty.
    """
    speaker = voice(front)
    grid, size = label_stock.of(front, paper)
    start_at = label_stock.start(front) if start_at is None else start_at
    if not 1 <= start_at <= grid.places:
        raise WrongInput("start_at", start_at, say("readers", "sheet_places", places=grid.places))
    book = Book(size, about(Cover(speaker.say("label-title"), job.number), speaker))
    place = start_at - 1
    for sticker in _stickers(job, only_marks=only_marks):
        if place == grid.places:
            book.turn_over()
            place = 0
        _draw(book.pen, grid, place, sticker, speaker)
        place += 1
    book.turn_over()
    return book.closed()


def _stickers(job: Job, *, only_marks: bool) -> Iterator[Sticker]:
    name = surname(job.customer.name)
    for tape in job.tapes:
        if not only_marks:
            yield Sticker(tape, name, is_mark=False)
        if tape.not_for_reuse:
            yield Sticker(tape, name, is_mark=True)


def _draw(pen: Pen, grid: LabelSheet, place: int, sticker: Sticker, speaker: Voice) -> None:
    row, column = divmod(place, grid.columns)
    x = grid.left + column * grid.pitch + grid.air
    y = grid.top + row * grid.step_down + _AIR
    draw = _draw_mark if sticker.is_mark else _draw_tape
    draw(pen, (x, y, grid.width - 2 * grid.air, grid.height - 2 * _AIR), sticker, speaker)


def _draw_tape(pen: Pen, box: Rectangle, sticker: Sticker, speaker: Voice) -> None:
    """Both codes at the left, the QR code over the bars; the words beside them.

    Where the code in figures has no room there, the words go over the bars, and the QR code goes.
    """
    x, y, width, height = box
    tape = sticker.tape
    bars = printed_codes.bars_width(tape.code)
    left = x + bars + max(printed_codes.QUIET, _AIR)
    if x + width - left < lettering.measured(short_code(tape), _BOLD):
        printed_codes.draw_bars(pen, x, y + height - _LOW_BARS, _LOW_BARS, tape.code)
        _draw_words(pen, (x, y, width, height - _LOW_BARS), sticker, speaker)
        return
    bar_height = min(_HIGHEST_BARS, height - _SMALLEST_QR)
    square = min(bars + 2 * _AIR, height - bar_height)
    printed_codes.draw_qr(pen, x + (bars - square) / 2, y, square, tape.code)
    printed_codes.draw_bars(pen, x, y + height - bar_height, bar_height, tape.code)
    _draw_words(pen, (left, y, x + width - left, height), sticker, speaker)


def _draw_words(pen: Pen, box: Rectangle, sticker: Sticker, speaker: Voice) -> None:
    """Code, warning, whose it is and what it is; what its owner wrote on it takes the lines that are left."""
    x, y, width, height = box
    tape, most = sticker.tape, int(height // _PLAIN.leading)
    lines = few_cell(short_code(tape), width, _BOLD, 1)
    if warned := " · ".join(warnings(tape, speaker)):
        lines += text_cell(warned, width, _BOLD)
    for words in (sticker.surname, record_name(tape)):
        lines += whole_cell(words, width, _PLAIN, 1)
    lines += whole_cell(tape.label, width, _FAINT, most - len(lines))
    for line in lines[:most]:
        line.draw(pen, x, y, width)
        y += line.height


def warnings(tape: TapeRecord, speaker: Voice) -> tuple[str, ...]:
    """What whoever takes the cassette in hand must know at once, in capitals; a splice ends a snap."""
    found = set(tape.findings) - ({Finding.SNAPPED, Finding.OFF_HUB} if tape.splices else set())
    return tuple(speaker.say(f"label-{each.value}") for each in _WARNED if each in found)


def _draw_mark(pen: Pen, box: Rectangle, sticker: Sticker, speaker: Voice) -> None:
    """The band with its words, what they mean, and whose mark it is."""
    x, y, width, height = box
    tape = sticker.tape
    words = speaker.say("band-spliced" if tape.splices else "band-short")
    lines = even_cell(speaker.say("band-meaning"), width, align="centre")
    lines += (TextLine(short_code(tape), QUIET, "centre"),)
    room = height - sum(line.height for line in lines)
    strip = _strip(words, width, room)
    strip.draw(pen, x, y, width)
    y += strip.height + min(_AIR, room - strip.height)
    for line in lines:
        line.draw(pen, x, y, width)
        y += line.height


def _strip(words: str, width: float, room: float) -> PrintedBand:
    """The band in large letters on a high sticker, on one line on a low one; it takes the height there is."""
    strip = PrintedBand(tuple(words.splitlines()), LEAD)
    if strip.height > room:
        strip = band(words, width)
    return replace(strip, extra=max(0.0, room - strip.height - _AIR))
