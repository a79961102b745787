"""The sign of *not for reuse*: a diagonal-banded strip, always with the words. Nothing else uses it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.papers.typesetting import lettering
from core.papers.typesetting.paper_tokens import BAND, INK, STRONG, Style

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen, Point, Rectangle

HEIGHT = 18.0
_STRIPE = 7.0
"""Width of one stripe along the strip, points."""
_AIR = 6.0


@dataclass(frozen=True, slots=True)
class PrintedBand:
    """A strip that fills the width it is given; ``words`` may take several lines."""

    words: tuple[str, ...]
    style: Style = STRONG
    extra: float = 0
    """Height beyond what the words need."""

    @property
    def height(self) -> float:
        return HEIGHT + (len(self.words) - 1) * self.style.leading + self.extra

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        box = (x, y, width, self.height)
        pen.box(box, fill=BAND)
        # Beside the words only: stripes under a plate would shine through at its edges.
        side = (width - max(lettering.measured(line, self.style) for line in self.words)) / 2 - _AIR
        for left in (x, x + width - side):
            part = (left, y, side, self.height)
            pen.polygons(_stripes(part, x), INK, within=part)
        self._draw_words(pen, box)

    def _draw_words(self, pen: Pen, box: Rectangle) -> None:
        x, y, width, height = box
        top = y + (height - len(self.words) * self.style.leading) / 2
        for index, line in enumerate(self.words):
            left = x + (width - lettering.measured(line, self.style)) / 2
            pen.text(left, top + index * self.style.leading, line, self.style)


def band(words: str, width: float, style: Style = STRONG) -> PrintedBand:
    """The strip for a place of ``width`` points; words that would not fit are broken, never cut."""
    return PrintedBand(lettering.wrapped(words, style, width - 2 * _AIR), style)


def _stripes(part: Rectangle, origin: float) -> Sequence[Sequence[Point]]:
    """Slanting parallelograms over ``part`` and beyond its ends, to be clipped; in step from ``origin``."""
    x, y, width, height = part
    step = 2 * _STRIPE
    first = int((x - height - _STRIPE - origin) // step)
    last = int((x + width - origin) // step)
    return [
        ((left, y + height), (left + height, y), (left + height + _STRIPE, y), (left + _STRIPE, y + height))
        for left in (origin + index * step for index in range(first, last + 1))
    ]
