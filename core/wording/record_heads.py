"""How the head of the history is written where it leaves the machine: on receipts and in the names of copies.

The head is the SHA-256 of the newest line, with which every earlier line and row hangs together. Its first
sixteen hexadecimal digits are written: 64 bits, which nobody meets by chance.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import datetime

LETTERS = 16
LEAST_LETTERS = 8
_IN_NAME = re.compile(rf"-(?P<at>\d{{8}}-\d{{6}})-(?P<head>[0-9a-f]{{{LETTERS}}})(?:-\d+)?\.")


def short_head(head: str) -> str:
    """``a3f2 91bc 07de 4455``."""
    shown = head[:LETTERS]
    return " ".join(shown[place : place + 4] for place in range(0, len(shown), 4))


def typed(text: str) -> str:
    """The digits of a head as somebody types or copies them; ValueError for anything else."""
    digits = re.sub(r"[\s-]", "", text).lower()
    if not LEAST_LETTERS <= len(digits) <= 64 or set(digits) - set("0123456789abcdef"):
        raise ValueError(text)
    return digits


def stamp_in_name(name: str) -> datetime | None:
    """When a copy was made, by the clock of then, as its name says."""
    from datetime import UTC, datetime  # not before the first paint

    found = _IN_NAME.search(name)
    try:
        return None if found is None else datetime.strptime(found["at"], "%Y%m%d-%H%M%S").replace(tzinfo=UTC)
    except ValueError:  # somebody named it, with a thirteenth month
        return None


def in_name(name: str) -> str | None:
    """What the name of a copy says of the head; None where it says nothing."""
    found = _IN_NAME.search(name)
    return None if found is None else found["head"]
