"""The event simulation with nothing around it: tapes of known lengths on decks that may never close.

For arithmetic that can be checked by hand, for the worked examples of the scheduling literature and for the
results of queueing theory.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from core.scheduling.event_simulation import work_off
from core.scheduling.opening_calendar import Calendar
from core.scheduling.opening_hours import calendar_of
from core.scheduling.play_hours import PlayHours
from core.scheduling.simulated_shop import DeckTimelines, InitialState, Part, Queue, Turnout

Moments = NDArray[np.float64]
Ready = float | Moments


def open_in(slots: list[tuple[float, float]]) -> Calendar:
    """These openings of one day, in minutes, and nothing else."""
    day = date(2000, 1, 1)
    start = datetime(2000, 1, 1, tzinfo=UTC)
    return calendar_of(start, ZoneInfo("UTC"), slots, {day: slots[-1][1]}, {})


def decks_free_at(free: Moments) -> DeckTimelines:
    """Decks that never close: ``free`` has a row a deck and a column a scenario."""
    return DeckTimelines(PlayHours(open_in([(0.0, 1e9)]), 0.0), free)


def play(
    on: DeckTimelines,
    decks: Sequence[int],
    minutes: Moments,
    *,
    ready: Ready = 0.0,
    estimate: float = 0.0,
    handling: float = 0.0,
) -> Moments:
    """Plays one tape behind all that were played before; when it ends in each scenario."""
    return played(on, [decks], np.asarray([minutes]), ready=[ready], estimate=estimate, handling=handling)[0]


def played(
    on: DeckTimelines,
    eligible: Sequence[Sequence[int]],
    minutes: Moments,
    *,
    ready: Sequence[Ready] | None = None,
    estimate: float = 0.0,
    handling: float = 0.0,
) -> Moments:
    """Plays tapes strictly in order, a row of ``minutes`` each; when each ends."""
    since = [0.0] * len(minutes) if ready is None else ready
    parts = [Part(np.full(on.free.shape[1], -np.inf)) for _ in minutes]
    rows = zip(eligible, since, parts, strict=True)
    tapes = [Turnout(tuple(decks), estimate, each, part) for decks, each, part in rows]
    work_off(
        InitialState(on, handling, float(on.free.min()), fill=0), Queue(tapes, minutes.astype(np.float64))
    )
    return np.stack([part.ends for part in parts])


def finishes(minutes: Sequence[float], eligible: Sequence[Sequence[int]], decks: int) -> tuple[float, ...]:
    """List scheduling: when each job ends, taken in this order by whichever deck is free first."""
    ends = played(decks_free_at(np.zeros((decks, 1))), eligible, np.array(minutes)[:, None])
    return tuple(ends[:, 0].tolist())
