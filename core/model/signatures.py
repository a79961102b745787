"""Who signed, and how the pen went."""

from __future__ import annotations

from dataclasses import dataclass

Stroke = tuple[tuple[float, float], ...]
"""Points of one pen stroke, x and y from 0 to 1 of the pad's width and height, y downwards."""


@dataclass(frozen=True, slots=True)
class Signature:
    """Who signed, and the strokes of the pen (none when only the name was taken)."""

    name: str
    strokes: tuple[Stroke, ...] = ()
    aspect: float = 3.0
    """Width of the pad divided by its height."""
