"""What is to be read, before it has a place: paragraphs in blocks, with what is drawn beside or below."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from core.model.names import FormatName
from gui.toolkit import sizes


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Words in one type; ``amount`` stands at the right of the first line."""

    words: str
    size: float = sizes.BODY
    """In points, before the scale of the page."""
    ink: str = "ink"
    bold: bool = False
    amount: str = ""
    is_whole: bool = False
    """One line whatever its length: the type shrinks until it fits."""
    is_reason: bool = False
    """May be left out where room is short: it explains a line that stands anyway."""
    is_centered: bool = False


@dataclass(frozen=True, slots=True)
class TextBlock:
    """Paragraphs that stay together; the shell is drawn at their left, the band below them."""

    paragraphs: tuple[Paragraph, ...]
    shell: FormatName | None = None
    band: str = ""
    """The words on the not-for-reuse strip; nothing: there is none."""
    before: float = 0.75
    """Grid steps left empty above, unless the block stands first in its column."""
    is_ruled: bool = False
    """A thin line above it."""
    with_next: bool = False
    """A heading: it never stands last in a column."""


def block(
    *paragraphs: Paragraph, before: float = 0.75, ruled: bool = False, with_next: bool = False
) -> TextBlock:
    """Paragraphs without a drawing; those without words are left out."""
    said = tuple(each for each in paragraphs if each.words or each.amount)
    return TextBlock(said, before=before, is_ruled=ruled, with_next=with_next)


def in_words(blocks: Iterable[TextBlock]) -> str:
    """All of it as text, line by line, for a screen reader."""
    lines: list[str] = []
    for each in blocks:
        lines += [" ".join(filter(None, (one.words, one.amount))) for one in each.paragraphs]
        if each.band:
            lines.append(each.band)
    return "\n".join(lines)
