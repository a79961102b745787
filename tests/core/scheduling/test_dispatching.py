"""Tapes and boxes are put in an order that finishes early and breaks no date."""

from __future__ import annotations

from itertools import permutations
from random import Random

import pytest

from core.model.ranges import exactly
from core.scheduling.deck_choice import Suited
from core.scheduling.dispatching import (
    PlannedPlay,
    Task,
    arranged,
    by_rule,
    finishes,
    improved,
    in_dispatching_order,
)
from core.scheduling.plan_records import Step

IDLE = Task((0.0, 0.0), 0.0, {})


def step(key: int, box: int, decks: tuple[int, ...], minutes: float) -> Step:
    return Step(key, box, Suited(decks, "VHS"), exactly(minutes), 0.0)


def play(key: int, box: int, minutes: float, decks: tuple[int, ...] = (0, 1)) -> PlannedPlay:
    return PlannedPlay(key, box, decks, minutes)


def keys(order: list[PlannedPlay]) -> list[int]:
    return [each.key for each in order]


def test_within_a_box_the_least_flexible_tape_goes_first_and_then_the_longest() -> None:
    steps = [step(1, 7, (0, 1), 60), step(2, 7, (0, 1), 90), step(3, 7, (1,), 30), step(4, 5, (0,), 99)]
    assert [each.key for each in in_dispatching_order(steps)] == [3, 2, 1, 4]


def test_boxes_whose_dates_can_be_kept_go_by_their_dates() -> None:
    plays = [play(1, 1, 60), play(2, 2, 60), play(3, 3, 60)]
    task = Task((0.0,), 0.0, {1: 900.0, 2: 500.0, 3: 700.0})
    one_deck = [PlannedPlay(each.key, each.box, (0,), each.minutes) for each in plays]
    assert keys(by_rule(one_deck, task)) == [2, 3, 1]


def test_boxes_that_are_late_anyway_go_shortest_first() -> None:
    plays = [PlannedPlay(1, 1, (0,), 300.0), PlannedPlay(2, 2, (0,), 100.0), PlannedPlay(3, 3, (0,), 200.0)]
    assert keys(by_rule(plays, Task((0.0,), 0.0, {1: 0.0, 2: 0.0, 3: 0.0}))) == [2, 3, 1]


def test_a_box_that_can_still_be_in_time_goes_before_one_that_cannot() -> None:
    plays = [PlannedPlay(1, 1, (0,), 300.0), PlannedPlay(2, 2, (0,), 100.0)]
    assert keys(by_rule(plays, Task((0.0,), 0.0, {1: 50.0, 2: 100.0}))) == [2, 1]


def test_finishes_count_the_minutes_between_two_tapes() -> None:
    plays = [PlannedPlay(1, 1, (0,), 60.0), PlannedPlay(2, 2, (0,), 60.0)]
    assert finishes(plays, Task((10.0,), 5.0, {})) == {1: 70.0, 2: 135.0}


def test_a_search_never_ends_with_a_worse_order_than_it_began_with() -> None:
    dice = Random(1)
    for seed in range(20):
        plays = [play(n, n // 3, dice.uniform(30, 240)) for n in range(12)]
        rule = by_rule(plays, IDLE)
        better = improved(rule, IDLE, seed, 60)
        assert sorted(keys(better)) == sorted(keys(plays))
        assert sum(finishes(better, IDLE).values()) <= sum(finishes(rule, IDLE).values())


def test_a_date_that_the_order_given_keeps_is_kept_whatever_it_would_bring_to_break_it() -> None:
    """The long box came first and is promised; five short ones behind it would all be sooner without it."""
    long = PlannedPlay(0, 0, (0,), 300.0)
    short = [PlannedPlay(n, n, (0,), 60.0) for n in range(1, 6)]
    task = Task((0.0,), 0.0, {0: 300.0})
    found = arranged([long, *short], task, 3)
    assert finishes(found, task)[0] == 300.0
    free = arranged([long, *short], Task((0.0,), 0.0, {}), 3)
    assert finishes(free, task)[0] == 600.0


def test_a_promised_box_that_waits_for_no_deck_is_left_out() -> None:
    """Its tapes are at the bench, or done: there is nothing of it to put in order."""
    plays = [PlannedPlay(n, n, (0,), 300.0 - 60 * n) for n in range(3)]
    found = arranged(plays, Task((0.0,), 0.0, {0: 900.0, 7: 60.0}), 3)
    assert sorted(finishes(found, IDLE)) == [0, 1, 2]


@pytest.mark.parametrize("seed", range(6))
def test_small_queues_are_ordered_within_a_twentieth_of_the_best(seed: int) -> None:
    """Every order of seven tapes is tried: the best sum of box finishes on two decks."""
    dice = Random(seed)
    decks = [(0,), (1,), (0, 1)]
    plays = [play(n, n % 3, dice.uniform(30, 240), dice.choice(decks)) for n in range(7)]
    best = min(sum(finishes(order, IDLE).values()) for order in permutations(plays))
    assert sum(finishes(arranged(plays, IDLE, seed), IDLE).values()) <= 1.05 * best
