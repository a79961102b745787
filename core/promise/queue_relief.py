"""What would help the whole queue: boxes ready how much sooner, and which endangered dates would hold.

The queue is planned again with one thing changed, by the same draws. For the background: a plan a line.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

import numpy as np

from core.model.names import JobNumber
from core.model.promise_records import Promise
from core.model.settings_records import ShopSettings
from core.model.stations import Station
from core.promise import turnaround, what_ifs
from core.promise.turnaround import Load
from core.scheduling.queued_tapes import QueuedTape

MOST = 3
_DAY = 24 * 60.0
_LEAST_DAYS = 0.05
"""An hour and a quarter: less is not worth a line."""


@dataclass(frozen=True, slots=True)
class Relief:
    """One change. ``days`` is how much sooner a box is ready on average; ``saved`` dates would hold again."""

    change: str
    days: float
    saved: int
    endangered: int

    @property
    def sentence(self) -> str:
        """E.g. ``with one more person: boxes ready 1.5 days sooner on average; 2 of 3 dates would hold``."""
        sooner = f"{self.change}: boxes ready {_days(self.days)} sooner on average"
        if not self.saved:
            return sooner
        dates = "the endangered date" if self.endangered == 1 else f"{self.saved} of {self.endangered} dates"
        return f"{sooner}; {dates} would hold"


def reliefs(
    fittings: ShopSettings,
    queue: Sequence[QueuedTape],
    now: datetime,
    endangered: Mapping[JobNumber, Promise],
) -> tuple[Relief, ...]:
    """The three changes that help most: by dates that would hold again, then by days."""
    plain = turnaround.load(fittings, queue, now)
    found = []
    for change, changed in what_ifs.changes(fittings, _first_decks(plain, queue)):
        other = turnaround.load(changed, queue, now, by_hand=plain.by_hand)
        saved = sum(_holds(other, number, promise) for number, promise in endangered.items())
        found.append(Relief(change, _sooner(plain, other), saved, len(endangered)))
    useful = [each for each in found if each.days >= _LEAST_DAYS]
    return tuple(sorted(useful, key=lambda each: (-each.saved, -each.days))[:MOST])


def _holds(load: Load, number: JobNumber, promise: Promise) -> bool:
    """Whether the date would be as sure as it was said to be."""
    return promise.day is not None and turnaround.chance_of(load, number, promise.day) >= promise.stated


def _sooner(plain: Load, other: Load) -> float:
    """Days by which the middle of a box's finish times comes sooner, over the boxes that finish at all."""
    gained = []
    for number, finish in plain.jobs.items():
        changed = other.jobs.get(number)
        if changed is not None and len(finish.at) and len(changed.at):
            before, after = float(np.median(finish.at)), float(np.median(changed.at))
            if np.isfinite(before) and np.isfinite(after):
                gained.append(before - after)
    return float(np.mean(gained)) / _DAY if gained else 0.0


def _first_decks(load: Load, queue: Sequence[QueuedTape]) -> list[int]:
    """The first deck of each kind that a waiting tape may play on."""
    waiting = (tape for tape in queue if tape.station is not Station.PLAYING)
    return list(dict.fromkeys(decks[0] for tape in waiting if (decks := turnaround.decks_for(load, tape))))


def _days(days: float) -> str:
    rounded = round(days, 1)
    return "1 day" if rounded == 1 else f"{rounded:g} days"
