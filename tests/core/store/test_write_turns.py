"""Whoever has waited longest to write into a shop's file is served next, or nearly."""

from __future__ import annotations

import heapq
import random
from collections.abc import Callable

from core.store import write_turns

TILLS = 8
STEP_S = (0.1, 0.4)
"""A step of the program on a busy machine (an assumption; on one of its own a twentieth of a second)."""
THINKS_S = 0.01
"""Between two steps: the tills of this test always write."""
PATIENCE_S = 5.0
STEPS = 4_000

Pause = Callable[[float, int, random.Random], float]
"""Seconds until the next try, by how long and how often somebody tried."""


def _in_turn(waited: float, _: int, dice: random.Random) -> float:
    return write_turns.pause(waited) * dice.uniform(0.5, 1.5)


def _as_sqlite_waits(_: float, tries: int, __: random.Random) -> float:
    """`sqliteDefaultBusyCallback` of SQLite's main.c."""
    return (0.001, 0.002, 0.005, 0.010, 0.015, 0.020, 0.025, 0.025, 0.025, 0.050, 0.050, 0.100)[
        min(tries, 11)
    ]


def _waits(pause: Pause) -> list[float]:
    """How long each of many steps waited, of tills that all write all the time; seconds."""
    dice, free_at, found = random.Random(7), 0.0, []
    coming = [(dice.uniform(0, 0.1), till, 0.0, 0) for till in range(TILLS)]
    coming = [(at, till, at, 0) for at, till, _, _ in coming]
    while len(found) < STEPS:
        at, till, since, tries = heapq.heappop(coming)
        if at >= free_at or at - since >= PATIENCE_S:
            found.append(at - since)
            if at >= free_at:
                free_at = at + dice.uniform(*STEP_S)
            again = max(at, free_at) + THINKS_S * dice.uniform(0.5, 1.5)
            heapq.heappush(coming, (again, till, again, 0))
        else:
            heapq.heappush(coming, (at + pause(at - since, tries, dice), till, since, tries + 1))
    return found


def test_of_eight_tills_that_always_write_none_waits_long() -> None:
    """All turns together take 2 s; with SQLite's own waiting one step in seven is sent away after five."""
    fair, own = _waits(_in_turn), _waits(_as_sqlite_waits)
    assert sum(each >= PATIENCE_S for each in fair) == 0
    assert sum(each >= PATIENCE_S for each in own) > len(own) / 10


def test_pauses_grow_shorter_and_never_so_short_that_waiting_is_all_a_processor_does() -> None:
    pauses = [write_turns.pause(waited) for waited in (0.0, 0.05, 0.1, 1.0, 5.0)]
    assert pauses == sorted(pauses, reverse=True)
    assert pauses[0] == write_turns.FIRST_PAUSE_S
    assert pauses[-1] == write_turns.LAST_PAUSE_S
