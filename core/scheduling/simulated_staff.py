"""What people do in an event simulation with staff, and what is learned of a day with them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from core.scheduling.opening_calendar import Minutes
from core.scheduling.simulated_shop import Part


@dataclass(frozen=True, slots=True, eq=False)
class Times:
    """Minutes of a person's time."""

    load: float
    unload: float
    check: float


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


@dataclass(frozen=True, slots=True, eq=False)
class Found:
    """What a day with these people is like; for the box that comes behind the queue."""

    wait: float
    """Minutes a deck that is done waits for somebody, on average."""
    check: float
    """Minutes of opening from unloading until the recording is checked, on average."""
    bench_free: Minutes
    """When the last tape leaves the bench in each scenario."""
