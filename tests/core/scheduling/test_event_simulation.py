"""A queue is worked off event by event, the same in every scenario as if it were alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any

import numpy as np
import pytest

from core.model.ranges import Range, exactly
from core.scheduling import event_simulation, opening_hours, rush_boxes
from core.scheduling.breakdowns import Breakdowns, fails_after
from core.scheduling.next_event import BENCH, DECK, NIGHT
from core.scheduling.play_hours import PlayHours
from core.scheduling.simulated_shop import (
    DeckTimelines,
    InitialState,
    Part,
    Queue,
    RushKind,
    RushToCome,
    Turnout,
)
from tests.support.shops import fittings

CALENDAR = opening_hours.calendar(fittings(), date(2026, 3, 2), 60)
NINE, SIX, TOMORROW = 540.0, 1080.0, 1440.0


def initial(decks: int = 1, scenarios: int = 1, free: float = NINE, **changes: object) -> InitialState:
    out: dict[int, tuple[tuple[float, float], ...]] = changes.pop("out", {})  # type: ignore[assignment]
    timelines = DeckTimelines(PlayHours(CALENDAR, 60.0), np.full((decks, scenarios), free), out)
    return InitialState(timelines, 5.0, NINE, **changes)  # type: ignore[arg-type]  # the names are those of InitialState


def queue(*tapes: tuple[float, Sequence[int]], scenarios: int = 1, ready: float = NINE) -> Queue:
    """Tapes of exactly so many minutes, each a part of its own."""
    made = [
        Turnout(tuple(decks), minutes, ready, Part(np.full(scenarios, -np.inf))) for minutes, decks in tapes
    ]
    return Queue(made, np.repeat([[minutes] for minutes, _ in tapes], scenarios, axis=1).astype(float))


def ends(of: Queue) -> list[float]:
    return [float(tape.part.ends[0]) for tape in of.tapes]


def rush_tape(decks: tuple[int, ...], arrives: float, minutes: float) -> RushToCome:
    kind = RushKind(decks, exactly(minutes), minutes, 1.0)
    gate = PlayHours(CALENDAR, 60.0).gate(minutes)
    table = np.array([[arrives], [np.inf]])
    return RushToCome(kind, gate, table, np.array([[minutes]]), np.zeros(1, dtype=np.intp), table[0].copy())


def test_tapes_go_to_the_deck_that_is_free_first() -> None:
    tapes = queue((100, (0, 1)), (60, (0, 1)), (60, (0, 1)))
    event_simulation.work_off(initial(2), tapes)
    assert ends(tapes) == [NINE + 100, NINE + 60, NINE + 125]


def test_at_the_end_of_the_day_the_longest_that_fits_is_fetched_forward() -> None:
    tapes = queue((200, (0,)), (50, (0,)), (110, (0,)), (120, (0,)))
    event_simulation.work_off(initial(free=SIX - 55), tapes)
    assert ends(tapes) == [TOMORROW + NINE + 205, TOMORROW + NINE + 260, SIX - 55 + 110, ends(tapes)[3]]
    assert ends(tapes)[3] > ends(tapes)[0]


def test_a_tape_for_other_decks_only_is_never_fetched() -> None:
    tapes = queue((200, (0,)), (50, (1,)))
    event_simulation.work_off(initial(2, free=SIX - 55), tapes)
    assert ends(tapes) == [TOMORROW + NINE + 200, SIX - 5]


def test_nothing_is_fetched_from_farther_behind_than_the_shop_looks() -> None:
    tapes = queue((200, (0,)), (190, (0,)), (50, (0,)))
    event_simulation.work_off(initial(free=SIX - 55, fill=1), tapes)
    assert ends(tapes)[0] == TOMORROW + NINE + 200


def test_a_rush_tape_that_has_come_in_goes_first() -> None:
    tapes = queue((100, (0,)), (100, (0,)))
    event_simulation.work_off(initial(rush=(rush_tape((0,), NINE + 50, 30.0),)), tapes)
    assert ends(tapes) == [NINE + 100, NINE + 105 + 35 + 100]


def test_a_rush_tape_for_other_decks_delays_nothing() -> None:
    tapes = queue((100, (0,)), (100, (0,)))
    event_simulation.work_off(initial(2, rush=(rush_tape((1,), NINE + 50, 30.0),)), tapes)
    assert ends(tapes) == [NINE + 100, NINE + 205]


def test_rush_tapes_of_the_queue_are_not_overtaken_by_those_to_come() -> None:
    tapes = queue((100, (0,)), (100, (0,)))
    event_simulation.work_off(initial(rush=(rush_tape((0,), NINE, 30.0),), overtaken_from=1), tapes)
    assert ends(tapes) == [NINE + 100, NINE + 105 + 35 + 100]


def test_a_deck_that_fails_is_away_and_its_tape_is_played_again() -> None:
    tapes = queue((100, (0, 1)))
    broken = Queue(tapes.tapes, tapes.minutes, np.array([[40.0]]), 600.0)
    place = initial(2)
    place.timelines.free[1] = NINE + 10
    event_simulation.work_off(place, broken)
    assert ends(tapes) == [NINE + 40 + 100]  # on the other deck, from the moment of the failure
    assert place.timelines.free[0, 0] > NINE + 40


@pytest.mark.parametrize(("is_one_box", "order"), [(False, [0, 1]), (True, [1, 0])])
def test_a_failed_tape_goes_before_the_queue_and_behind_its_own_box(
    is_one_box: bool, order: list[int]
) -> None:
    tapes = queue((200, (0,)), (50, (0,)))
    broken = Queue(tapes.tapes, tapes.minutes, np.array([[40.0], [np.inf]]), 1e-9, is_one_box)
    event_simulation.work_off(initial(), broken)
    assert sorted(range(2), key=ends(broken).__getitem__) == order


def test_a_failed_tape_of_a_box_waits_for_tomorrow_when_its_others_have_filled_the_day() -> None:
    tapes = queue((200, (0,)), (50, (0,)))
    broken = Queue(tapes.tapes, tapes.minutes, np.array([[40.0], [np.inf]]), 1e-9, is_one_box=True)
    event_simulation.work_off(initial(free=SIX - 220), broken)
    assert ends(broken) == pytest.approx([TOMORROW + NINE + 200, SIX - 220 + 40 + 5 + 50])


def test_what_the_last_tape_waited_for_is_kept() -> None:
    for free, ready, why in ((NINE, NINE, DECK), (SIX - 10, NINE, NIGHT), (NINE, NINE + 30, BENCH)):
        tapes = queue((200, (0,)), ready=ready)
        event_simulation.work_off(initial(free=free), tapes)
        assert tapes.tapes[0].part.share(why) == 1.0


def test_a_deck_that_is_out_by_plan_is_used_again_afterwards() -> None:
    tapes = queue((100, (0,)), (100, (0,)))
    event_simulation.work_off(initial(out={0: ((NINE + 150, TOMORROW + NINE + 60),)}), tapes)
    assert ends(tapes) == [NINE + 100, TOMORROW + NINE + 160]


def test_beyond_the_calendar_nothing_ends() -> None:
    tapes = queue(*[(500, (0,))] * 50)
    event_simulation.work_off(initial(), tapes)
    assert ends(tapes)[-1] == np.inf


class Queued:
    """Sixty tapes on decks that differ, with rush tapes to come, a deck out by plan, failures, and a bench
    that lets each go at another moment in another scenario; so much that scenarios end far apart."""

    def __init__(self, count: int) -> None:
        dice = np.random.default_rng(3)
        self.decks = [((0, 1, 2), (1, 2), (3,))[kind] for kind in dice.integers(3, size=count)]
        self.estimates = dice.choice([60.0, 115.0, 240.0], count)
        self.minutes = self.estimates[:, None] * dice.uniform(0.4, 1.3, (count, 40))
        self.ready = NINE + dice.choice([0.0, 700.0, 3_000.0], (count, 1)) * dice.uniform(0, 1, (count, 40))
        self.fails = fails_after(Breakdowns(2_000.0, 900.0), range(count), 1, 40)
        kind = RushKind((0, 1), Range(30, 60, 90), 70.0, 1.0)
        gate = initial().timelines.hours.gate(70.0)
        pace = rush_boxes.RushRate(900.0, 3.0)
        (self.coming,) = rush_boxes.coming([(kind, gate)], pace, CALENDAR, NINE, 20_000.0, 5, 40)

    def ends(self, columns: slice, *, waits: bool) -> np.ndarray:  # type: ignore[type-arg]
        """When each tape ends, in some of the scenarios."""
        drawn = self.minutes[:, columns]
        ready = self.ready[:, columns] if waits else [NINE] * len(drawn)
        rows = zip(self.decks, self.estimates, ready, strict=True)
        made = [
            Turnout(decks, float(estimate), since, Part(np.full(drawn.shape[1], -np.inf)))
            for decks, estimate, since in rows
        ]
        place = initial(
            4, drawn.shape[1], rush=(only(self.coming, columns),), out={1: ((NINE + 2_000, NINE + 6_000),)}
        )
        event_simulation.work_off(place, Queue(made, drawn, self.fails[:, columns].copy(), 900.0))
        return np.stack([tape.part.ends for tape in made])


def only(coming: RushToCome, columns: slice) -> RushToCome:
    """The same rush tapes in some scenarios."""
    return replace(
        coming,
        arrives=coming.arrives[:, columns],
        minutes=coming.minutes[:, columns],
        place=coming.place[columns].copy(),
        next=coming.next[columns].copy(),
    )


@pytest.mark.parametrize("waits", [False, True], ids=["ready", "from the bench"])
@pytest.mark.parametrize("count", [12, 60])
def test_each_scenario_is_what_it_would_be_alone(count: int, waits: bool) -> None:
    tapes = Queued(count)
    together = tapes.ends(slice(None), waits=waits)
    alone = np.concatenate([tapes.ends(slice(n, n + 1), waits=waits) for n in range(40)], axis=1)
    assert (together == alone).all()
    assert np.isfinite(together).all()


def test_rush_boxes_come_as_often_and_as_full_as_is_expected() -> None:
    kind = RushKind((0,), exactly(60.0), 60.0, 1.0)
    gate = PlayHours(CALENDAR, 60.0).gate(60.0)
    pace = rush_boxes.RushRate(every=540.0, tapes=4.0)
    (found,) = rush_boxes.coming([(kind, gate)], pace, CALENDAR, NINE, NINE + 27 * 1440, 5, 2_000)
    openings = float(CALENDAR.worked(np.array([NINE + 27 * 1440]))[0]) / 540
    counts = (found.arrives < np.inf).sum(axis=0)
    spread = np.sqrt(openings * (4**2 + 4 * 3))  # compound Poisson of geometric sizes
    assert counts.mean() == pytest.approx(openings * 4, abs=4 * spread / np.sqrt(2_000))
    assert counts.std() == pytest.approx(spread, rel=0.1)
    assert (np.diff(found.arrives[:20], axis=0)[np.isfinite(found.arrives[1:20])] >= 0).all()


def test_a_scenario_is_left_out_with_its_last_tape(monkeypatch: pytest.MonkeyPatch) -> None:
    """In half of the scenarios a deck finds nothing before the other is free: they alone take a fifth."""
    rows: list[int] = []
    play = event_simulation.EventSimulation._play

    def counted(self: event_simulation.EventSimulation, event: Any) -> Any:
        rows.append(len(event.spot))
        return play(self, event)

    monkeypatch.setattr(event_simulation.EventSimulation, "_play", counted)
    place = initial(2, 400)
    place.timelines.free[1, :200] = NINE + 300
    event_simulation.work_off(place, queue((60, (0, 1)), (60, (0,)), (60, (0,)), (200, (1,)), scenarios=400))
    assert rows == [400, 400, 400, 400, 200]
