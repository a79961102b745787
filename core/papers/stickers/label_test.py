"""A test print: every label of the sheet with its frame, its number and a code to scan."""

from __future__ import annotations

from core.model.own_shop.settings_records import ShopFront
from core.papers.stickers import label_stock
from core.papers.typesetting import printed_codes
from core.papers.typesetting.binding import Cover, about
from core.papers.typesetting.page import Book
from core.papers.typesetting.paper_tokens import BODY, LINE, STRONG
from core.papers.typesetting.story import TextLine, few_cell
from core.papers.voice import voice

SAMPLE = "TEST"
"""What the code says to a scanner: nothing that any tape is called."""
_FREE = 4.0
"""Points around the code."""


def render(front: ShopFront) -> bytes:
    """One sheet of the shop's labels as a PDF; those that are gone already stay empty."""
    speaker = voice(front)
    grid, size = label_stock.of(front)
    book = Book(size, about(Cover(speaker.say("label-test")), speaker))
    square = grid.height - 2 * _FREE
    for place in range(grid.places):
        row, column = divmod(place, grid.columns)
        x, y = grid.left + column * grid.pitch, grid.top + row * grid.step_down
        book.pen.box((x, y, grid.width, grid.height), line=LINE)
        if place + 1 < label_stock.start(front):
            continue
        printed_codes.draw_qr(book.pen, x + grid.air, y + _FREE, square, SAMPLE)
        left = x + grid.air + square
        room = grid.width - 2 * grid.air - square
        lines = (TextLine(str(place + 1), STRONG), *few_cell(front.name, room, BODY, 2))
        top = y + _FREE
        for line in lines:
            line.draw(book.pen, left, top, room)
            top += line.height
    book.turn_over()
    return book.closed()
