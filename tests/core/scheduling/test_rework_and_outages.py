"""A tape that must be played again waits for a deck to be back in service, with people and without."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from core.scheduling import event_simulation, opening_hours, staffed_simulation
from core.scheduling.play_hours import PlayHours
from core.scheduling.simulated_shop import (
    DeckTimelines,
    InitialState,
    Part,
    Queue,
    SeenStart,
    Spans,
    Turnout,
)
from core.scheduling.simulated_staff import Begun, Times
from tests.support.shops import fittings

CALENDAR = opening_hours.calendar(fittings(), date(2026, 3, 2))
NINE, TOMORROW = 540.0, 1440.0
ALL_DAY = ((0.0, TOMORROW),)
SOON, LONG_REPAIR = 20.12345, 1e6
"""Minutes; a round failure would be repaired at once (`breakdowns.repair_after`)."""


def starts(
    queue: Queue, out: Spans, *, people: int = 0, decks: int = 2, free: float = NINE
) -> list[SeenStart]:
    """What is played where and when, the last deck out by plan; people, if any, need no time."""
    seen: list[SeenStart] = []
    queue = Queue(
        queue.tapes, queue.minutes, queue.fails_after, queue.repair, is_one_box=queue.is_one_box, seen=seen
    )
    timelines = DeckTimelines(PlayHours(CALENDAR, 60.0), np.full((decks, 1), free), {decks - 1: out})
    initial = InitialState(timelines, 0.0, free)
    if people:
        staffed_simulation.work_off(initial, queue, people, Times(0.0, 0.0, 0.0), (), Begun())
    else:
        event_simulation.work_off(initial, queue)
    return seen


def failing(*tapes: tuple[float, tuple[int, ...], float], is_one_box: bool = False) -> Queue:
    """Tapes of so many minutes on these decks, each with the minutes after which its deck fails."""
    made = [Turnout(decks, minutes, 0.0, Part(np.full(1, -np.inf))) for minutes, decks, _ in tapes]
    minutes, fails = (np.array([[tape[place]] for tape in tapes]) for place in (0, 2))
    return Queue(made, minutes, fails, LONG_REPAIR, is_one_box)


@pytest.mark.parametrize("people", [0, 2])
def test_an_idle_deck_that_is_out_by_plan_waits_with_it_until_it_is_back(people: int) -> None:
    seen = starts(failing((60.0, (0, 1), SOON)), ALL_DAY, people=people)
    assert seen == [SeenStart(0, 0, NINE), SeenStart(0, 1, TOMORROW + NINE)]


@pytest.mark.parametrize("people", [0, 2])
@pytest.mark.parametrize("is_one_box", [False, True])
def test_a_deck_that_is_held_for_a_tape_of_its_own_does_not_begin_it_sooner(
    people: int, is_one_box: bool
) -> None:
    tapes = failing((60.0, (0, 1), SOON), (30.0, (1,), np.inf), is_one_box=is_one_box)
    seen = starts(tapes, ALL_DAY, people=people)
    assert seen[0] == SeenStart(0, 0, NINE)
    assert sorted(start.tape for start in seen[1:]) == [0, 1]
    assert min(start.start for start in seen[1:]) == TOMORROW + NINE


@pytest.mark.parametrize("people", [0, 2])
def test_it_does_not_run_into_an_outage(people: int) -> None:
    seen = starts(failing((60.0, (0, 1), SOON)), ((NINE + 70, TOMORROW),), people=people)
    assert seen[-1] == SeenStart(0, 1, TOMORROW + NINE)
    seen = starts(failing((60.0, (0, 1), SOON)), ((NINE + 90, TOMORROW),), people=people)
    assert seen[-1] == SeenStart(0, 1, NINE + SOON)


@pytest.mark.parametrize("people", [0, 1, 3])
@pytest.mark.parametrize("seed", range(15))
def test_nothing_plays_on_a_deck_while_it_is_out_by_plan(seed: int, people: int) -> None:
    """Invented shops whose decks fail often; by the minutes tapes are planned with, failed or not."""
    dice = np.random.default_rng(seed)
    rows = [
        (
            float(dice.integers(5, 300)),
            tuple(range(int(dice.integers(0, 3)), 3)),
            float(dice.exponential(150)),
        )
        for _ in range(20)
    ]
    out = ((NINE + 200, NINE + 2_500), (NINE + 4_000, NINE + 6_000))
    seen = starts(failing(*rows), out, people=people, decks=3)
    assert len(seen) > len(rows)  # some were played again
    for tape, deck, start in seen:
        for begins, ends in out if deck == 2 else ():
            assert start + rows[tape][0] <= begins or start >= ends
