"""What is left to play, as each deck sees it."""

from __future__ import annotations

import numpy as np
import pytest

from core.scheduling.ready_lists import ReadyLists

BOTH, FIRST, SECOND = (0, 1), (0,), (1,)
COLUMNS = np.arange(2)
NONE = 4


@pytest.fixture
def lists() -> ReadyLists:
    """Two decks, two scenarios; the third tape plays on the first deck only, the fourth on the second."""
    rows = ((60.0, BOTH), (120.0, BOTH), (90.0, FIRST), (60.0, SECOND))
    return ReadyLists([(decks, estimate) for estimate, decks in rows], 2, 2, 3)


def next_for(lists: ReadyLists, deck: int) -> list[int]:
    place = lists.next_on(lists.of(np.full(2, deck)))
    return [int(tape) for tape in lists.tape_at[place]]


def take(lists: ReadyLists, deck: int, farther: int, at: int) -> None:
    """The tape that lies so much farther than the first leaves, in one scenario."""
    mine = lists.of(np.full(2, deck))
    head = lists.next_on(mine)
    only = np.array([at])
    lists.take(mine[only], head[only], head[only] + farther, only)


def test_each_deck_sees_its_own_tapes_in_the_order_of_the_queue(lists: ReadyLists) -> None:
    assert next_for(lists, 0) == next_for(lists, 1) == [0, 0]
    assert list(lists.tapes_near(lists.first[[0, 2]])[0]) == [0, 1, 2]
    assert list(lists.tapes_near(lists.first[[0, 2]])[1]) == [0, 1, 3]


def test_a_tape_that_is_taken_leaves_every_ready_list_in_that_scenario(lists: ReadyLists) -> None:
    take(lists, deck=0, farther=0, at=1)
    assert next_for(lists, 0) == next_for(lists, 1) == [0, 1]


def test_what_was_fetched_forward_is_passed_over_later(lists: ReadyLists) -> None:
    take(lists, deck=0, farther=1, at=0)
    assert next_for(lists, 1) == [0, 0]
    take(lists, deck=1, farther=0, at=0)
    assert next_for(lists, 0) == [2, 0]
    assert next_for(lists, 1) == [3, 0]


def test_behind_the_last_tape_there_is_none_and_it_fits_nowhere(lists: ReadyLists) -> None:
    for _ in range(3):
        take(lists, deck=0, farther=0, at=0)
    assert next_for(lists, 0) == [NONE, 0]
    place = lists.next_on(lists.of(np.zeros(2, dtype=np.intp)))
    assert lists.ranks[lists.tape_at[place[0]]] == lists.bare > lists.longest_within(np.array([np.inf]))[0]
    assert lists.estimate_at[place[0]] == -np.inf


def test_estimates_are_compared_by_rank(lists: ReadyLists) -> None:
    assert list(lists.near(lists.first[:1], np.array([0]))[0]) == [1, 3, 2]
    assert list(lists.longest_within(np.array([59.9, 60.0, 119.0, 120.0]))) == [0, 1, 2, 3]


def test_what_was_never_taken_is_told_with_its_scenarios(lists: ReadyLists) -> None:
    take(lists, deck=0, farther=2, at=1)
    left = {int(tape): list(at) for tape, at in lists.never_taken(COLUMNS, COLUMNS)}
    assert left == {0: [0, 1], 1: [0, 1], 2: [0], 3: [0, 1]}
