"""What the event simulation works on: decks, tapes that wait for them, rush tapes to come, and their ends.

Everything is the same for any number of scenarios, one column each.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.model.ranges import Range
from core.scheduling.opening_calendar import Calendar, Minutes, Openings, Places
from core.scheduling.play_hours import Gate, PlayHours

FILL = 20
"""Tapes looked at for the end of the day: five gave 11 % off the time to finish a long queue, twenty 16 %,
sixty no more than that (derived: measured on a prototype)."""

Decks = tuple[int, ...]
Spans = tuple[tuple[float, float], ...]
Reasons = NDArray[np.int8]
Ready = float | Minutes


@dataclass(frozen=True, slots=True, eq=False)
class DeckTimelines:
    """Decks side by side; ``free[deck, scenario]`` is when each is free again."""

    hours: PlayHours
    free: Minutes
    out: Mapping[int, Spans] = field(default_factory=dict)
    """When a deck is out of service by plan: from, to."""

    @property
    def calendar(self) -> Calendar:
        """The openings of the shop."""
        return self.hours.calendar

    def copy(self) -> DeckTimelines:
        """The same decks, to be filled without touching these."""
        return replace(self, free=self.free.copy())


@dataclass(frozen=True, slots=True)
class RushKind:
    """Tapes that a rush box may hold: their decks, their minutes, and how often they come."""

    decks: tuple[int, ...]
    minutes: Range
    estimate: float
    weight: float
    like: tuple[float, ...] = ()
    """Minutes in rising order, one as likely as the next; none: drawn from ``minutes``."""


@dataclass(slots=True, eq=False)
class RushToCome:
    """The rush tapes of one kind in the order they come, and the next one of each scenario."""

    kind: RushKind
    gate: Gate
    arrives: NDArray[np.float64]
    """One row a tape, one column a scenario; infinity after the last."""
    minutes: NDArray[np.float64]
    place: Places
    next: Minutes

    def copy(self) -> RushToCome:
        return RushToCome(
            self.kind, self.gate, self.arrives, self.minutes, self.place.copy(), self.next.copy()
        )

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


class SeenStart(NamedTuple):
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
    is_one_box: bool = False
    """Whether all are of one box: its failed tapes are played again behind its others, not before them."""
    seen: list[SeenStart] | None = None
    """Where `event_simulation` writes down what it plays; None: nobody asks. For queues of one scenario."""
    until: float = np.inf
    """What starts later need not be seen."""
    checked_after: float = 0.0
    """Minutes after its end at which a play is known to have been in vain (`second_plays`)."""


@dataclass(frozen=True, slots=True, eq=False)
class InitialState:
    """What tapes are played on. Playing fills ``timelines`` and uses up ``rush``."""

    timelines: DeckTimelines
    handling: float
    now: float
    rush: Sequence[RushToCome] = ()
    fill: int = FILL
    overtaken_from: int = 0
    """Tapes before this place of the queue are rush themselves: nothing that comes in goes before them."""
    presence: Openings | None = None
    """When people are here; None: whenever the shop is open."""


# --- groups of decks that share no tape ------------------------------------------------------


@dataclass(frozen=True, slots=True, eq=False)
class DeckGroup:
    """Some decks and the tapes that play on them and nowhere else, as a shop of their own."""

    decks: Decks
    initial: InitialState
    """Its decks are numbered anew; what comes in as rush is shared with the shop."""
    queue: Queue
    """The minutes are a copy."""

    def give_back(self, initial: InitialState) -> None:
        """When each of its decks is free, to the whole shop."""
        initial.timelines.free[list(self.decks)] = self.initial.timelines.free


def deck_groups(initial: InitialState, queue: Queue) -> Iterator[DeckGroup]:
    """The groups that have something to do, in the order in which the queue comes to them.

    What happens in one changes nothing in another as long as nobody has to walk between them. So each is
    worked off by itself: fewer decks to compare, and no scenario waits for a group with nothing left to do.
    """
    for decks in _groups(
        [*(tape.decks for tape in queue.tapes), *(each.kind.decks for each in initial.rush)]
    ):
        places = [place for place, tape in enumerate(queue.tapes) if not decks.isdisjoint(tape.decks)]
        if places:
            yield _group(tuple(sorted(decks)), places, initial, queue)


def _groups(sets: Sequence[Decks]) -> list[set[int]]:
    """Decks joined by whatever may play on either."""
    groups: list[set[int]] = []
    for decks in dict.fromkeys(sets):
        joined = set(decks).union(*(group for group in groups if not group.isdisjoint(decks)))
        groups = [*(group for group in groups if group.isdisjoint(decks)), joined]
    return groups


def _group(decks: Decks, places: Sequence[int], initial: InitialState, queue: Queue) -> DeckGroup:
    numbers = {deck: number for number, deck in enumerate(decks)}
    renamed = {tape.decks: _renamed(tape.decks, numbers) for tape in (queue.tapes[place] for place in places)}
    tapes = [
        Turnout(renamed[tape.decks], tape.estimate, tape.ready, tape.part)
        for tape in (queue.tapes[place] for place in places)
    ]
    fails = queue.fails_after
    return DeckGroup(
        decks,
        replace(
            initial,
            timelines=_some(decks, initial.timelines, numbers),
            rush=[
                _rush(each, numbers) for each in initial.rush if not set(numbers).isdisjoint(each.kind.decks)
            ],
            overtaken_from=sum(place < initial.overtaken_from for place in places),
        ),
        Queue(
            tapes,
            queue.minutes[places],
            None if fails is None else fails[places],
            queue.repair,
            queue.is_one_box,
            checked_after=queue.checked_after,
        ),
    )


def _some(decks: Decks, timelines: DeckTimelines, numbers: dict[int, int]) -> DeckTimelines:
    out = {numbers[deck]: spans for deck, spans in timelines.out.items() if deck in numbers}
    return DeckTimelines(timelines.hours, timelines.free[list(decks)], out)


def _rush(coming: RushToCome, numbers: dict[int, int]) -> RushToCome:
    """The same rush tapes, going on from where they are for both."""
    return replace(coming, kind=replace(coming.kind, decks=_renamed(coming.kind.decks, numbers)))


def _renamed(decks: Decks, numbers: dict[int, int]) -> Decks:
    return tuple(numbers[deck] for deck in decks)
