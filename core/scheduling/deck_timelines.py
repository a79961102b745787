"""The list scheduler: tapes in order, each to the deck where it can start first, in many scenarios at once.

A tape plays in real time and cannot rest overnight. Its length is not known before it has played, so
the choice of its start looks at an estimate only, never at the length drawn for a scenario: a
scheduler that peeks promises dates no shop can keep.

Who goes where, so that the same draws give the same plan anywhere: a tape goes to the deck that is
free first, counted from the moment the tape itself is ready; of decks free at the same moment, to the
one named first.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from core.scheduling.opening_hours import Calendar, Minutes, always_open
from core.scheduling.slot_lookup import Places, Slots, slots_of

OVERLONG_WITHIN = 30.0
"""Minutes after an opening in which a tape longer than any opening is begun (an assumption)."""

TO_BE_LOADED = 15.0
"""Minutes until a tape is loaded on a deck that has played overnight, with one person in the shop."""


class Gate:
    """When a play of one estimated length may start: from ``opens[k]`` to ``latest[k]`` of each slot.

    It must end before closing plus ``past_closing``, and somebody must still be there to start it.
    """

    def __init__(self, calendar: Calendar, estimate: float, past_closing: float) -> None:
        self.estimate = estimate
        self._slots = slots_of(calendar)
        self._closes = self._slots.closes
        latest = np.minimum(calendar.closes, calendar.closes + past_closing - estimate)
        fits = latest >= calendar.opens
        self.overlong = bool(len(fits)) and not bool((latest >= calendar.opens + TO_BE_LOADED).any())
        """It fits no opening once it has been loaded; it starts soon after an opening all the same."""
        if self.overlong:
            latest = np.minimum(calendar.closes, calendar.opens + OVERLONG_WITHIN)
            fits = np.ones(len(fits), dtype=bool)
        self.latest = np.append(np.where(fits, latest, -np.inf), np.inf)
        places = np.arange(len(fits) + 1)
        fitting = np.where(np.append(fits, True), places, len(fits))
        self.following = np.append(np.minimum.accumulate(fitting[::-1])[::-1], len(fits)).astype(np.intp)
        """For each slot, the first that fits from there on."""

    def start(self, ready: Minutes) -> Minutes:
        """The first allowed start at or after each moment; infinity when there is none any more."""
        slot = self._slots.closing_from(ready)
        slot = self.following.take(slot + (ready > self.latest.take(slot)))
        return np.asarray(np.maximum(ready, self._slots.opens.take(slot)), dtype=np.float64)

    def start_of(self, ready: float) -> float:
        """The same for one moment."""
        slot = bisect_left(self._closes, ready)
        slot = int(self.following[slot + (ready > self.latest[slot])])
        return max(ready, float(self._slots.opens[slot]))


def gate(calendar: Calendar, estimate: float, past_closing: float) -> Gate:
    """The gate for a play that is estimated to take ``estimate`` minutes."""
    return Gate(calendar, estimate, past_closing)


@dataclass(frozen=True, slots=True, eq=False)
class Turn:
    """Where one tape would go: its place in `Lanes.free` (flat), when that deck is free, and the start."""

    place: Places
    free: Minutes
    start: Minutes


@dataclass(slots=True, eq=False)
class Lanes:
    """Decks side by side; ``free[deck, scenario]`` is when each is free again."""

    calendar: Calendar
    past_closing: float
    free: NDArray[np.float64]
    out: Mapping[int, tuple[tuple[float, float], ...]] = field(default_factory=dict)
    """When a deck is out of service by plan: from, to."""
    gates: dict[float, Gate] = field(default_factory=dict)
    """The gates made so far, by their estimate."""

    @property
    def slots(self) -> Slots:
        return slots_of(self.calendar)

    def copy(self) -> Lanes:
        """The same decks, to be filled without touching these."""
        return Lanes(self.calendar, self.past_closing, self.free.copy(), self.out, self.gates)

    def gate(self, estimate: float) -> Gate:
        """The gate for an estimate, remembered."""
        found = self.gates.get(estimate)
        if found is None:
            found = self.gates[estimate] = gate(self.calendar, estimate, self.past_closing)
        return found

    def turn(
        self, decks: Sequence[int], ready: float | Minutes, gate: Gate, at: Places | None = None
    ) -> Turn:
        """The deck a tape would go to in each scenario (in the scenarios ``at`` only, when given)."""
        scenarios = self.free.shape[1]
        columns = np.arange(scenarios, dtype=np.intp) if at is None else at
        free = self._free_of(decks[0], ready, gate, at)
        place = columns + decks[0] * scenarios
        for deck in decks[1:]:
            other = self._free_of(deck, ready, gate, at)
            sooner = other < free
            free = np.minimum(free, other)
            np.copyto(place, columns + deck * scenarios, where=sooner)
        return Turn(place, free, gate.start(free))

    def occupy(self, place: Places, ends: Minutes, handling: float) -> None:
        """The decks at ``place`` are busy to each end, and until somebody, in opening hours, has spent
        ``handling`` minutes on them."""
        self.free.reshape(-1)[place] = self.slots.advanced(ends, handling) if handling else ends

    def play(
        self, decks: Sequence[int], ready: float, minutes: Minutes, *, estimate: float, handling: float
    ) -> Minutes:
        """Play one tape in every scenario and return when it ends; ``ready`` is when the bench lets it go."""
        turn = self.turn(decks, ready, self.gate(estimate))
        ends = turn.start + minutes
        self.occupy(turn.place, ends, handling)
        return ends

    def _free_of(self, deck: int, ready: float | Minutes, gate: Gate, at: Places | None) -> Minutes:
        row = self.free[deck] if at is None else self.free[deck].take(at)
        free = np.maximum(row, ready)
        for begins, ends in self.out.get(deck, ()):
            start = gate.start(free)
            inside = (start + gate.estimate > begins) & (start < ends)
            free = np.where(inside, np.maximum(free, ends), free)
        return np.asarray(free, dtype=np.float64)


def finishes(minutes: Sequence[float], eligible: Sequence[Sequence[int]], decks: int) -> tuple[float, ...]:
    """Plain list scheduling on decks that never close: when each job ends, taken in this order.

    For arithmetic that can be checked by hand; ``eligible`` names the decks each job may run on.
    """
    lanes = Lanes(always_open(sum(minutes) + 1), 0.0, np.zeros((decks, 1)))
    return tuple(
        float(lanes.play(allowed, 0.0, np.array([length]), estimate=0.0, handling=0.0)[0])
        for length, allowed in zip(minutes, eligible, strict=True)
    )
