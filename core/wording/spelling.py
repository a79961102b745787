"""British spelling of the American base: one table of words, so that no sentence is written twice.

The pairs are those of common dictionaries (from memory); only words that the wording files use belong here.
"""

from __future__ import annotations

import re

BRITISH_LOCALES = frozenset({"en_GB", "en_IE", "en_AU", "en_NZ"})

_PAIRS = {
    "mold": "mould",
    "moldy": "mouldy",
    "color": "colour",
    "colors": "colours",
    "gray": "grey",
    "labeled": "labelled",
    "labeling": "labelling",
    "canceled": "cancelled",
    "catalog": "catalogue",
    "program": "programme",
    "programs": "programmes",
    "center": "centre",
    "license": "licence",
    "meters": "metres",
    "centimeters": "centimetres",
}
_WORD = r"(?i)\b(" + "|".join(sorted(_PAIRS, key=len, reverse=True)) + r")\b"
"""`re` compiles it when British is first written: the first paint of an American shop does without."""


def british(text: str) -> str:
    """The text as it is spelled in Britain, capitals kept."""
    return re.sub(_WORD, _spelled, text)


def _spelled(word: re.Match[str]) -> str:
    written = _PAIRS[word[0].lower()]
    if word[0].isupper():
        return written.upper()
    return written.capitalize() if word[0][0].isupper() else written
