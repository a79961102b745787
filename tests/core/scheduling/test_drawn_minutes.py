"""Play times of a plan are drawn once and are the same whenever they are asked for."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest

from core.model.inventory import TapeLine
from core.model.names import FormatName, Speed
from core.model.ranges import Range
from core.playtime import box_habits
from core.playtime.habits import STARTING
from core.playtime.possibilities import facts
from core.scheduling import drawn_minutes
from core.scheduling.drawn_minutes import DrawnAs

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
    drawn_minutes._boxes.clear()
    calls: list[tuple[int, ...]] = []
    really = box_habits.minutes_of_tapes

    def draw(tapes, keys, box):  # type: ignore[no-untyped-def]
        calls.append(tuple(keys))
        return really(tapes, keys, box)

    monkeypatch.setattr(box_habits, "minutes_of_tapes", draw)
    return calls


def test_a_tape_that_joins_the_box_is_drawn_and_no_other_again(drawn: list[tuple[int, ...]]) -> None:
    box = [Tape(1, SLOW), Tape(2, UNKNOWN)]
    before = drawn_minutes.lengths(box, 5, 40)
    after = drawn_minutes.lengths([box[0], Tape(3, SMALL), box[1]], 5, 40)
    assert drawn == [(1, 2), (3,)]
    assert (after[[0, 2]] == before).all()


def test_what_is_remembered_is_what_would_be_drawn() -> None:
    tapes = [Tape(n, (SLOW, UNKNOWN, SMALL)[n % 3]) for n in range(9)]
    drawn_minutes._boxes.clear()
    for many in (2, 5, 9):
        step_by_step = drawn_minutes.lengths(tapes[:many], 5, 40)
    drawn_minutes._boxes.clear()
    assert (step_by_step == drawn_minutes.lengths(tapes, 5, 40)).all()


def test_a_tape_of_which_something_else_is_known_is_drawn_anew(drawn: list[tuple[int, ...]]) -> None:
    before = drawn_minutes.lengths([Tape(1, UNKNOWN)], 5, 40)
    after = drawn_minutes.lengths([Tape(1, SLOW)], 5, 40)
    assert drawn == [(1,), (1,)]
    assert (before != after).any()


def test_boxes_that_left_the_queue_are_let_go(
    drawn: list[tuple[int, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Seen red with the 256 boxes asked for last kept, however many tapes were in them."""
    monkeypatch.setattr(drawn_minutes, "_boxes", drawn_minutes._DrawnBoxes())
    monkeypatch.setattr(drawn_minutes, "SPARE", 2)
    queue = [Tape(n, UNKNOWN, box=n) for n in range(3)]
    drawn_minutes.lengths(queue, 5, 40)
    for n in range(3, 20):
        drawn_minutes.lengths([Tape(n, SLOW, box=n)], 5, 40)
        drawn_minutes.lengths(queue, 5, 40)
    assert sum(map(len, drawn_minutes._boxes._boxes.values())) <= 8
    assert drawn == [(0,), (1,), (2,), *((n,) for n in range(3, 20))], "what is in the queue is drawn once"


def test_no_more_is_kept_of_a_box_than_was_typed_lately(
    drawn: list[tuple[int, ...]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(drawn_minutes, "KEPT", 3)
    for key in range(1, 6):
        drawn_minutes.lengths([Tape(key, SLOW)], 5, 10)
    assert drawn == [(1,), (2,), (3,), (4,), (5,)]
    again = drawn_minutes.lengths([Tape(key, SLOW) for key in (1, 4, 5)], 5, 10)
    assert drawn[-1] == (1,)
    assert np.isfinite(again).all()
