"""How well a text answers what somebody typed, slips of the finger allowed."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

ENOUGH = 0.7
"""Likeness, 0 to 1, from which two words are taken for one: a letter left out, doubled or swapped in five."""
_WORD = re.compile(r"\w+")


def likeness(wanted: str, texts: Iterable[str]) -> float:
    """How well the words of ``wanted`` are found among those of ``texts``, 0 to 1; 0 where one is not found.

    Each word counts as its likest one; the beginning of a word counts as that word.
    """
    asked = words_of(wanted)
    there = sorted({word for text in texts for word in words_of(text)})
    found = [max((_alike(word, each) for each in there), default=0.0) for word in asked]
    if not found or min(found) < ENOUGH:
        return 0.0
    return sum(found) / len(found)


def words_of(text: str) -> list[str]:
    """The words of a text without capitals and accents."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    return _WORD.findall("".join(sign for sign in plain if not unicodedata.combining(sign)))


def _alike(wanted: str, word: str) -> float:
    from rapidfuzz.distance import OSA  # not before somebody searches

    if word.startswith(wanted):
        return 1.0 if word == wanted else 0.97
    if len(wanted) < 3:
        return 0.0
    begun = word[: max(len(wanted), 3)]
    return 0.95 * max(OSA.normalized_similarity(wanted, each) for each in (word, begun))
