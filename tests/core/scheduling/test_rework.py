"""A tape whose deck fails waits to be played again; a fifth that would wait plays on after the repair."""

from __future__ import annotations

import numpy as np
import pytest

from core.scheduling.opening_calendar import RETIRED
from core.scheduling.rework import Rework

COUNT = 5
FAILS_AFTER, REPAIR, CHECKED_AFTER = 20.0, 1e-9, 10.0
"""So short a repair that the minutes of the deck are those of the failure."""


@pytest.fixture
def rework() -> Rework:
    """Five tapes on two decks, of which the second plays the last tape only."""
    plays = np.array([*[[True, False]] * (COUNT - 1), [True, True], [False, False]])
    return Rework(plays, np.full((COUNT, 1), FAILS_AFTER), (REPAIR, CHECKED_AFTER), 1)


def fail(rework: Rework, tape: int, start: float) -> tuple[float, int]:
    """Until when the deck is busy, and how many tapes must be played again."""
    one = np.zeros(1, dtype=np.intp)
    busy, hit = rework.failing(one + tape, np.array([start]), np.array([start + 60]), one)
    return float(busy[0]), len(hit)


def first(rework: Rework, deck: int) -> tuple[np.ndarray, np.ndarray]:  # type: ignore[type-arg]
    """What waits for a deck in the only scenario: its line, and since when."""
    return rework.first(np.array([deck]), np.array([0]))


def test_a_tape_waits_from_the_failure_on_for_a_deck_that_plays_it(rework: Rework) -> None:
    assert fail(rework, 0, 100.0) == (pytest.approx(120.0), 1)
    line, since = first(rework, 0)
    assert (since[0], rework.tape[line[0], 0]) == (120.0, 0)
    assert first(rework, 1)[1][0] == RETIRED


def test_the_one_that_has_waited_longest_is_first_and_waits_no_more_once_taken(rework: Rework) -> None:
    fail(rework, 1, 200.0)
    fail(rework, 0, 100.0)
    line, since = first(rework, 0)
    assert since[0] == 120.0
    rework.take(line, np.array([0]))
    assert first(rework, 0)[1][0] == 220.0


def test_a_deck_fails_once_under_a_tape(rework: Rework) -> None:
    fail(rework, 0, 100.0)
    assert fail(rework, 0, 300.0) == (360.0, 0)


def test_with_four_waiting_a_fifth_plays_on(rework: Rework) -> None:
    for tape in range(4):
        fail(rework, tape, 100.0)
    assert fail(rework, 4, 100.0) == (pytest.approx(160.0), 0)
