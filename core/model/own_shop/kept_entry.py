"""A line of the page on what is kept of customers."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class KeptEntry:
    """One kind of thing that is kept."""

    name: str
    what: str
    why: str
    how_long: str
