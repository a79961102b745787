"""Codes a scanner or a phone reads: Code 128 (ISO/IEC 15417) and QR (ISO/IEC 18004).

Bars and modules are filled shapes, so they stay sharp at any printer resolution.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import segno
from reportlab.graphics.barcode.code128 import Code128

from core.papers.typesetting.paper_tokens import INK, MM

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen, Point

NARROW_BAR = 0.25 * MM
"""The narrowest bar; read back without a miss at 203 and 300 dpi, as label and office printers print."""

QUIET = 10 * NARROW_BAR
"""White space a scanner needs on both sides of Code 128 (ISO/IEC 15417: ten narrow bars)."""


def draw_bars(pen: Pen, x: float, y: float, height: float, text: str, narrow: float = NARROW_BAR) -> float:
    """Code 128 with its first bar at ``x``; returns its width. The caller leaves `QUIET` on both sides."""
    code = _bars(text, narrow, height)
    pen.canvas.saveState()
    pen.canvas.setFillColor(INK)
    code.drawOn(pen.canvas, x, pen.up(y + height))
    pen.canvas.restoreState()
    return float(code.width)


def bars_width(text: str, narrow: float = NARROW_BAR) -> float:
    """Width of the bars in points, without the quiet zones."""
    return float(_bars(text, narrow, 1).width)


def draw_qr(pen: Pen, x: float, y: float, size: float, text: str) -> None:
    """A QR code in a square of ``size`` points, the quiet zone of four modules included."""
    rows = _matrix(text)
    module = size / (len(rows) + 8)
    shapes = [
        _rectangle(x + (4 + start) * module, y + (4 + line) * module, length * module, module)
        for line, row in enumerate(rows)
        for start, length in _dark(row)
    ]
    pen.polygons(shapes, INK)


def _bars(text: str, narrow: float, height: float) -> Code128:
    return Code128(
        text, barWidth=narrow, barHeight=height, quiet=False, humanReadable=False, barFillColor=INK
    )


@lru_cache(maxsize=512)
def _matrix(text: str) -> tuple[bytes, ...]:
    """Rows of modules, 1 is dark. Level M restores 15 % of the code.

    Remembered, because the tapes of a box stand on two papers; the largest has 500.
    """
    return tuple(bytes(row) for row in segno.make(text, error="m", micro=False).matrix)


def _dark(row: bytes) -> list[tuple[int, int]]:
    """Start and length of the dark stretches of a row."""
    found: list[tuple[int, int]] = []
    for index, module in enumerate(row):
        if module and index and row[index - 1]:
            start, length = found[-1]
            found[-1] = (start, length + 1)
        elif module:
            found.append((index, 1))
    return found


def _rectangle(x: float, y: float, width: float, height: float) -> tuple[Point, ...]:
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))
