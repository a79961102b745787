"""One thing that somebody recorded, as far as it tells of work: when, by whom, and about what."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import Enum

from core.model.stations import Station


class TimedTask(Enum):
    """A step of work on one tape, or on one copy."""

    LOOK_OVER = "look_over"
    REPAIR = "repair"
    LOAD = "load"
    UNLOAD = "unload"
    CHECK = "check"
    COPY = "copy"


@dataclass(frozen=True, slots=True)
class Act:
    """One line of the history. Lines that tell of no tape show only that the person was busy until then."""

    at: float
    """Minutes since 1970 (UTC)."""
    day: date
    """On the shop's clock, as is ``clock``, in minutes after midnight."""
    clock: float
    who: str
    about: str = ""
    """The code of a tape, or the number of an order."""
    station: Station | None = None
    """Where the tape is from then on."""
    deck: str = ""
    played: float = 0.0
    """Minutes that the tape played, where they were read."""
    planned: float = 0.0
    """Minutes that this repair, or this part of a copy, was to take."""
    books: bool = False
    """Whether an order was taken in."""
    copies: bool = False
    """Whether a copy was made or checked."""


_ENDS_LOOK = (
    Station.LOOKED_OVER,
    Station.AT_THE_BENCH,
    Station.CLEARED_TO_PLAY,
    Station.ASKING_THE_CUSTOMER,
    Station.KEPT_APART,
    Station.CANNOT_BE_PLAYED,
)


def task_ended(before: Station | None, station: Station) -> TimedTask | None:
    """The step of work that a move from one station to another ends; None: it ends none that is timed."""
    if station is Station.PLAYING:
        return TimedTask.LOAD
    if before is Station.BOOKED_IN and station in _ENDS_LOOK:
        return TimedTask.LOOK_OVER
    if before is Station.AT_THE_BENCH and station in (Station.CLEARED_TO_PLAY, Station.LOOKED_OVER):
        return TimedTask.REPAIR
    if before is Station.PLAYING and station is Station.BEING_CHECKED:
        return TimedTask.UNLOAD
    if before is Station.BEING_CHECKED and station is Station.READY:
        return TimedTask.CHECK
    return None
