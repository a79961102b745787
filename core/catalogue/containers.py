"""What things are called together: tapes, reels of film, boxes of pictures, discs, or things of all sorts.

A sentence about tapes has beside it, under the same key with an ending, the ones for everything else:
``-reel``, ``-box``, ``-disc`` and ``-thing``, or ``-thing`` alone where one will do for all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from core.catalogue.formats import catalogue
from core.model.names import Container, FormatName
from core.wording.messages import knows

MIXED = "thing"
NO_NAMES: Mapping[str, str] = {}


def together(names: Iterable[FormatName], own: Mapping[str, str] = NO_NAMES) -> str:
    """The value of the one `Container` of these formats, or `MIXED`.

    ``own``: the containers of formats as they were at the time, by name.
    """
    known = catalogue()
    found = {
        own.get(name)
        or (known.format(name).counted_in.value if name in known.names else Container.TAPE.value)
        for name in names
    }
    return found.pop() if len(found) == 1 else MIXED if found else Container.TAPE.value


def sentence(room: str, key: str, kind: str) -> str:
    """The key of the sentence about things of a kind (`together`); that of tapes has no ending."""
    if kind == Container.TAPE.value:
        return key
    return f"{key}-{kind}" if knows(room, f"{key}-{kind}", "en") else f"{key}-{MIXED}"
