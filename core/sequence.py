"""In which order tapes should go to the decks."""

from __future__ import annotations

from collections.abc import Sequence

from core.plan import Step


def in_sequence(steps: Sequence[Step]) -> list[Step]:
    """Boxes in the order given; within a box, tapes that fit the fewest decks first, then the longest.

    Against the best that could be found for up to 20 tapes, the least flexible first and then the longest
    was 2 % worse at finishing everything, the order given 10 % (derived: measured on a prototype).
    """
    boxes = {box: place for place, box in enumerate(dict.fromkeys(step.box for step in steps))}
    return sorted(steps, key=lambda step: (boxes[step.box], len(step.suited.decks), -step.minutes.likely))
