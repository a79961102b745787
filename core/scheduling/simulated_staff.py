"""What people do in an event simulation with staff, and what is learned of a day with them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.model.own_shop.handling_minutes import HandlingMinutes
from core.scheduling.opening_calendar import Minutes
from core.scheduling.simulated_shop import Part


@dataclass(frozen=True, slots=True, eq=False)
class Times:
    """Minutes of a person's time."""

    load: float
    unload: float
    check: float
    """The least that a check takes."""
    check_each_minute: float = 0.0
    check_from: float = 0.0
    """What a check takes beside `check_each_minute` of play."""

    def checks(self, played: Minutes) -> Minutes:
        """Minutes of the check of what plays so long (`HandlingMinutes.check_of`)."""
        found: Minutes = np.maximum(self.check, self.check_from + self.check_each_minute * played)
        return found


def times_of(handling: HandlingMinutes) -> Times:
    """The times of people who take the minutes of a shop."""
    each = handling
    return Times(each.load, each.unload, each.check, each.check_each_minute, each.check_from)


@dataclass(frozen=True, slots=True, eq=False)
class Bench:
    """One tape to look over or repair. ``tape`` is its place in the queue; None: it will not be played."""

    minutes: float
    part: Part
    tape: int | None
    splices: bool = False
    """Whether the tape is to be repaired, not only looked over."""


@dataclass(frozen=True, slots=True, eq=False)
class Begun:
    """What is under way: tapes playing (deck, end in each scenario, part), and parts being checked."""

    playing: Sequence[tuple[int, Minutes, Part]] = ()
    checking: Sequence[Part] = ()
    checks_of_playing: Sequence[float] = ()
    """Minutes that the check of each tape that plays will take; where none are named, the least."""
    checks_of_checking: Sequence[float] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """What a day with these people is like; for the box that comes behind the queue."""

    wait: float
    """Minutes a deck that is done waits for somebody, on average."""
    check: float
    """Minutes of opening from unloading until the recording of a short tape is checked, on average."""
    bench_free: Minutes
    """When the last tape leaves the bench in each scenario."""
