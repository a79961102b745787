"""A queue is worked off event by event, the same in every scenario as if it were alone."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

import numpy as np
import pytest

from core.model.ranges import exactly
from core.scheduling import dealt_box, event_simulation, opening_hours, rush_boxes
from core.scheduling.breakdowns import Breakdowns, fails_after
from core.scheduling.deck_timelines import Lanes
from core.scheduling.rush_boxes import Coming, Kind
from core.scheduling.waiting_tapes import BENCH, DECK, NIGHT, Ground, Part, Queue, Turnout
from tests.support.shops import fittings

CALENDAR = opening_hours.calendar(fittings(), date(2026, 3, 2), 60)
NINE, SIX, TOMORROW = 540.0, 1080.0, 1440.0
Play = Callable[[Ground, Queue], None]
either = pytest.mark.parametrize("play", [event_simulation.work_off, dealt_box.deal])


def ground(decks: int = 1, scenarios: int = 1, free: float = NINE, **changes: object) -> Ground:
    lanes = Lanes(CALENDAR, 60.0, np.full((decks, scenarios), free))
    lanes.out = changes.pop("out", {})  # type: ignore[assignment]
    return Ground(lanes, 5.0, NINE, **changes)  # type: ignore[arg-type]  # the names are those of Ground


def queue(*tapes: tuple[float, Sequence[int]], scenarios: int = 1, ready: float = NINE) -> Queue:
    """Tapes of exactly so many minutes, each a part of its own."""
    made = [
        Turnout(tuple(decks), minutes, ready, Part(np.full(scenarios, -np.inf))) for minutes, decks in tapes
    ]
    return Queue(made, np.repeat([[minutes] for minutes, _ in tapes], scenarios, axis=1).astype(float))


def ends(of: Queue) -> list[float]:
    return [float(tape.part.ends[0]) for tape in of.tapes]


def rush_tape(decks: tuple[int, ...], arrives: float, minutes: float) -> Coming:
    kind = Kind(decks, exactly(minutes), minutes, 1.0)
    gate = Lanes(CALENDAR, 60.0, np.zeros((1, 1))).gate(minutes)
    table = np.array([[arrives], [np.inf]])
    return Coming(kind, gate, table, np.array([[minutes]]), np.zeros(1, dtype=np.intp), table[0].copy())


@either
def test_tapes_go_to_the_deck_that_is_free_first(play: Play) -> None:
    tapes = queue((100, (0, 1)), (60, (0, 1)), (60, (0, 1)))
    play(ground(2), tapes)
    assert ends(tapes) == [NINE + 100, NINE + 60, NINE + 125]


@either
def test_at_the_end_of_the_day_the_longest_that_fits_is_fetched_forward(play: Play) -> None:
    tapes = queue((200, (0,)), (50, (0,)), (110, (0,)), (120, (0,)))
    play(ground(free=SIX - 55), tapes)
    assert ends(tapes) == [TOMORROW + NINE + 205, TOMORROW + NINE + 260, SIX - 55 + 110, ends(tapes)[3]]
    assert ends(tapes)[3] > ends(tapes)[0]


@either
def test_a_tape_for_other_decks_only_is_never_fetched(play: Play) -> None:
    tapes = queue((200, (0,)), (50, (1,)))
    play(ground(2, free=SIX - 55), tapes)
    assert ends(tapes) == [TOMORROW + NINE + 200, SIX - 5]


@either
def test_nothing_is_fetched_from_farther_behind_than_the_shop_looks(play: Play) -> None:
    tapes = queue((200, (0,)), (190, (0,)), (50, (0,)))
    play(ground(free=SIX - 55, fill=1), tapes)
    assert ends(tapes)[0] == TOMORROW + NINE + 200


@either
def test_a_rush_tape_that_has_come_in_goes_first(play: Play) -> None:
    tapes = queue((100, (0,)), (100, (0,)))
    play(ground(rush=(rush_tape((0,), NINE + 50, 30.0),)), tapes)
    assert ends(tapes) == [NINE + 100, NINE + 105 + 35 + 100]


@either
def test_a_rush_tape_for_other_decks_delays_nothing(play: Play) -> None:
    tapes = queue((100, (0,)), (100, (0,)))
    play(ground(2, rush=(rush_tape((1,), NINE + 50, 30.0),)), tapes)
    assert ends(tapes) == [NINE + 100, NINE + 205]


def test_rush_tapes_of_the_queue_are_not_overtaken_by_those_to_come() -> None:
    tapes = queue((100, (0,)), (100, (0,)))
    event_simulation.work_off(ground(rush=(rush_tape((0,), NINE, 30.0),), overtaken_from=1), tapes)
    assert ends(tapes) == [NINE + 100, NINE + 105 + 35 + 100]


@either
def test_a_deck_that_fails_is_away_and_its_tape_is_played_again(play: Play) -> None:
    tapes = queue((100, (0, 1)))
    broken = Queue(tapes.tapes, tapes.minutes, np.array([[40.0]]), 600.0)
    place = ground(2)
    place.lanes.free[1] = NINE + 10
    play(place, broken)
    assert ends(tapes) == [NINE + 40 + 100]  # on the other deck, from the moment of the failure
    assert place.lanes.free[0, 0] > NINE + 40


@either
def test_what_the_last_tape_waited_for_is_kept(play: Play) -> None:
    for free, ready, why in ((NINE, NINE, DECK), (SIX - 10, NINE, NIGHT), (NINE, NINE + 30, BENCH)):
        tapes = queue((200, (0,)), ready=ready)
        play(ground(free=free), tapes)
        assert tapes.tapes[0].part.share(why) == 1.0


@either
def test_a_deck_that_is_out_by_plan_is_used_again_afterwards(play: Play) -> None:
    tapes = queue((100, (0,)), (100, (0,)))
    play(ground(out={0: ((NINE + 150, TOMORROW + NINE + 60),)}), tapes)
    assert ends(tapes) == [NINE + 100, TOMORROW + NINE + 160]


@either
def test_beyond_the_calendar_nothing_ends(play: Play) -> None:
    tapes = queue(*[(500, (0,))] * 50)
    play(ground(), tapes)
    assert ends(tapes)[-1] == np.inf


def test_each_scenario_is_what_it_would_be_alone() -> None:
    """Sixty tapes on nested decks, ends of days, breakdowns: forty scenarios at once and one by one."""
    dice = np.random.default_rng(3)
    decks = [((0, 1, 2), (1, 2), (3,))[kind] for kind in dice.integers(3, size=60)]
    estimates = dice.choice([60.0, 115.0, 240.0], 60)
    minutes = estimates[:, None] * dice.uniform(0.4, 1.3, (60, 40))
    fails = fails_after(Breakdowns(2_000.0, 900.0), range(60), 1, 40)

    def worked_off(columns: slice) -> np.ndarray:  # type: ignore[type-arg]
        drawn = minutes[:, columns]
        rows = zip(decks, estimates, strict=True)
        made = [Turnout(each, float(e), NINE, Part(np.full(drawn.shape[1], -np.inf))) for each, e in rows]
        event_simulation.work_off(
            ground(4, drawn.shape[1]), Queue(made, drawn, fails[:, columns].copy(), 900.0)
        )
        return np.stack([tape.part.ends for tape in made])

    together = worked_off(slice(None))
    alone = np.concatenate([worked_off(slice(n, n + 1)) for n in range(40)], axis=1)
    assert (together == alone).all()
    assert np.isfinite(together).all()


@pytest.mark.parametrize("fill", [0, 20])
def test_a_short_row_is_dealt_as_a_queue_is_worked_off(fill: int) -> None:
    """Where decks of one kind are not decks of another the two ways agree to the minute."""
    dice = np.random.default_rng(4)
    decks = [((0, 1), (2,))[kind] for kind in dice.integers(2, size=40)]
    estimates = dice.choice([60.0, 115.0, 240.0], 40)
    minutes = estimates[:, None] * dice.uniform(0.4, 1.3, (40, 50))
    found = []
    for play in (event_simulation.work_off, dealt_box.deal):
        rows = zip(decks, estimates, strict=True)
        made = [Turnout(each, float(e), NINE, Part(np.full(50, -np.inf))) for each, e in rows]
        play(ground(3, 50, fill=fill), Queue(made, minutes))
        found.append(np.stack([tape.part.ends for tape in made]))
    assert (found[0] == found[1]).all()


def test_rush_boxes_come_as_often_and_as_full_as_is_expected() -> None:
    kind = Kind((0,), exactly(60.0), 60.0, 1.0)
    gate = Lanes(CALENDAR, 60.0, np.zeros((1, 1))).gate(60.0)
    pace = rush_boxes.Pace(every=540.0, tapes=4.0)
    (found,) = rush_boxes.coming([(kind, gate)], pace, CALENDAR, NINE, NINE + 27 * 1440, 5, 2_000)
    openings = float(CALENDAR.worked(np.array([NINE + 27 * 1440]))[0]) / 540
    counts = (found.arrives < np.inf).sum(axis=0)
    spread = np.sqrt(openings * (4**2 + 4 * 3))  # compound Poisson of geometric sizes
    assert counts.mean() == pytest.approx(openings * 4, abs=4 * spread / np.sqrt(2_000))
    assert counts.std() == pytest.approx(spread, rel=0.1)
    assert (np.diff(found.arrives[:20], axis=0)[np.isfinite(found.arrives[1:20])] >= 0).all()
