"""A secret on half a page, to be put away: the code and the letters large, beside what it is for."""

from __future__ import annotations

from dataclasses import dataclass, replace

from core.model.own_shop.settings_records import ShopFront
from core.papers.typesetting import printed_codes
from core.papers.typesetting.binding import Cover, bound, story
from core.papers.typesetting.page import Pen
from core.papers.typesetting.paper_tokens import BODY, LEAD, LINE, MARGIN, QUIET, STRONG, TITLE, UNIT, sheet
from core.papers.typesetting.story import Cell, Gap, Story, gap, text_cell
from core.papers.voice import Voice, voice

_CODE = 112.0
"""Points: a square code of this length is read from a screen's distance."""
_LETTERS = replace(STRONG, size=14, leading=22)
_SMALL = replace(BODY, size=9.5, leading=12.5)
_A_GROUP, _GROUPS = 6, 5
"""Letters of a group, groups of a line: typed without losing one's place."""


@dataclass(frozen=True, slots=True)
class SecretPaper:
    """What stands on it. ``grouped``: spaces may be put in, because whoever reads it leaves them out."""

    title: str
    lead: str
    secret: str
    keep: tuple[str, ...]
    """Why and how to put it away."""
    use: tuple[str, ...]
    lost: str
    """What to do when it is."""
    public: str = ""
    """What may be seen by anybody, small below the letters."""
    grouped: bool = True


@dataclass(frozen=True, slots=True)
class SecretCode:
    """The secret as a QR code."""

    secret: str
    height: float = _CODE

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        printed_codes.draw_qr(pen, x, y, self.height, self.secret)


@dataclass(frozen=True, slots=True)
class FoldLine:
    """A dashed line across the page, where it is cut or folded."""

    height: float = 0.0

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        pen.rule(x - MARGIN / 2, y, width + MARGIN, LINE, dashed=True)


def render(said: SecretPaper, front: ShopFront, paper: str | None) -> bytes:
    """One page as a PDF on ``a4`` or ``letter``; all of it stands on the upper half."""
    speaker = voice(replace(front, closing=""))  # nobody is thanked for a secret
    told = story(speaker, paper)
    told.say(said.title, TITLE, before=UNIT)
    told.say(said.lead, QUIET, before=0)
    widths = told.panel_widths(2, 5)
    told.panel([(SecretCode(said.secret),), _letters(said, widths[1])], widths, before=UNIT)
    sides = told.beside_widths(1, 1)
    heads = (speaker.say("secret-keep"), speaker.say("secret-use"))
    pairs = zip(heads, (said.keep, said.use), sides, strict=True)
    told.beside([_side(head, texts, width) for head, texts, width in pairs], sides)
    told.say(said.lost, _SMALL)
    _fold(told, speaker, paper)
    return bound(told, Cover(said.title), speaker, paper)


def _letters(said: SecretPaper, width: float) -> Cell:
    small = replace(_SMALL, colour=QUIET.colour)
    public = (*gap(), *text_cell(said.public, width, small)) if said.public else ()
    return (*_secret(said, width), *public)


def _secret(said: SecretPaper, width: float) -> Cell:
    if not said.grouped:
        return text_cell(said.secret, width, _LETTERS)
    groups = [said.secret[at : at + _A_GROUP] for at in range(0, len(said.secret), _A_GROUP)]
    lines = [" ".join(groups[at : at + _GROUPS]) for at in range(0, len(groups), _GROUPS)]
    return tuple(each for line in lines for each in text_cell(line, width, _LETTERS))


def _side(head: str, texts: tuple[str, ...], width: float) -> Cell:
    cells = [text_cell(head, width, LEAD)]
    for text in texts:
        cells += [text_cell(text, width, _SMALL), gap(UNIT / 4)]
    return tuple(item for cell in cells for item in cell)


def _fold(told: Story, speaker: Voice, paper: str | None) -> None:
    """The line at half the page; where the text is longer, right below it."""
    half = sheet(paper or speaker.front.paper, speaker.front.currency)[1] / 2 - MARGIN
    filled = sum(piece.before + piece.row.height for piece in told.pieces[1:]) + told.pieces[0].row.height
    told.add((Gap(max(UNIT / 2, half - filled)), FoldLine()), before=0)
    told.say(speaker.say("secret-fold"), QUIET, before=UNIT / 2)
