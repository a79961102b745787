"""People do one thing at a time: decks first, then checks, then the bench."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from core.model.ranges import Range
from core.scheduling import opening_hours, rush_boxes, staffed_simulation
from core.scheduling.breakdowns import Breakdowns, fails_after
from core.scheduling.play_hours import PlayHours
from core.scheduling.rush_boxes import RushRate
from core.scheduling.simulated_shop import DeckTimelines, InitialState, Part, Queue, RushKind, Turnout
from core.scheduling.simulated_staff import Begun, Bench, Found, Times
from tests.support.shops import fittings

CALENDAR = opening_hours.calendar(fittings(), date(2026, 3, 2), 90)
NINE, SIX, TOMORROW = 540.0, 1080.0, 1440.0
TIMES = Times(load=3.0, unload=2.0, check=8.0)


def worked(
    minutes: list[float], people: int, *, decks: int = 1, bench: float = 0.0, begin: float = NINE
) -> tuple[list[float], Found]:
    parts = [Part(np.full(1, -np.inf)) for _ in minutes]
    rows = zip(minutes, parts, strict=True)
    tapes = [Turnout(tuple(range(decks)), each, 0.0, part) for each, part in rows]
    timelines = DeckTimelines(PlayHours(CALENDAR, 60.0), np.full((decks, 1), begin))
    benches = [Bench(bench, part, place) for place, part in enumerate(parts)] if bench else []
    queue = Queue(tapes, np.array(minutes)[:, None])
    found = staffed_simulation.work_off(
        InitialState(timelines, 0.0, begin), queue, people, TIMES, benches, Begun()
    )
    return [float(part.ends[0]) for part in parts], found


def test_a_tape_is_loaded_played_unloaded_and_checked() -> None:
    assert worked([60.0], 1)[0] == [NINE + 3 + 60 + 2 + 8]


def test_the_next_tape_is_loaded_before_the_last_is_checked() -> None:
    ends, _ = worked([60.0, 60.0], 1)
    assert ends == [NINE + 63 + 5 + 8, NINE + 63 + 5 + 60 + 2 + 8]


def test_two_decks_done_at_once_wait_for_one_person_and_not_for_two() -> None:
    alone, found = worked([60.0, 57.0], 1, decks=2)
    assert alone == [NINE + 63 + 2 + 2 + 8, NINE + 63 + 2 + 2 + 16]
    assert found.wait == 1.0
    assert worked([60.0, 57.0], 2, decks=2)[0] == [NINE + 73, NINE + 70]


def test_a_tape_plays_when_it_has_been_looked_over() -> None:
    ends, found = worked([60.0], 1, bench=20.0)
    assert ends == [NINE + 20 + 73]
    assert found.bench_free[0] == NINE + 20


def test_nobody_drops_a_repair_for_a_deck() -> None:
    """The second repair begins when the first tape has been loaded, and the deck waits for its end."""
    ends, found = worked([30.0, 30.0], 1, bench=60.0)
    assert ends[0] == NINE + 60 + 3 + 60 + 5 + 8  # its 30 minutes are over long before
    assert found.wait == 15.0  # 30 minutes, and none for the second tape


def test_checks_rest_overnight() -> None:
    ends, _ = worked([100.0], 1, begin=SIX - 105)
    assert ends == [TOMORROW + NINE + 6 + 2]  # unloaded at 17:58, two minutes of the check are left for today


def test_a_tape_too_long_for_today_is_seen_to_in_the_morning() -> None:
    assert worked([200.0], 1, begin=SIX - 100)[0] == [TOMORROW + NINE + 213]


def test_more_people_than_work_are_as_good_as_none_waiting() -> None:
    _, found = worked([40.0] * 12, 12, decks=4)
    assert (found.wait, found.check) == (0.0, 8.0)


@pytest.mark.parametrize("seed", range(12))
def test_everything_is_played_once_and_checked_whatever_happens(seed: int) -> None:
    """Invented shops with rush boxes, failing decks, decks out by plan, cold tapes and endless tapes."""
    dice, scenarios = np.random.default_rng(seed), 40
    decks, count, people = (int(dice.integers(1, most)) for most in (6, 50, 4))
    kinds = [tuple(sorted(dice.choice(decks, dice.integers(1, decks + 1), False).tolist())) for _ in "abc"]
    minutes = dice.uniform(5, 500, (count, scenarios))
    parts = [Part(np.full(scenarios, -np.inf)) for _ in range(count)]
    tapes = [
        Turnout(kinds[dice.integers(3)], float(dice.integers(5, 700)), float(dice.choice([0, 900])), part)
        for part in parts
    ]
    out = {0: ((NINE + 500, NINE + 3_000),)}
    timelines = DeckTimelines(PlayHours(CALENDAR, 60.0), np.full((decks, scenarios), NINE), out)
    rushed = [
        (RushKind(kind, Range(20, 50, 90), 60.0, 1.0), timelines.hours.gate(60.0))
        for kind in dict.fromkeys(kinds)
    ]
    coming = rush_boxes.coming(
        rushed, RushRate(600.0, 3.0), CALENDAR, NINE, NINE + 30 * 1440, seed, scenarios
    )
    queue = Queue(tapes, minutes, fails_after(Breakdowns(900.0, 800.0), range(count), seed, scenarios), 800.0)
    benches = [Bench(15.0, part, place) for place, part in enumerate(parts) if place % 3]
    staffed_simulation.work_off(
        InitialState(timelines, 0.0, NINE, coming, overtaken_from=2), queue, people, TIMES, benches, Begun()
    )
    ends = np.stack([part.ends for part in parts])
    assert (ends >= NINE + 3 + minutes + 2 + 8 - 1e-9).all()
    assert np.isfinite(ends).mean() > 0.9


def test_a_queue_longer_than_the_calendar_comes_to_no_end() -> None:
    ends, _ = worked([500.0] * 90, 1)
    assert ends[-1] == np.inf


def test_what_is_under_way_is_seen_to() -> None:
    playing, checking = Part(np.full(1, -np.inf)), Part(np.full(1, -np.inf))
    timelines = DeckTimelines(PlayHours(CALENDAR, 60.0), np.full((1, 1), NINE))
    begun = Begun([(0, np.array([NINE + 30.0]), playing)], [checking])
    staffed_simulation.work_off(
        InitialState(timelines, 0.0, NINE), Queue([], np.empty((0, 1))), 1, TIMES, [], begun
    )
    assert (checking.ends[0], playing.ends[0]) == (NINE + 8, NINE + 40)
