"""Measures and breaks text in the bundled fonts.

Every sign is drawn from an embedded font: Lato, else one of `FALLBACKS`, else the replacement sign, so
that nothing a customer is called ever vanishes from the paper. Hebrew and Arabic are drawn in the order of
the Unicode bidirectional algorithm (UAX 9), worked out by python-bidi; the joining shapes of Arabic letters
come from arabic-reshaper. Both are imported only for a text that needs them.
"""

from __future__ import annotations

import re
import unicodedata
from bisect import bisect_right
from collections.abc import Iterator
from functools import cache, lru_cache
from itertools import groupby
from typing import TYPE_CHECKING

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from core.model import resource_files

if TYPE_CHECKING:
    from core.papers.typesetting.paper_tokens import Style

FALLBACKS = ("DejaVuSans", "Lohit-Devanagari", "DroidSansFallback")
"""Tried in this order for a sign that Lato lacks; each is read when such a sign is met. The last holds
Chinese, Japanese and Korean."""
_SHAPED = frozenset({"Lohit-Devanagari"})
"""Scripts whose letters change place and join: HarfBuzz says how."""
_FILES = {
    "Lato": "Lato-Regular.ttf",
    "Lato-Medium": "Lato-Medium.ttf",
    "Lato-Bold": "Lato-Bold.ttf",
    "DejaVuSans": "DejaVuSans.ttf",
    "Lohit-Devanagari": "Lohit-Devanagari.ttf",
    "DroidSansFallback": "DroidSansFallback.ttf",
}
_UNKNOWN = "\N{REPLACEMENT CHARACTER}"

_MARKS = "[\u0591-\u05bd\u05bf\u05c1\u05c2\u05c4\u05c5\u05c7\u0610-\u061a\u064b-\u065f\u0670]"
"""Combining marks of Hebrew and Arabic."""
_BRACKETS = re.compile("[()\\[\\]{}<>«»]")
_LEFT_TO_RIGHT, _RIGHT_TO_LEFT = "\u200e", "\u200f"
_MARKED = re.compile(f"({_MARKS}+)(.)")


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


def ended(text: str, style: Style, width: float) -> str:
    """``text`` with an ellipsis, as many of its last words left out as that takes; a single word is cut."""
    words = text.split(" ")
    while len(words) > 1 and measured(" ".join((*words, "…")), style) > width:
        words.pop()
    whole = " ".join((*words, "…"))
    return whole if measured(whole, style) <= width else shortened(words[0] + " …", style, width)


def measured(text: str, style: Style) -> float:
    """Width in points of one line."""
    return _ems(text, style.face) * style.size


def runs(text: str, style: Style) -> Iterator[tuple[str, str]]:
    """Font and text of each stretch, in the order in which they are drawn."""
    for face, signs in _runs(text, style.face):
        yield ready(face), shaped(face, signs, style.size)


def shaped(face: str, signs: str, size: float) -> str:
    """The signs of one font as they are drawn: their glyphs in place, where the script asks for it."""
    if face not in _SHAPED:
        return signs
    from reportlab.pdfbase.ttfonts import shapeStr

    placed: str = shapeStr(signs, ready(face), size, force=True)
    return placed


def drawn(text: str) -> str:
    """``text`` as its glyphs follow each other from left to right, Arabic letters in their joining shapes."""
    if text.isascii() or not any(unicodedata.bidirectional(sign) in ("R", "AL") for sign in text):
        return text
    from arabic_reshaper import ArabicReshaper
    from bidi.algorithm import get_base_level, get_display

    # Ligatures of several letters are left out: few fonts have them.
    shaped = ArabicReshaper({"delete_harakat": False, "support_ligatures": False}).reshape(text)
    # Brackets stand with the line, so that both of a pair face the same way (rule N0, simplified).
    mark = _RIGHT_TO_LEFT if get_base_level(shaped) else _LEFT_TO_RIGHT
    ordered = str(get_display(_BRACKETS.sub(rf"{mark}\g<0>{mark}", shaped))).replace(mark, "")
    # Rule L3: a mark is drawn after the letter it belongs to, also where the line runs to the left.
    return _MARKED.sub(_letter_first, ordered)


def _letter_first(found: re.Match[str]) -> str:
    return found[2] + found[1][::-1]


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
    return sign if any(_has(face, sign) for face in ("Lato", *FALLBACKS)) else _UNKNOWN


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
    return next((each for each in (face, *FALLBACKS) if _has(each, sign)), FALLBACKS[0])


@lru_cache(maxsize=8192)
def _ems(text: str, face: str) -> float:
    """Width of a line in units of the type's size."""
    return sum(_run_ems(own, signs) for own, signs in _runs(text, face))


def _runs(text: str, face: str) -> Iterator[tuple[str, str]]:
    """Each stretch of one font; marks and joiners stay with the letters before them."""
    for own, signs in groupby(drawn(text), key=lambda sign: _face_of(sign, face)):
        yield own, "".join(signs)


def _run_ems(face: str, signs: str) -> float:
    if face not in _SHAPED:
        return sum(_advance(sign, face) for sign in signs)
    drawn_as = getattr(shaped(face, signs, 1.0), "__shapeData__", ())
    return float(sum(each.x_advance for each in drawn_as)) / 1000


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
    if face in _SHAPED:
        _name_glyphs(font)
    return font


def _name_glyphs(font: TTFont) -> None:
    """Gives each glyph without a sign of its own a private one, in the order of the font.

    Else the library gives them in the order they are met, and a paper depends on those made before it.
    """
    shaper = font.hbFont()
    for glyph in range(font.hbFace.glyph_count):
        if glyph not in font.face.glyphToChar:
            font.hbAddPrivate(shaper.glyph_to_string(glyph), glyph, shaper.get_glyph_h_advance(glyph))
