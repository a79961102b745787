"""Play times of a plan are drawn once and are the same whenever they are asked for."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest

from core import customer_habits, lengths
from core.habits import STARTING
from core.inventory import TapeLine
from core.lengths import DrawnAs
from core.names import FormatName, Speed
from core.possibilities import facts
from core.ranges import Range

USUAL = Range(30, 60, 90)


@dataclass(frozen=True, slots=True)
class Tape:
    key: int
    drawn_as: DrawnAs | None
    box: int = 77
    minutes: Range = USUAL


SLOW = (facts(TapeLine(1, FormatName("vhs"), speed=Speed.EP)), STARTING)
UNKNOWN = (facts(TapeLine(1, FormatName("vhs"))), STARTING)
SMALL = (facts(TapeLine(1, FormatName("hi8"))), STARTING)


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[tuple[int, ...]]:
    """The keys of what is really drawn, call by call."""
    lengths._drawn_of.cache_clear()
    calls: list[tuple[int, ...]] = []
    really = customer_habits.draws_of_job

    def draw(tapes, keys, box):  # type: ignore[no-untyped-def]
        calls.append(tuple(keys))
        return really(tapes, keys, box)

    monkeypatch.setattr(customer_habits, "draws_of_job", draw)
    return calls


def test_a_tape_that_joins_the_box_is_drawn_and_no_other_again(drawn: list[tuple[int, ...]]) -> None:
    box = [Tape(1, SLOW), Tape(2, UNKNOWN)]
    before = lengths.lengths(box, 5, 40)
    after = lengths.lengths([box[0], Tape(3, SMALL), box[1]], 5, 40)
    assert drawn == [(1, 2), (3,)]
    assert (after[[0, 2]] == before).all()


def test_what_is_remembered_is_what_would_be_drawn() -> None:
    tapes = [Tape(n, (SLOW, UNKNOWN, SMALL)[n % 3]) for n in range(9)]
    lengths._drawn_of.cache_clear()
    for many in (2, 5, 9):
        step_by_step = lengths.lengths(tapes[:many], 5, 40)
    lengths._drawn_of.cache_clear()
    assert (step_by_step == lengths.lengths(tapes, 5, 40)).all()


def test_a_tape_of_which_something_else_is_known_is_drawn_anew(drawn: list[tuple[int, ...]]) -> None:
    before = lengths.lengths([Tape(1, UNKNOWN)], 5, 40)
    after = lengths.lengths([Tape(1, SLOW)], 5, 40)
    assert drawn == [(1,), (1,)]
    assert (before != after).any()


def test_no_more_is_kept_of_a_box_than_was_typed_lately(
    drawn: list[tuple[int, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(lengths, "KEPT", 3)
    for key in range(1, 6):
        lengths.lengths([Tape(key, SLOW)], 5, 10)
    assert drawn == [(1,), (2,), (3,), (4,), (5,)]
    again = lengths.lengths([Tape(key, SLOW) for key in (1, 4, 5)], 5, 10)
    assert drawn[-1] == (1,)
    assert np.isfinite(again).all()
