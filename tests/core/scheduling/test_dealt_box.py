"""The box on the counter is dealt behind the queue; decks that fail have their tape played again."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from core.model.ranges import Range
from core.scheduling import dealt_box, opening_hours, rush_boxes
from core.scheduling.breakdowns import Breakdowns, fails_after
from core.scheduling.deck_timelines import Lanes
from core.scheduling.rush_boxes import Coming, Kind, Pace
from core.scheduling.waiting_tapes import Ground, Part, Queue, Turnout
from tests.support.shops import fittings

CALENDAR = opening_hours.calendar(fittings(), date(2026, 3, 2), 200)
NINE, SIX = 540.0, 1080.0


def ground(decks: int, scenarios: int, free: float = NINE) -> Ground:
    return Ground(Lanes(CALENDAR, 60.0, np.full((decks, scenarios), free)), 5.0, NINE)


def only(coming: Coming, columns: slice) -> Coming:
    """The same rush tapes in some scenarios."""
    return replace(
        coming,
        arrives=coming.arrives[:, columns],
        minutes=coming.minutes[:, columns],
        place=coming.place[columns].copy(),
        next=coming.next[columns].copy(),
    )


def turnouts(rows: list[tuple[tuple[int, ...], float]], scenarios: int) -> list[Turnout]:
    return [Turnout(decks, minutes, NINE, Part(np.full(scenarios, -np.inf))) for decks, minutes in rows]


@pytest.mark.parametrize("decks", [((0, 1),), ((0, 1), (1,), (2, 0))], ids=["alike", "unlike"])
def test_each_scenario_is_what_it_would_be_alone(decks: tuple[tuple[int, ...], ...]) -> None:
    """With rush tapes to come, a deck that is away, and so many failures that other tapes are played again
    in neighbouring scenarios."""
    dice = np.random.default_rng(3)
    lengths = dice.choice([60.0, 115.0, 240.0], 20)
    rows = [(decks[n % len(decks)], float(minutes)) for n, minutes in enumerate(lengths)]
    minutes = lengths[:, None] * dice.uniform(0.4, 1.3, (20, 40))
    fails = fails_after(Breakdowns(1_500.0, 900.0), range(20), 1, 40)
    kind = Kind((0, 1), Range(30, 60, 90), 70.0, 1.0)
    gate = ground(1, 1).lanes.gate(70.0)
    (coming,) = rush_boxes.coming([(kind, gate)], Pace(900.0, 3.0), CALENDAR, NINE, 20_000.0, 5, 40)

    def dealt(columns: slice) -> np.ndarray:  # type: ignore[type-arg]
        drawn = minutes[:, columns]
        tapes = turnouts(rows, drawn.shape[1])
        place = ground(3, drawn.shape[1])
        place.lanes.out = {1: ((NINE + 2_000, NINE + 6_000),)}
        place = replace(place, rush=(only(coming, columns),))
        dealt_box.deal(place, Queue(tapes, drawn, fails[:, columns].copy(), 900.0))
        return np.stack([tape.part.ends for tape in tapes])

    together = dealt(slice(None))
    assert (together == np.concatenate([dealt(slice(n, n + 1)) for n in range(40)], axis=1)).all()
    assert np.isfinite(together).all()


def test_the_end_of_the_day_is_not_filled_with_what_has_been_played_already() -> None:
    """The long tape is played again tomorrow; the short one was played while its deck was away."""
    tapes = turnouts([((0,), 200.0), ((0,), 50.0)], 1)
    place = ground(1, 1, free=SIX - 220)
    fails = np.array([[40.0], [np.inf]])
    dealt_box.deal(place, Queue(tapes, np.array([[200.0], [50.0]]), fails, 1e-9))
    long, short = (float(tape.part.ends[0]) for tape in tapes)
    assert abs(short - (SIX - 220 + 40 + 5 + 50)) < 1e-3
    assert long == 1440 + NINE + 200
