"""What was measured of one tape tells how long it is at least: a place on it, and the minutes it played."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.model.names import Measure

if TYPE_CHECKING:
    from core.model.repair_records import Splice  # it brings dates, which the first paint does without


@dataclass(frozen=True, slots=True)
class LeastLength:
    """A tape is so long at least: minutes of play time, metres of tape; 0 where nothing was measured."""

    minutes: float = 0.0
    metres: float = 0.0


UNMEASURED = LeastLength()


def least(places: Iterable[Splice], played_minutes: float | None) -> LeastLength:
    """What the places measured on a tape and the minutes it played say of its length."""
    minutes, metres = [played_minutes or 0.0], [0.0]
    for each in places:
        if each.measured is Measure.METRES and each.at_metres is not None:
            metres.append(each.at_metres)
        else:
            minutes.append(each.at_minutes)
    return LeastLength(max(minutes), max(metres))
