"""Names as a search sees them: no accents, no capitals, ``Łucja Núñez`` as ``lucja nunez``."""

from __future__ import annotations

import unicodedata

_WITHOUT_STROKES = str.maketrans(
    {"ł": "l", "ø": "o", "đ": "d", "ħ": "h", "ŧ": "t", "ı": "i", "æ": "ae", "œ": "oe", "þ": "th", "ð": "d"}
)
"""Letters that Unicode does not take apart into a letter and a mark."""


def folded(text: str) -> str:
    """``text`` without accents, case and doubled spaces."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(character for character in apart if not unicodedata.combining(character))
    return " ".join(bare.translate(_WITHOUT_STROKES).split())


def digits(text: str) -> str:
    """The digits of ``text`` in ASCII, whatever script they are written in."""
    return "".join(str(unicodedata.decimal(character)) for character in text if character.isdecimal())
