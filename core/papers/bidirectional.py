"""Puts Hebrew and Arabic into the order and the shapes in which they are drawn.

The order is that of the Unicode bidirectional algorithm (UAX 9), worked out by python-bidi; the joining
shapes of Arabic letters come from arabic-reshaper. Both are imported only for a text that needs them.
"""

from __future__ import annotations

import re
import unicodedata

_MARKS = "[\u0591-\u05bd\u05bf\u05c1\u05c2\u05c4\u05c5\u05c7\u0610-\u061a\u064b-\u065f\u0670]"
"""Combining marks of Hebrew and Arabic."""
_BRACKETS = re.compile("[()\\[\\]{}<>«»]")
_LEFT_TO_RIGHT, _RIGHT_TO_LEFT = "\u200e", "\u200f"
_MARKED = re.compile(f"({_MARKS}+)(.)")


def drawn(text: str) -> str:
    """``text`` as its glyphs follow each other from left to right."""
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
