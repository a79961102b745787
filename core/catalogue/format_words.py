"""The sentences about one format: from the wording files by its name, else as its own file has them.

The formats of the program have their words in ``formats.ftl``, in every language. A format that somebody adds
may bring its English along, in ``[words]`` of its file. What neither has is taken from the format it is like.
"""

from __future__ import annotations

from collections.abc import Iterator

from core.catalogue.format_file import FormatFile
from core.wording.messages import knows, say, worded_cache

ROOM = "formats"
NEEDED = {"name": "name", "size": "sizes", "plays": "plays", "look-lid": "lid", "look-reels": "reels"}
_KEYS = {**NEEDED, "opening": "opening", "protect": "protect", "look-shell": "shell"}
"""Beginnings of ids in the wording files, with the key of ``[words]`` that stands in for them."""


def sentences(names: tuple[str, ...], key: str, file: FormatFile) -> tuple[str, ...]:
    """The sentences of one kind; ``names`` are the format and those it is like, nearest first."""
    own = getattr(file.words, _KEYS[key], ()) if file.words and key in _KEYS else ()
    return _sentences(names, key, (own,) if isinstance(own, str) and own else tuple(own))


def numbered(room: str, key: str) -> Iterator[str]:
    """Sentences of one id with ``-1``, ``-2`` … behind it, or the one that goes without a number."""
    if knows(room, key):
        yield say(room, key)
    n = 1
    while knows(room, f"{key}-{n}"):
        yield say(room, f"{key}-{n}")
        n += 1


@worded_cache(maxsize=1024)
def _sentences(names: tuple[str, ...], key: str, own: tuple[str, ...]) -> tuple[str, ...]:
    first, *lenders = names
    for found in (tuple(numbered(ROOM, f"{key}-{first}")), own):
        if found:
            return found
    return next((found for each in lenders if (found := tuple(numbered(ROOM, f"{key}-{each}")))), ())
