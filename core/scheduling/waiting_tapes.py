"""Tapes that wait for decks, what they are played on, and what comes of it, whatever rule plays them.

The whole queue, its end-of-day plan and the box on the counter are said in these nouns, so that one stands
behind the other without anything being said twice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.scheduling.deck_timelines import Lanes
from core.scheduling.opening_hours import Minutes
from core.scheduling.rush_boxes import Coming
from core.scheduling.slot_lookup import Places, where

FILL = 20
"""Tapes looked at for the end of the day: five gave 11 % off the time to finish a long queue, twenty 16 %,
sixty no more than that (derived: measured on a prototype)."""

DECK, BENCH, NIGHT = 0, 1, 2
"""What a tape waited for: a deck, the bench, or an opening although a deck was free."""

Decks = tuple[int, ...]
Reasons = NDArray[np.int8]
Ready = float | Minutes


@dataclass(slots=True, eq=False)
class Part:
    """Tapes of one box on the same decks: when the last of them ends, and what that one waited for."""

    ends: Minutes
    why: Reasons = field(init=False)

    def __post_init__(self) -> None:
        self.why = np.zeros(len(self.ends), dtype=np.int8)

    def end(self, ends: Minutes, why: Reasons, at: Places) -> None:
        """One more tape ends in the scenarios ``at``."""
        last = where(ends > self.ends[at])
        self.ends[at[last]] = ends[last]
        self.why[at[last]] = why[last]

    def end_all(self, ends: Minutes, why: Reasons) -> None:
        """One more tape ends, in every scenario."""
        last = ends > self.ends
        np.copyto(self.ends, ends, where=last)
        np.copyto(self.why, why, where=last)

    def share(self, why: int) -> float:
        """Share of the scenarios, 0 to 1, in which the last tape waited for `DECK`, `BENCH` or `NIGHT`."""
        return float(np.count_nonzero(self.why == why)) / len(self.why)


@dataclass(frozen=True, slots=True, eq=False)
class Turnout:
    """One tape to deal out: where it may play, from when, planned with which minutes, and its part."""

    decks: Decks
    estimate: float
    ready: Ready
    part: Part


class Seen(NamedTuple):
    """What is played where: the place of a tape in its queue, the deck, the start."""

    tape: int
    deck: int
    start: float


@dataclass(frozen=True, slots=True, eq=False)
class Queue:
    """Tapes in their order, with what was drawn for them: one row a tape, one column a scenario."""

    tapes: Sequence[Turnout]
    minutes: Minutes
    fails_after: Minutes | None = None
    """Minutes of play after which the deck would fail; used up. None: decks do not fail."""
    repair: float = 0.0
    """Minutes on average."""
    seen: list[Seen] | None = None
    """Where `event_simulation` writes down what it plays; None: nobody asks. For queues of one scenario."""
    until: float = np.inf
    """What starts later need not be seen."""


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """What tapes are played on. Playing fills ``lanes`` and uses up ``rush``."""

    lanes: Lanes
    handling: float
    now: float
    rush: Sequence[Coming] = ()
    fill: int = FILL
    overtaken_from: int = 0
    """Tapes before this place of the queue are rush themselves: nothing that comes in goes before them."""
