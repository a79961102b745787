"""The sheet and the pen: one page measured downwards from its top left corner, in points."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from reportlab.lib.colors import HexColor
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from core.papers.typesetting import lettering
from core.papers.typesetting.paper_tokens import INK, STAMP, UNIT, Style

Point = tuple[float, float]
Rectangle = tuple[float, float, float, float]
"""Left, top, width, height."""

_PALE = 0.13
"""Of the ink of a stamp: what is printed below stays legible, bars and codes included."""
_SLANT = 30
"""Degrees."""
_STAMPS_APART = 64
"""Points from line to line; less than the height of two stickers."""


@dataclass(frozen=True, slots=True)
class About:
    """What the file says of itself."""

    title: str
    author: str
    language: str
    stamp: str = ""
    """Words across every page, for papers that are not to be taken for real ones."""


class Book:
    """A PDF in the making. The same calls give the same bytes: no clock, no random identity."""

    def __init__(self, size: tuple[float, float], about: About) -> None:
        self.width, self.height = size
        self._stamp = about.stamp
        self._bytes = io.BytesIO()
        # The initial font must be an embedded one, or every file names an unembedded Helvetica.
        self._canvas = Canvas(
            self._bytes,
            pagesize=size,
            invariant=1,
            lang=about.language,
            initialFontName=lettering.ready("Lato"),
        )
        self._canvas.setTitle(about.title)
        self._canvas.setAuthor(about.author)
        self._canvas.setSubject(about.title)
        self._canvas.setCreator("Tapewright")
        self._canvas.setViewerPreference("DisplayDocTitle", "true")
        self._canvas.setViewerPreference("PrintScaling", "None")
        self.pen = Pen(self._canvas, self.height)

    def turn_over(self) -> None:
        """Ends the page; the next mark is on a new one."""
        if self._stamp:
            self.pen.stamp(self._stamp, self.width)
        self._canvas.showPage()

    def closed(self) -> bytes:
        """The finished file."""
        self._canvas.save()
        return self._bytes.getvalue()


class Pen:
    """Draws on the page that is open."""

    def __init__(self, canvas: Any, height: float) -> None:
        self.canvas = canvas
        self.height = height

    def text(self, x: float, top: float, line: str, style: Style) -> None:
        """One line whose leading starts at ``top``; its capitals stand in the middle of the leading."""
        written = self.canvas.beginText(x, self.up(top + style.leading / 2 + style.size * 0.36))
        written.setFillColor(_paint(style.colour))
        for face, signs in lettering.runs(line, style):
            written.setFont(face, style.size)
            written.textOut(signs)
        self.canvas.drawText(written)

    def rule(self, x: float, y: float, width: float, colour: str, *, dashed: bool = False) -> None:
        """A hairline."""
        self.canvas.saveState()
        self.canvas.setStrokeColor(_paint(colour))
        self.canvas.setLineWidth(0.75)
        if dashed:
            self.canvas.setDash(4, 4)
        self.canvas.line(x, self.up(y), x + width, self.up(y))
        self.canvas.restoreState()

    def box(
        self, box: Rectangle, *, fill: str | None = None, line: str | None = None, round_by: float = 0
    ) -> None:
        """A rectangle, filled, outlined or both."""
        x, y, width, height = box
        self.canvas.saveState()
        self.canvas.setLineWidth(0.75)
        if fill:
            self.canvas.setFillColor(_paint(fill))
        if line:
            self.canvas.setStrokeColor(_paint(line))
        bottom = self.up(y + height)
        self.canvas.roundRect(
            x, bottom, width, height, round_by, stroke=int(bool(line)), fill=int(bool(fill))
        )
        self.canvas.restoreState()

    def dot(self, centre: Point, radius: float, colour: str, *, filled: bool = True) -> None:
        """A disc, or a ring of the same size."""
        self.canvas.saveState()
        self.canvas.setFillColor(_paint(colour))
        self.canvas.setStrokeColor(_paint(colour))
        self.canvas.setLineWidth(0.9)
        inset = 0 if filled else 0.45
        x, y = centre[0], self.up(centre[1])
        self.canvas.circle(x, y, radius - inset, stroke=int(not filled), fill=int(filled))
        self.canvas.restoreState()

    def polygons(
        self, shapes: Sequence[Sequence[Point]], fill: str, *, within: Rectangle | None = None
    ) -> None:
        """Closed shapes filled as one path, cut off at the edges of ``within``."""
        self.canvas.saveState()
        if within:
            self._clip(within)
        self.canvas.setFillColor(_paint(fill))
        self.canvas.drawPath(self._path(shapes, close=True), stroke=0, fill=1)
        self.canvas.restoreState()

    def lines(self, strokes: Sequence[Sequence[Point]], width: float, *, colour: str = INK) -> None:
        """Open strokes of a round pen, one path each."""
        self.canvas.saveState()
        self.canvas.setStrokeColor(_paint(colour))
        self.canvas.setLineWidth(width)
        self.canvas.setLineCap(1)
        self.canvas.setLineJoin(1)
        for stroke in strokes:
            self.canvas.drawPath(self._path([stroke], close=False), stroke=1, fill=0)
        self.canvas.restoreState()

    def picture(self, content: bytes, box: Rectangle) -> None:
        """A PNG or JPEG, clear where it is clear, drawn over the whole of ``box``."""
        x, y, width, height = box
        image = ImageReader(io.BytesIO(content))
        self.canvas.drawImage(image, x, self.up(y + height), width, height, mask="auto")

    def stamp(self, words: str, width: float) -> None:
        """``words`` at the head of the page, and pale all over it, so that every part of it tells them."""
        wide = lettering.measured(words, STAMP)
        self.text((width - wide) / 2, UNIT, words, STAMP)
        self.canvas.saveState()
        self.canvas.setFillColor(_paint(STAMP.colour))
        self.canvas.setFillAlpha(_PALE)
        self.canvas.rotate(_SLANT)
        for row, y in enumerate(range(-round(width / 2), round(self.height), _STAMPS_APART)):
            x = -wide * (row % 2) / 2
            while x < width + self.height:
                self._slanted(x, y, words)
                x += wide + 3 * UNIT
        self.canvas.restoreState()

    def _slanted(self, x: float, y: float, words: str) -> None:
        written = self.canvas.beginText(x, y)
        for face, signs in lettering.runs(words, STAMP):
            written.setFont(face, STAMP.size)
            written.textOut(signs)
        self.canvas.drawText(written)

    def up(self, y: float) -> float:
        """The PDF's own coordinate, measured from the bottom."""
        return self.height - y

    def _clip(self, box: Rectangle) -> None:
        x, y, width, height = box
        edge = self.canvas.beginPath()
        edge.rect(x, self.up(y + height), width, height)
        self.canvas.clipPath(edge, stroke=0, fill=0)

    def _path(self, shapes: Sequence[Sequence[Point]], *, close: bool) -> Any:
        path = self.canvas.beginPath()
        for first, *rest in shapes:
            path.moveTo(first[0], self.up(first[1]))
            for x, y in rest:
                path.lineTo(x, self.up(y))
            if close:
                path.close()
        return path


@cache
def _paint(colour: str) -> Any:
    """A token as reportlab's colour; parsing it at every mark would cost a tenth of the paper."""
    return HexColor(colour)
