"""The head of the shop's paper: logo and name, where it is, and the sentence it greets with."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from core.papers.typesetting.paper_tokens import BODY, LEAD, MM, QUIET, UNIT, Style
from core.papers.typesetting.story import Block, Cell, Gap, PageRow, few_cell, text_cell
from core.papers.voice import Voice

if TYPE_CHECKING:
    from core.papers.typesetting.page import Pen

LOGO_HIGH, LOGO_WIDE = 18 * MM, 60 * MM
"""The most room a logo takes."""
_SMALL = 0.6
"""How large the logo of a slip is beside that of a letter."""


@dataclass(frozen=True, slots=True)
class Logo:
    """The shop's picture at its own proportions, within a room."""

    content: bytes
    width: float
    height: float

    def draw(self, pen: Pen, x: float, y: float, width: float) -> None:
        pen.picture(self.content, (x, y, self.width, self.height))


def blocks(voice: Voice, width: float) -> Iterator[Block]:
    """Logo and name at the left, the whereabouts at the right; the greeting below."""
    half = width / 2
    right = tuple(item for line in voice.whereabouts for item in text_cell(line, half, QUIET, align="right"))
    yield Block(
        PageRow((_picture(voice) + text_cell(voice.front.name, half, name_style(voice)), right), (half, half))
    )
    if voice.front.greeting:
        yield Block(PageRow((text_cell(voice.front.greeting, width, BODY),), (width,)), before=UNIT)


def short_blocks(voice: Voice, width: float) -> Iterator[Block]:
    """The same in few lines: the whereabouts below the name, a small logo at the right."""
    logo = small_logo(voice)
    room = width - (logo.width + 2 * UNIT if logo else 0)
    words = text_cell(voice.front.name, room, name_style(voice))
    words += text_cell(" · ".join(voice.whereabouts), room, QUIET)
    if voice.front.greeting:
        words += text_cell(voice.front.greeting, room, BODY)
    cells, widths = ((words, (logo,)), (room, logo.width)) if logo else ((words,), (room,))
    yield Block(PageRow(cells, widths, 2 * UNIT if logo else 0))


def slip_cell(voice: Voice, width: float, most_lines: int) -> Cell:
    """The same on a slip, where name and whereabouts may take only so many lines each, the greeting one."""
    where = " · ".join(voice.whereabouts)
    cell = few_cell(voice.front.name, width, name_style(voice), most_lines)
    cell += few_cell(where, width, QUIET, most_lines)
    if voice.front.greeting:
        cell += few_cell(voice.front.greeting, width, BODY, 1)
    return cell


def name_style(voice: Voice) -> Style:
    """The lettering of the shop's name, in its color."""
    return Style(LEAD.face, LEAD.size, LEAD.leading, voice.accent)


def small_logo(voice: Voice) -> Logo | None:
    """The logo as a slip has it; None without one."""
    return _logo(voice.front.logo, LOGO_WIDE * _SMALL, LOGO_HIGH * _SMALL)


def _picture(voice: Voice) -> Cell:
    logo = _logo(voice.front.logo, LOGO_WIDE, LOGO_HIGH)
    return () if logo is None else (logo, Gap(UNIT / 2))


@lru_cache(maxsize=8)
def _logo(text: str, wide: float, high: float) -> Logo | None:
    """The picture as large as the room lets it be, at its own proportions."""
    if not text:
        return None
    import io

    from reportlab.lib.utils import ImageReader

    content = base64.b64decode(text)
    across, down = ImageReader(io.BytesIO(content)).getSize()
    scale = min(wide / across, high / down)
    return Logo(content, across * scale, down * scale)
