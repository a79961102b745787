"""What is left to play, as each deck sees it."""

from __future__ import annotations

import numpy as np
import pytest

from core.scheduling.ready_lists import ReadyLists

BOTH, FIRST, SECOND = (0, 1), (0,), (1,)
COLUMNS = np.arange(2)
NONE = 4


@pytest.fixture
def trays() -> ReadyLists:
    """Two decks, two scenarios; the third tape plays on the first deck only, the fourth on the second."""
    rows = ((60.0, BOTH), (120.0, BOTH), (90.0, FIRST), (60.0, SECOND))
    return ReadyLists([(decks, estimate) for estimate, decks in rows], 2, 2, 3)


def next_for(trays: ReadyLists, deck: int) -> list[int]:
    place, _ = trays.next_on(trays.of(np.full(2, deck), COLUMNS))
    return [int(tape) for tape in trays.tape_at[place]]


def take(trays: ReadyLists, deck: int, farther: int, at: int) -> None:
    """The tape that lies so much farther than the first leaves, in one scenario."""
    tray = trays.of(np.full(2, deck), COLUMNS)
    head, _ = trays.next_on(tray)
    only = np.array([at])
    trays.take(tray[only], head[only], head[only] + farther, only)


def test_each_deck_sees_its_own_tapes_in_the_order_of_the_queue(trays: ReadyLists) -> None:
    assert next_for(trays, 0) == next_for(trays, 1) == [0, 0]
    assert list(trays.tapes_near(trays.first[[0, 2]])[0]) == [0, 1, 2]
    assert list(trays.tapes_near(trays.first[[0, 2]])[1]) == [0, 1, 3]


def test_a_tape_that_is_taken_leaves_every_tray_in_that_scenario(trays: ReadyLists) -> None:
    take(trays, deck=0, farther=0, at=1)
    assert next_for(trays, 0) == next_for(trays, 1) == [0, 1]


def test_what_was_fetched_forward_is_passed_over_later(trays: ReadyLists) -> None:
    take(trays, deck=0, farther=1, at=0)
    assert next_for(trays, 1) == [0, 0]
    take(trays, deck=1, farther=0, at=0)
    assert next_for(trays, 0) == [2, 0]
    assert next_for(trays, 1) == [3, 0]


def test_behind_the_last_tape_there_is_none_and_it_fits_nowhere(trays: ReadyLists) -> None:
    for _ in range(3):
        take(trays, deck=0, farther=0, at=0)
    assert next_for(trays, 0) == [NONE, 0]
    _, rank = trays.next_on(trays.of(np.zeros(2, dtype=np.intp), COLUMNS))
    assert rank[0] == trays.bare > trays.longest_within(np.array([np.inf]))[0]


def test_estimates_are_compared_by_rank(trays: ReadyLists) -> None:
    assert list(trays.near(trays.first[:1], np.array([0]))[0]) == [1, 3, 2]
    assert list(trays.longest_within(np.array([59.9, 60.0, 119.0, 120.0]))) == [0, 1, 2, 3]


def test_what_was_never_taken_is_told_with_its_scenarios(trays: ReadyLists) -> None:
    take(trays, deck=0, farther=2, at=1)
    left = {int(tape): list(at) for tape, at in trays.never_taken()}
    assert left == {0: [0, 1], 1: [0, 1], 2: [0], 3: [0, 1]}
