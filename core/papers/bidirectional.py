"""Puts Hebrew and Arabic into the order and the shapes in which they are drawn.

A small part of the Unicode bidirectional algorithm (UAX 9) that is enough for names and labels on
one line: no embeddings, no explicit marks. The joining shapes of Arabic come from the
decompositions in the Unicode character database (blocks FB50 to FEFC).
"""

from __future__ import annotations

import unicodedata
from functools import cache
from itertools import groupby

_BRACKETS = "()[]{}<>«»"
_MIRRORED = str.maketrans(_BRACKETS, ")(][}{><»«")


def drawn(text: str) -> str:
    """``text`` as its glyphs follow each other from left to right."""
    if text.isascii() or not any(unicodedata.bidirectional(sign) in ("R", "AL") for sign in text):
        return text
    shaped = _joined(text)
    sides = _sides(shaped)
    base = next(side for side in sides if side)
    # Brackets stand with the line, so that both of a pair face the same way (rule N0, simplified).
    sides = [base if sign in _BRACKETS else side for side, sign in zip(sides, shaped, strict=True)]
    runs = [
        (side, "".join(sign for _, sign in run))
        for side, run in groupby(zip(_settled(sides, base), shaped, strict=True), key=lambda pair: pair[0])
    ]
    turned = [_turned(run) if side == "R" else run for side, run in runs]
    return "".join(reversed(turned) if base == "R" else turned)


def _turned(run: str) -> str:
    """Backwards with brackets mirrored; marks stay behind the sign they belong to."""
    clusters: list[str] = []
    for sign in run:
        if clusters and unicodedata.combining(sign):
            clusters[-1] += sign
        else:
            clusters.append(sign)
    return "".join(reversed(clusters)).translate(_MIRRORED)


def _sides(text: str) -> list[str]:
    """``L``, ``R`` or nothing for a sign that leans on its neighbours. Digits read left to right."""
    kinds = {"L": "L", "EN": "L", "AN": "L", "R": "R", "AL": "R"}
    return [kinds.get(unicodedata.bidirectional(sign), "") for sign in text]


def _settled(sides: list[str], base: str) -> list[str]:
    """Neutral signs take the side of both neighbours when these agree, else the base side."""
    settled = list(sides)
    for index, side in enumerate(sides):
        if not side:
            before = settled[index - 1] if index else base
            after = next((later for later in sides[index:] if later), base)
            settled[index] = before if before == after else base
    return settled


def _joined(text: str) -> str:
    """Arabic letters in the shape their neighbours ask for."""
    return "".join(
        _shape(sign, text[index - 1] if index else "", text[index + 1 : index + 2])
        for index, sign in enumerate(text)
    )


def _shape(sign: str, before: str, after: str) -> str:
    shapes = _shapes().get(sign)
    if shapes is None:
        return sign
    linked_before = "initial" in _shapes().get(before, {})
    linked_after = "initial" in shapes and "final" in _shapes().get(after, {})
    wanted = {(False, False): "isolated", (False, True): "initial", (True, False): "final"}
    return shapes.get(wanted.get((linked_before, linked_after), "medial"), sign)


@cache
def _shapes() -> dict[str, dict[str, str]]:
    """Letter -> shape name -> presentation form, for the letters that have single-letter forms."""
    found: dict[str, dict[str, str]] = {}
    for point in range(0xFB50, 0xFEFD):
        parts = unicodedata.decomposition(chr(point)).split()
        if len(parts) == 2 and parts[0].startswith("<"):
            found.setdefault(chr(int(parts[1], 16)), {})[parts[0].strip("<>")] = chr(point)
    return found
