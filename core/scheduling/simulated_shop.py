"""What the event simulation works on: decks, tapes that wait for them, rush tapes to come, and their ends.

Everything is the same for any number of scenarios, one column each.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.model.ranges import Range
from core.scheduling.opening_calendar import Calendar, Gate, Minutes, Places, PlayHours

FILL = 20
"""Tapes looked at for the end of the day: five gave 11 % off the time to finish a long queue, twenty 16 %,
sixty no more than that (derived: measured on a prototype)."""

DECK, BENCH, NIGHT = 0, 1, 2
"""What a tape waited for: a deck, the bench, or an opening although a deck was free."""

Decks = tuple[int, ...]
Spans = tuple[tuple[float, float], ...]
Reasons = NDArray[np.int8]
Ready = float | Minutes


@dataclass(frozen=True, slots=True, eq=False)
class Lanes:
    """Decks side by side; ``free[deck, scenario]`` is when each is free again."""

    hours: PlayHours
    free: Minutes
    out: Mapping[int, Spans] = field(default_factory=dict)
    """When a deck is out of service by plan: from, to."""

    @property
    def calendar(self) -> Calendar:
        """The openings of the shop."""
        return self.hours.calendar

    def copy(self) -> Lanes:
        """The same decks, to be filled without touching these."""
        return replace(self, free=self.free.copy())


@dataclass(frozen=True, slots=True)
class Kind:
    """Tapes that a rush box may hold: their decks, their minutes, and how often they come."""

    decks: tuple[int, ...]
    minutes: Range
    estimate: float
    weight: float
    like: tuple[float, ...] = ()
    """Minutes in rising order, one as likely as the next; none: drawn from ``minutes``."""


@dataclass(slots=True, eq=False)
class Coming:
    """The rush tapes of one kind in the order they come, and the next one of each scenario."""

    kind: Kind
    gate: Gate
    arrives: NDArray[np.float64]
    """One row a tape, one column a scenario; infinity after the last."""
    minutes: NDArray[np.float64]
    place: Places
    next: Minutes

    def copy(self) -> Coming:
        return Coming(self.kind, self.gate, self.arrives, self.minutes, self.place.copy(), self.next.copy())

    def take(self, at: Places) -> tuple[Minutes, Minutes]:
        """Arrival and minutes of the next tape in the scenarios ``at``, which then have another next."""
        rows = self.place[at]
        arrives, minutes = self.next[at], self.minutes[rows, at]
        self.place[at] = rows + 1
        self.next[at] = self.arrives[rows + 1, at]
        return arrives, minutes


@dataclass(slots=True, eq=False)
class Part:
    """Tapes of one box on the same decks: when the last of them ends, and what that one waited for."""

    ends: Minutes
    why: Reasons = field(init=False)

    def __post_init__(self) -> None:
        self.why = np.zeros(len(self.ends), dtype=np.int8)

    def end(self, ends: Minutes, why: Reasons) -> None:
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
