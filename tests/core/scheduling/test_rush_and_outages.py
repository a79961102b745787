"""A rush tape that comes in is not begun where a planned outage of the deck would stop it."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from core.model.ranges import exactly
from core.scheduling import event_simulation, opening_hours, staffed_simulation
from core.scheduling.play_hours import PlayHours
from core.scheduling.simulated_shop import (
    DeckTimelines,
    InitialState,
    Part,
    Queue,
    RushKind,
    RushToCome,
    SeenStart,
    Turnout,
)
from core.scheduling.simulated_staff import Begun, Times
from tests.support.shops import fittings

CALENDAR = opening_hours.calendar(fittings(), date(2026, 3, 2))
HOURS = PlayHours(CALENDAR, 60.0)
NINE, TOMORROW = 540.0, 1440.0


def starts(rush: float, out: tuple[float, float], *, people: int, decks: int = 1) -> list[SeenStart]:
    """Where two tapes of an hour start, a rush tape having come in; the last deck is out."""
    every = tuple(range(decks))
    arrives = np.array([[NINE], [np.inf]])
    kind = RushKind(every, exactly(rush), rush, 1.0)
    coming = RushToCome(
        kind, HOURS.gate(rush), arrives, np.array([[rush]]), np.zeros(1, dtype=np.intp), arrives[0].copy()
    )
    seen: list[SeenStart] = []
    tapes = [Turnout(every, 60.0, 0.0, Part(np.full(1, -np.inf))) for _ in range(2)]
    queue = Queue(tapes, np.full((2, 1), 60.0), seen=seen)
    timelines = DeckTimelines(HOURS, np.full((decks, 1), NINE), {decks - 1: (out,)})
    initial = InitialState(timelines, 0.0, NINE, (coming,))
    if people:
        staffed_simulation.work_off(initial, queue, people, Times(0.0, 0.0, 0.0), (), Begun())
    else:
        event_simulation.work_off(initial, queue)
    return seen


@pytest.mark.parametrize("people", [0, 1, 2])
def test_a_rush_tape_waits_for_the_deck_to_be_back_and_then_goes_first(people: int) -> None:
    seen = starts(120.0, (NINE + 70, TOMORROW), people=people)
    assert seen == [SeenStart(0, 0, NINE), SeenStart(1, 0, TOMORROW + NINE + 120)]


@pytest.mark.parametrize("people", [0, 1, 2])
def test_one_that_ends_before_the_outage_goes_first(people: int) -> None:
    seen = starts(60.0, (NINE + 70, TOMORROW), people=people)
    assert [start.start for start in seen] == [TOMORROW + NINE, TOMORROW + NINE + 60]


@pytest.mark.parametrize("people", [0, 2])
def test_another_deck_takes_it(people: int) -> None:
    """On the deck that goes on the rush tape is first; the one that will be out plays what fits."""
    seen = starts(120.0, (NINE + 70, TOMORROW), people=people, decks=2)
    assert seen[0] == SeenStart(0, 1, NINE)
    assert all(start.start >= NINE + 120 for start in seen if start.deck == 0)
