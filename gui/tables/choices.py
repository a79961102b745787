"""Type-ahead without a screen: which of the accepted words may be meant by the letters typed so far."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

from core.catalogue.markings import bare


@dataclass(frozen=True, slots=True)
class CellChoice:
    """One accepted word, other ways to write it, and a note that tells it from the next."""

    words: str
    aliases: tuple[str, ...] = ()
    note: str = ""
    draw: Callable[[Any, Any], None] | None = field(default=None, compare=False)
    """Draws what is chosen with a painter into a rectangle; None: it is told in words alone."""


def matching(choices: Sequence[CellChoice], typed: str) -> tuple[CellChoice, ...]:
    """The choices that may be meant, the likeliest first; case, dashes and spaces do not count.

    An exact word comes before one that begins so, that before one with a later word that begins
    so, and last what merely contains the letters.
    """
    wanted = bare(typed)
    if not wanted:
        return tuple(choices)
    ranked = [
        (rank, place, choice) for place, choice in enumerate(choices) if (rank := _rank(choice, wanted)) < 9
    ]
    return tuple(choice for _, _, choice in sorted(ranked, key=lambda entry: entry[:2]))


def meant(choices: Sequence[CellChoice], typed: str) -> CellChoice | None:
    """The choice written out in full, by its words or another way to write it."""
    wanted = bare(typed)
    return next((choice for choice in choices if wanted and _rank(choice, wanted) == 0), None)


def last_part(text: str) -> str:
    """What is being typed in a list with commas."""
    return text.rpartition(",")[2].strip()


def with_last_part(text: str, words: str) -> str:
    """The list with its last entry written out."""
    before, comma, _ = text.rpartition(",")
    return f"{before.strip()}, {words}" if comma else words


def parts(text: str) -> tuple[str, ...]:
    """The entries of a list with commas."""
    return tuple(part for part in (piece.strip() for piece in text.split(",")) if part)


def _rank(choice: CellChoice, wanted: str) -> int:
    names = [bare(name) for name in (choice.words, *choice.aliases)]
    if wanted in names:
        return 0
    if any(name.startswith(wanted) for name in names):
        return 1
    words = (
        bare(word) for name in (choice.words, *choice.aliases) for word in name.replace("-", " ").split()
    )
    if any(word.startswith(wanted) for word in words):
        return 2
    return 3 if len(wanted) > 1 and any(wanted in name for name in names) else 9
