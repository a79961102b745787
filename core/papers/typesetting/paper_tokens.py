"""Colours, sizes and the grid of every paper: the look in one place."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.model import accents
from core.model.errors import WrongInput
from core.wording.messages import say

INK = "#1F1B16"
MUTED = "#6A6158"
LINE = "#D8CDBB"
GROUND = "#F6F1E7"
TIME = "#1F5A6B"
BAND = "#F2C14E"
"""Only for *not for reuse*; nothing else may use it."""

UNIT = 8.0
"""Points; gaps are whole or half units."""

MARGIN = 7 * UNIT
NARROW = 4.5 * UNIT
"""The margin of a paper that would else take a page more: half an inch, which every printer leaves."""

MM = 72 / 25.4

SIZES = {"a4": (210 * MM, 297 * MM), "letter": (612.0, 792.0)}
"""Width and height in points (ISO 216; ANSI Y14.1 size A)."""

_LETTER_CURRENCIES = frozenset({"USD", "CAD"})
"""Countries whose office printers hold Letter (from memory)."""


@dataclass(frozen=True, slots=True)
class Style:
    """How one line of text looks; sizes in points."""

    face: str
    size: float
    leading: float
    colour: str = INK


BODY = Style("Lato", 10.5, 14)
STRONG = replace(BODY, face="Lato-Bold")
QUIET = replace(BODY, colour=MUTED)
LEAD = Style("Lato-Bold", 13, 18)
TITLE = Style("Lato-Bold", 19, 24)
STAMP = replace(LEAD, colour=accents.of("").light)
HUGE = Style("Lato-Bold", 38, 44)


def usual_paper(currency: str) -> str:
    """The name of the sheet that is usual where ``currency`` is money."""
    return "letter" if currency in _LETTER_CURRENCIES else "a4"


def sheet(paper: str | None, currency: str) -> tuple[float, float]:
    """Width and height of the sheet: as asked, else the one usual where ``currency`` is money."""
    name = paper or usual_paper(currency)
    if name not in SIZES:
        raise WrongInput("paper", name, say("readers", "accepted_3", names=", ".join(SIZES)))
    return SIZES[name]
