"""Binds a story into a PDF: the shop's head on the first page, a short head on the others, page numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from core.papers.typesetting import letterhead, lettering
from core.papers.typesetting.page import About, Book, Pen
from core.papers.typesetting.paper_tokens import BODY, LINE, MARGIN, NARROW, QUIET, UNIT, sheet
from core.papers.typesetting.story import Block, PageRow, Story, TextLine
from core.papers.voice import Voice

_RUNNING = 2 * UNIT
"""How far the short head of later pages, and the page number, stand out into the margin."""


_TIGHTENED = 4
"""How often a paper may be set tighter; each time takes a third of its air."""


@dataclass(frozen=True, slots=True)
class Cover:
    """What every page says: whose paper, which paper, of which job."""

    title: str
    subject: str = ""
    """Job number or day, beside the title of later pages."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A row and the distance of its top from the top of the page."""

    row: PageRow
    top: float


def story(voice: Voice, paper: str | None, *, short: bool = False, margin: float = MARGIN) -> Story:
    """An empty story that begins with the head of the shop's paper; ``short``: in few lines."""
    size = sheet(paper or voice.front.paper, voice.front.currency)
    begun = Story(size[0] - 2 * margin, margin)
    head = letterhead.short_blocks if short else letterhead.blocks
    begun.pieces.extend(head(voice, begun.width))
    return begun


def bound(told: Story, cover: Cover, voice: Voice, paper: str | None) -> bytes:
    """The PDF of a story. The same story gives the same bytes."""
    size = sheet(paper or voice.front.paper, voice.front.currency)
    _close(told, voice)
    book = Book(size, about(cover, voice))
    pages = _pages(told, size[1])
    for number, rows in enumerate(pages, start=1):
        if number > 1:
            _draw_running_head(book.pen, told, cover, voice)
        _draw_page(book.pen, rows, told.margin)
        if len(pages) > 1:
            _draw_foot(book, told.margin, voice.say("page_of", page=number, pages=len(pages)))
        book.turn_over()
    return book.closed()


def page_count(told: Story, voice: Voice, paper: str | None) -> int:
    """How many pages `bound` would make of a story."""
    size = sheet(paper or voice.front.paper, voice.front.currency)
    whole = Story(told.width, told.margin)
    whole.pieces = list(told.pieces)
    _close(whole, voice)
    return len(_pages(whole, size[1]))


def _close(told: Story, voice: Voice) -> None:
    """The shop's own last sentence, never alone on a page."""
    if voice.front.closing:
        told.keep_last()
        told.say(voice.front.closing, QUIET, before=UNIT)


def fitted(tell: Callable[[float], Story], wanted: int, voice: Voice, paper: str | None) -> Story:
    """What ``tell`` tells for a margin, set ever tighter until it takes no more than ``wanted`` pages.

    What takes more even at its tightest is set with most of its air: it needs the pages anyhow.
    """
    for margin in (MARGIN, NARROW):
        told = tell(margin)
        for _ in range(_TIGHTENED):
            if page_count(told, voice, paper) <= wanted:
                return told
            told.tighten()
        if page_count(told, voice, paper) <= wanted:
            return told
    told = tell(MARGIN)
    told.tighten()
    return told


def about(cover: Cover, voice: Voice) -> About:
    """What the file says of itself."""
    title = f"{cover.title} {cover.subject}".strip()
    stamp = voice.say("practice") if voice.front.practice else ""
    return About(lettering.cleaned(title), lettering.cleaned(voice.front.name), voice.front.language, stamp)


def _pages(told: Story, height: float) -> list[list[Placed]]:
    return arranged(told.pieces, told.margin, told.margin + UNIT, height - told.margin)


def _draw_page(pen: Pen, rows: list[Placed], margin: float) -> None:
    for placed in rows:
        placed.row.draw(pen, margin, placed.top)


def _draw_running_head(pen: Pen, told: Story, cover: Cover, voice: Voice) -> None:
    right = f"{cover.title} {cover.subject}".strip()
    left, width, top = told.margin, told.width, told.margin - _RUNNING
    name = lettering.shortened(voice.front.name, QUIET, width / 2 - UNIT)
    TextLine(name, QUIET).draw(pen, left, top, width)
    TextLine(lettering.shortened(right, QUIET, width / 2), QUIET, "right").draw(pen, left, top, width)
    pen.rule(left, top + BODY.leading + UNIT / 4, width, LINE)


def _draw_foot(book: Book, margin: float, text: str) -> None:
    width = book.width - 2 * margin
    TextLine(text, QUIET, "right").draw(book.pen, margin, book.height - margin + UNIT / 2, width)


# --- where one page ends and the next begins ------------------------------------------------


def arranged(pieces: Sequence[Block], first: float, later: float, bottom: float) -> list[list[Placed]]:
    """The pieces on pages whose text runs from ``first`` (``later`` on all but the first) to ``bottom``."""
    pages: list[list[Placed]] = [[]]
    y = first
    for index, piece in enumerate(pieces):
        before = piece.before if pages[-1] else 0
        if pages[-1] and (piece.opens_page or y + before + _together(pieces, index, bottom - later) > bottom):
            pages.append([])
            y, before = later, 0
            if piece.heading:
                y = _put(pages, piece.heading, y)
        for part, on_new_page in _parts(piece.row, bottom - y - before, bottom - later):
            if on_new_page:
                pages.append([])
                y, before = later, 0
            y = _put(pages, part, y + before)
            before = 0
    return pages


def _put(pages: list[list[Placed]], row: PageRow, y: float) -> float:
    pages[-1].append(Placed(row, y))
    return y + row.height


def _together(pieces: Sequence[Block], index: int, most: float) -> float:
    """Height of a piece and of those that must stand on the same page, as far as a page can hold them."""
    own = height = pieces[index].row.height
    while pieces[index].with_next and index + 1 < len(pieces):
        index += 1
        height += pieces[index].before + pieces[index].row.height
    return height if height <= most else own


def _parts(row: PageRow, here: float, page: float) -> Iterator[tuple[PageRow, bool]]:
    """The row, cut where a page ends if it is taller than a page; whether each part opens a page."""
    opens = False
    room = here
    while row.height > room and (parts := row.split(room)):
        yield parts[0], opens
        row, room, opens = parts[1], page, True
    yield row, opens
