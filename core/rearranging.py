"""Whether the boxes of the queue had better be played in another order, and what that would bring.

For the background: it plans the whole queue twice. The order found at likely minutes is taken only if, over
all scenarios, no box that has a date is less sure to keep it than it was said to be, or than it is now.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from core import draws, sequence, turnaround
from core.names import JobNumber
from core.plan import SEED, estimate
from core.records import Fittings
from core.sequence import Piece, Task
from core.stations import Station
from core.turnaround import Load, QueuedTape

NOISE = 0.01
"""Chances closer than this are the same: about one standard error of a thousand scenarios at 90 %."""


@dataclass(frozen=True, slots=True)
class Promised:
    """The date a box was promised for, and the chance it was given."""

    day: date
    stated: float


@dataclass(frozen=True, slots=True)
class Better:
    """A better order of the queue; chances are of keeping each date, before and after."""

    queue: tuple[QueuedTape, ...]
    chances: Mapping[JobNumber, tuple[float, float]]

    @property
    def gained(self) -> float:
        """Promises kept more than before, on average."""
        return sum(after - before for before, after in self.chances.values())


def better(
    fittings: Fittings,
    queue: Sequence[QueuedTape],
    now: datetime,
    promised: Mapping[JobNumber, Promised],
    runs: int = sequence.RUNS,
) -> Better | None:
    """A better order of the tapes that wait; None when none was found that harms no promise."""
    before = turnaround.load(fittings, queue, now)
    order = _order(before, queue, promised, runs)
    if order is None:
        return None
    after = turnaround.load(fittings, order, now, in_order_given=True)
    chances = {
        number: tuple(turnaround.chance_of(load, number, made.day) for load in (before, after))
        for number, made in promised.items()
        if number in before.jobs
    }
    found = Better(tuple(order), {number: (was, will) for number, (was, will) in chances.items()})
    harmed = any(
        will < min(promised[number].stated, was) - NOISE for number, (was, will) in found.chances.items()
    )
    return None if harmed or found.gained <= NOISE else found


def _order(
    load: Load, queue: Sequence[QueuedTape], promised: Mapping[JobNumber, Promised], runs: int
) -> list[QueuedTape] | None:
    waiting = [tape for tape in queue if tape.station is not Station.PLAYING and not tape.rush]
    pieces, tapes = [], dict[int, QueuedTape]()
    for tape in waiting:
        decks = turnaround.decks_for(load, tape)
        if decks and tape.station in turnaround.ON_ITS_WAY:
            piece = _piece(load, tape, decks)
            pieces.append(piece)
            tapes[piece.key] = tape
    if len(pieces) < 2:
        return None
    free = tuple(float(row.mean()) for row in load.after_rush.lanes.free)
    due = {
        draws.key(number): end
        for number, made in promised.items()
        if (end := load.calendar.close_of(made.day)) is not None
    }
    order = sequence.arranged(pieces, Task(free, load.after_all.handling, due), SEED, runs)
    moved = [tapes[piece.key] for piece in order]
    chosen = {tape.code for tape in moved}
    return [tape for tape in queue if tape.code not in chosen] + moved


def _piece(load: Load, tape: QueuedTape, decks: tuple[int, ...]) -> Piece:
    planned = estimate(tape.minutes)
    gate = load.after_rush.lanes.gate(planned)
    return Piece(draws.key(tape.code), draws.key(tape.job), decks, planned, gate)
