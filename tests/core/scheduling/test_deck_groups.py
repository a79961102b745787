"""Decks that share no tape are worked off by themselves, and nothing comes out otherwise."""

from __future__ import annotations

from datetime import date

import numpy as np

from core.model.ranges import Range
from core.scheduling import event_simulation, opening_hours, rush_boxes
from core.scheduling.breakdowns import Breakdowns, fails_after
from core.scheduling.play_hours import PlayHours
from core.scheduling.rush_boxes import RushRate
from core.scheduling.simulated_shop import (
    DeckTimelines,
    InitialState,
    Part,
    Queue,
    RushKind,
    RushToCome,
    Turnout,
    deck_groups,
)
from tests.support.shops import fittings

CALENDAR = opening_hours.calendar(fittings(), date(2026, 3, 2), 200)
NINE, DECKS, SCENARIOS = 540.0, 7, 12
KINDS = ((0, 3), (3, 5), (1,), (2, 4))
OUT = {1: ((NINE + 900, NINE + 4_000),), 4: ((NINE, NINE + 1_500),)}


def initial(rush: tuple[RushToCome, ...] = ()) -> InitialState:
    free = NINE + np.arange(DECKS * SCENARIOS, dtype=np.float64).reshape(DECKS, SCENARIOS)
    return InitialState(
        DeckTimelines(PlayHours(CALENDAR, 60.0), free, OUT), 5.0, NINE, rush, overtaken_from=4
    )


def coming() -> tuple[RushToCome, ...]:
    """Rush tapes for decks of two kinds, and so of one group."""
    kind = RushKind((1, 4), Range(30, 60, 90), 70.0, 1.0)
    gate = initial().timelines.hours.gate(70.0)
    return tuple(
        rush_boxes.coming([(kind, gate)], RushRate(1_500.0, 2.0), CALENDAR, NINE, 30_000.0, 5, SCENARIOS)
    )


def queue(tapes: int = 70) -> Queue:
    dice = np.random.default_rng(8)
    decks = [KINDS[kind] for kind in dice.integers(len(KINDS), size=tapes)]
    estimates = dice.choice([60.0, 115.0, 240.0], tapes)
    minutes = estimates[:, None] * dice.uniform(0.4, 1.3, (tapes, SCENARIOS))
    fails = fails_after(Breakdowns(6_000.0, 900.0), range(tapes), 1, SCENARIOS)
    parts = [Part(np.full(SCENARIOS, -np.inf)) for _ in range(tapes)]
    rows = zip(decks, estimates, parts, strict=True)
    return Queue([Turnout(each, float(e), NINE, part) for each, e, part in rows], minutes, fails, 900.0)


def test_decks_are_of_one_group_when_a_tape_may_play_on_either() -> None:
    assert sorted(group.decks for group in deck_groups(initial(), queue())) == [(0, 3, 5), (1,), (2, 4)]


def test_rush_tapes_to_come_join_the_groups_of_their_decks() -> None:
    found = sorted(group.decks for group in deck_groups(initial(coming()), queue()))
    assert found == [(0, 3, 5), (1, 2, 4)]


def test_every_tape_is_in_one_group_with_its_own_minutes() -> None:
    whole = queue()
    seen = []
    for group in deck_groups(initial(), whole):
        for tape, minutes in zip(group.queue.tapes, group.queue.minutes, strict=True):
            place = next(n for n, each in enumerate(whole.tapes) if each.part is tape.part)
            assert tuple(group.decks[deck] for deck in tape.decks) == whole.tapes[place].decks
            assert (minutes == whole.minutes[place]).all()
            seen.append(place)
    assert sorted(seen) == list(range(len(whole.tapes)))


def test_group_by_group_all_comes_out_as_on_the_whole_shop() -> None:
    """With rush tapes to come, outages by plan and decks that fail."""
    rush_tapes = coming()
    together, apart = queue(), queue()
    whole, split = initial(tuple(each.copy() for each in rush_tapes)), initial(rush_tapes)
    event_simulation.EventSimulation(whole, together).run()
    minutes = apart.minutes.copy()
    event_simulation.work_off(split, apart)
    for one, other in zip(together.tapes, apart.tapes, strict=True):
        assert (one.part.ends == other.part.ends).all()
        assert (one.part.why == other.part.why).all()
    assert (whole.timelines.free == split.timelines.free).all()
    assert (whole.rush[0].place == split.rush[0].place).all()
    assert (apart.minutes == minutes).all()


def test_a_deck_without_tapes_stays_as_it_is() -> None:
    place = initial()
    before = place.timelines.free[6].copy()
    event_simulation.work_off(place, queue())
    assert (place.timelines.free[6] == before).all()
    assert (place.timelines.free[:6] > before.max()).all()
