"""Who brings the tapes, behind the last semicolon of a line: ``5 vhs, hi8; Ada Fenwick 607 555 0101``."""

from __future__ import annotations

import re

from core.catalogue.box_line.line_items import LONGEST, LineItem, items
from core.catalogue.box_line.line_offers import resembling
from core.catalogue.box_line.line_records import LineCustomer
from core.catalogue.box_line.line_words import Meaning, listed

LEAST_DIGITS = 7
"""Of a phone number: within its area in North America (ITU-T E.164 sets no least)."""
MOST_DIGITS = 15
"""Of an international number (ITU-T E.164)."""
LONGEST_NAME = 80
"""Letters that are taken for a name (an assumption)."""
_PHONE = re.compile(r"[,:]?\s*(?P<phone>\+?\(?\d[\d\s().\-–/]*\d)\s*$")
_OF_TAPES = {Meaning.FORMAT, Meaning.MARKING, Meaning.COUNT, Meaning.QUOTED, Meaning.LABEL, Meaning.SEPARATOR}
_WORD = re.compile(r"[^\W\d_]+")


def behind(text: str) -> LineCustomer | None:
    """The customer named at the end of a line; None where what stands there is said of the tapes."""
    start = text.rfind(";") + 1
    said = text[start:].strip()
    if not start or not said or len(text) > LONGEST:
        return None
    found = _PHONE.search(said)
    is_phone = found is not None and LEAST_DIGITS <= _digits(found["phone"]) <= MOST_DIGITS
    phone = found["phone"] if found is not None and is_phone else ""
    name = " ".join((said[: found.start()] if found is not None and is_phone else said).split())
    if not _may_be_name(name, is_alone=not phone):
        return None
    begin = text.index(said, start)
    return LineCustomer(_capitalized(name), phone, begin, begin + len(said))


def _digits(text: str) -> int:
    return sum(sign.isdecimal() for sign in text)


def _may_be_name(name: str, *, is_alone: bool) -> bool:
    """Whether these words may be those of a person: none beside a number, or some that no line knows."""
    if not name:
        return not is_alone
    found = items(name)
    if len(name) > LONGEST_NAME or any(item.meaning in _OF_TAPES for item in found):
        return False
    return any(_is_strange(name, item) for item in found) if is_alone else True


def _is_strange(name: str, item: LineItem) -> bool:
    """Whether nobody would take a word for one of the tapes, also not one that was mistyped."""
    word = name[item.start : item.end]
    if item.meaning is not Meaning.UNKNOWN or item.meant or not _WORD.search(word):
        return False
    return not resembling(word)


def _capitalized(name: str) -> str:
    """A name typed without any capital gets its own; whoever typed one knows better."""
    if name != name.lower():
        return name
    small = frozenset(listed("name-particles"))
    words = name.split(" ")
    return " ".join(
        word if word in small and word is not words[-1] else _with_capitals(word) for word in words
    )


def _with_capitals(word: str) -> str:
    return _WORD.sub(lambda part: part[0][:1].upper() + part[0][1:], word)
