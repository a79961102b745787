"""The job sheet: each tape of an order with its bars, what was found, what to do, and lines to write on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.model.job_records import Job
from core.model.own_shop.settings_records import ShopFront
from core.model.tape_records import TapeRecord
from core.papers.tape_words import draft_name, expected, short_code
from core.papers.typesetting import lettering, printed_codes
from core.papers.typesetting.binding import Cover, bound, fitted, story
from core.papers.typesetting.not_for_reuse_band import band
from core.papers.typesetting.paper_tokens import (
    BODY,
    HUGE,
    MM,
    MUTED,
    QUIET,
    STRONG,
    TITLE,
    UNIT,
)
from core.papers.typesetting.story import (
    GUTTER,
    Cell,
    Gap,
    PaperTable,
    Story,
    TableColumn,
    TextLine,
    table_row,
    text_cell,
)
from core.papers.voice import Voice, voice

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

_QR = 24 * MM
_BARS = 8 * MM
_WRITE = 2.25 * UNIT
_ON_A_PAGE = 8


@dataclass(frozen=True, slots=True)
class TapeBars:
    """The code of a tape as Code 128, with its quiet zone at the left."""

    code: str
    height: float = _BARS

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        printed_codes.draw_bars(pen, x + printed_codes.QUIET, y, self.height, self.code)


@dataclass(frozen=True, slots=True)
class OrderCode:
    """The number of the order as a QR code at the right."""

    number: str
    height: float = _QR

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        printed_codes.draw_qr(pen, x + width - _QR, y, _QR, self.number)


@dataclass(frozen=True, slots=True)
class WriteLine:
    """A line to write on by hand, behind a few words."""

    words: str
    wide: float
    """What the words take, in points."""
    height: float = _WRITE

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        pen.text(x, y + self.height - QUIET.leading, self.words, QUIET)
        pen.rule(x + self.wide, y + self.height - 2, width - self.wide, MUTED)


def render(job: Job, front: ShopFront, *, paper: str | None = None) -> bytes:
    """The sheet as a PDF on ``a4`` or ``letter``; a tape is never torn over two pages."""
    speaker = voice(front)
    pages = -(-len(job.tapes) // _ON_A_PAGE)
    told = fitted(lambda margin: _told(job, speaker, paper, margin), pages, speaker, paper)
    return bound(told, Cover(speaker.say("bench-title"), job.number), speaker, paper)


def _told(job: Job, speaker: Voice, paper: str | None, margin: float) -> Story:
    told = story(speaker, paper, short=True, margin=margin)
    _tell_order(told, job, speaker)
    _tell_cautions(told, job.tapes, speaker)
    _tell_tapes(told, job.tapes, speaker)
    return told


def _tell_order(told: Story, job: Job, speaker: Voice) -> None:
    """Number, whose it is, the day it is promised for, and what is to be made of it."""
    widths = (told.width - _QR - GUTTER, _QR)
    cell: Cell = (TextLine(speaker.say("bench-title"), QUIET), TextLine(job.number, HUGE))
    cell += text_cell(job.customer.name, widths[0], TITLE)
    due = speaker.say("slip-stub_ready", day=speaker.promised(job.promise)) if job.promise.day else ""
    first = [speaker.things("slip-tapes", [tape.format for tape in job.tapes], n=len(job.tapes)), due]
    first += [speaker.say("slip-rush")] if job.rush else []
    cell += text_cell(" · ".join(filter(None, first)), widths[0], STRONG)
    copies = [
        speaker.say("quote-copy", count=speaker.length_range(copy.count), words=copy.words)
        for copy in job.quote.storage.copies
    ]
    if copies:
        cell += text_cell(speaker.say("bench-copies", copies=", ".join(copies)), widths[0])
    told.beside((cell, (OrderCode(job.number),)), widths, before=UNIT)


def _tell_cautions(told: Story, tapes: Sequence[TapeRecord], speaker: Voice) -> None:
    """Each hazard once, over the work it may hurt at, with the tapes it is met on."""
    met: dict[str, list[str]] = {}
    for tape in tapes:
        for caution in tape.verdict.cautions:
            met.setdefault(caution, []).append(short_code(tape))
    together: dict[tuple[str, ...], list[str]] = {}
    for caution, codes in met.items():
        together.setdefault(tuple(codes), []).append(caution)
    if not together:
        return
    (width,) = told.panel_widths(1)
    cell = text_cell(speaker.say("bench-cautions"), width, STRONG)
    for about, cautions in together.items():
        named = speaker.say("bench-all") if len(about) == len(tapes) else " · ".join(about)
        said = speaker.say("bench-caution", tapes=named, caution=" ".join(cautions))
        cell += (Gap(UNIT / 4), *text_cell(said, width))
    told.panel((cell,), (width,), before=UNIT, air=UNIT)


def _tell_tapes(told: Story, tapes: Sequence[TapeRecord], speaker: Voice) -> None:
    bars = max((printed_codes.bars_width(tape.code) for tape in tapes), default=0.0)
    columns = (
        TableColumn(speaker.say("receipt-code"), bars + 2 * printed_codes.QUIET),
        TableColumn(speaker.say("bench-to_do")),
        TableColumn(speaker.say("bench-found"), 176),
    )
    table = PaperTable(columns, told.width)
    told.table(table, ())
    for tape in tapes:
        told.rows(table, (table_row(table, _cells(table, tape, speaker)),))


def _cells(table: PaperTable, tape: TapeRecord, speaker: Voice) -> tuple[Cell, ...]:
    code: Cell = (Gap(UNIT / 4), TapeBars(tape.code), *table.cell(0, (short_code(tape), STRONG)))
    what = table.cell(
        1,
        (" · ".join(filter(None, (draft_name(tape.draft, speaker), tape.label))), STRONG),
        (expected(tape.draft, tape.verdict, speaker), BODY),
        (tape.note, QUIET),
    )
    if tape.not_for_reuse:
        what += (Gap(UNIT / 4), band(speaker.say("band-short"), table.widths[1]))
    written = [speaker.say(f"bench-write_{name}") for name in ("played", "found", "by")]
    return code, what, tuple(WriteLine(words, _wide(words)) for words in written)


def _wide(words: str) -> float:
    return lettering.measured(words, QUIET) + UNIT / 2
