"""What was handed back, and who signed for it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from core.model.job_records import CopyRecord, Job
from core.model.quote_records import Price
from core.model.tape_records import TapeRecord

Stroke = tuple[tuple[float, float], ...]
"""Points of one pen stroke, x and y from 0 to 1 of the pad's width and height, y downwards."""


@dataclass(frozen=True, slots=True)
class Signature:
    """Who signed, and the strokes of the pen (none when only the name was taken)."""

    name: str
    strokes: tuple[Stroke, ...] = ()
    aspect: float = 3.0
    """Width of the pad divided by its height."""


@dataclass(frozen=True, slots=True)
class Pickup:
    """What was handed back at one moment, and to whom."""

    job: Job
    at: datetime
    by: str
    signature: Signature
    handed_back: tuple[TapeRecord, ...]
    still_here: tuple[TapeRecord, ...]
    copies: tuple[CopyRecord, ...]
    final: Price
    """The price now that play times are known, never above the agreed ceiling."""
    paid_minor: int
    due_minor: int
