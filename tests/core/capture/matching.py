"""How well found stretches match the known ones: precision and recall, by seconds and by piece."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from core.capture.time_spans import Span, both, total


@dataclass(frozen=True, slots=True)
class Match:
    """Seconds found, known, and both; pieces found, known, and found with both ends within tolerance."""

    found: float = 0.0
    known: float = 0.0
    both: float = 0.0
    pieces_found: int = 0
    pieces_known: int = 0
    pieces_right: int = 0

    def __add__(self, other: Match) -> Match:
        return Match(
            self.found + other.found,
            self.known + other.known,
            self.both + other.both,
            self.pieces_found + other.pieces_found,
            self.pieces_known + other.pieces_known,
            self.pieces_right + other.pieces_right,
        )

    @property
    def precision(self) -> float:
        """Share of what was found that is really there."""
        return self.both / self.found if self.found else 1.0

    @property
    def recall(self) -> float:
        """Share of what is there that was found."""
        return self.both / self.known if self.known else 1.0


def matched(found: Iterable[Span], known: Iterable[Span], tolerance: float) -> Match:
    """Compare spans; a piece is right when both of its ends are within ``tolerance`` seconds."""
    ours, theirs = list(found), list(known)
    right = sum(any(abs(a - c) <= tolerance and abs(b - d) <= tolerance for a, b in ours) for c, d in theirs)
    return Match(total(ours), total(theirs), total(both(ours, theirs)), len(ours), len(theirs), right)
