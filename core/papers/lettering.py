"""Measures and breaks text in the bundled fonts.

Every sign is drawn from an embedded font: Lato, else DejaVu Sans, else the replacement sign, so
that nothing a customer is called ever vanishes from the paper.
"""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from collections.abc import Iterator
from functools import cache, lru_cache
from itertools import groupby

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from core.model import resource_files
from core.papers.bidirectional import drawn
from core.papers.paper_tokens import Style

FALLBACK = "DejaVuSans"
_FILES = {
    "Lato": "Lato-Regular.ttf",
    "Lato-Medium": "Lato-Medium.ttf",
    "Lato-Bold": "Lato-Bold.ttf",
    FALLBACK: "DejaVuSans.ttf",
}
_UNKNOWN = "\N{REPLACEMENT CHARACTER}"


def wrapped(text: str, style: Style, width: float) -> tuple[str, ...]:
    """``text`` in lines no wider than ``width`` points; a word that is too long is broken."""
    lines: list[list[str]] = [[]]
    room = width
    for word in _pieces(cleaned(text), style, width):
        wide = measured(word, style)
        if lines[-1] and wide + measured(" ", style) > room:
            lines.append([])
            room = width
        room -= wide + (measured(" ", style) if lines[-1] else 0)
        lines[-1].append(word)
    return tuple(" ".join(line) for line in lines)


def balanced(text: str, style: Style, width: float) -> tuple[str, ...]:
    """`wrapped` into no more lines, but of lengths as even as they can be: no single word left over."""
    lines = wrapped(text, style, width)
    narrower = width
    while len(lines) > 1 and len(fewer := wrapped(text, style, narrower)) == len(lines):
        lines, narrower = fewer, narrower * 0.96
    return lines


def shortened(text: str, style: Style, width: float) -> str:
    """``text`` on one line; what does not fit is replaced by an ellipsis (for small labels only)."""
    text = cleaned(text)
    if measured(text, style) <= width:
        return text
    fits = bisect_right(range(len(text)), width, key=lambda end: measured(text[:end] + "…", style)) - 1
    return text[: max(fits, 0)].rstrip() + "…"


def measured(text: str, style: Style) -> float:
    """Width in points of one line."""
    return _ems(text, style.face) * style.size


def runs(text: str, style: Style) -> Iterator[tuple[str, str]]:
    """Font and text of each stretch, in the order in which they are drawn."""
    for face, signs in groupby(drawn(text), key=lambda sign: _face_of(sign, style.face)):
        yield face, "".join(signs)


def ready(face: str) -> str:
    """The name of ``face`` once reportlab knows it."""
    _font(face)
    return face


@lru_cache(maxsize=4096)
def cleaned(text: str) -> str:
    """One line of signs that can all be drawn: white space is single, unknown signs are replaced."""
    spaced = " ".join(unicodedata.normalize("NFC", text).split(" ")).split()
    return "".join(_drawable(sign) for sign in " ".join(spaced))


def _drawable(sign: str) -> str:
    if unicodedata.category(sign) in ("Cc", "Cf") or 0xFE00 <= ord(sign) <= 0xFE0F:
        return ""
    return sign if _has("Lato", sign) or _has(FALLBACK, sign) else _UNKNOWN


def _pieces(text: str, style: Style, width: float) -> Iterator[str]:
    """The words of a line, those wider than ``width`` in parts that fit."""
    for word in text.split(" "):
        part = ""
        for sign in word if measured(word, style) > width else ():
            if part and measured(part + sign, style) > width:
                yield part
                part = ""
            part += sign
        yield part or word


def _face_of(sign: str, face: str) -> str:
    return face if _has(face, sign) else ready(FALLBACK)


@lru_cache(maxsize=8192)
def _ems(text: str, face: str) -> float:
    """Width of a line in units of the type's size."""
    return sum(_advance(sign, face) for sign in drawn(text))


@lru_cache(maxsize=4096)
def _advance(sign: str, face: str) -> float:
    widths = _font(_face_of(sign, face)).face.charWidths
    return float(widths.get(ord(sign), 500)) / 1000


def _has(face: str, sign: str) -> bool:
    return ord(sign) in _font(face).face.charToGlyph


@cache
def _font(face: str) -> TTFont:
    font = TTFont(face, str(resource_files.path("fonts", _FILES[face])))
    pdfmetrics.registerFont(font)
    return font
