"""What takes long on the window's own thread is done piece by piece, and the window is there in between."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QTimer
from pytestqt.qtbot import QtBot

from gui.toolkit.turns import Turns
from gui.toolkit.workers import Work


@pytest.fixture
def turns() -> Iterator[Turns]:
    made = Turns()
    yield made
    made.end()


def _pieces(done: list[str], name: str, count: int = 3) -> Iterator[None]:
    for number in range(count):
        done.append(f"{name}{number}")
        yield
    done.append(name)


def test_other_events_come_between_two_pieces(turns: Turns, qtbot: QtBot) -> None:
    done: list[str] = []

    def pieces() -> Iterator[None]:
        QTimer.singleShot(0, lambda: done.append("event"))
        yield
        done.append("piece")

    turns.take(pieces())
    qtbot.waitUntil(lambda: turns.is_idle)
    assert done == ["event", "piece"]


def test_what_was_taken_first_is_done_first(turns: Turns, qtbot: QtBot) -> None:
    done: list[str] = []
    turns.take(_pieces(done, "a"))
    turns.take(_pieces(done, "b", 1))
    qtbot.waitUntil(lambda: turns.is_idle)
    assert done == ["a0", "a1", "a2", "a", "b0", "b"]


def test_a_piece_that_fails_keeps_nobody_waiting(turns: Turns, qtbot: QtBot) -> None:
    done: list[str] = []

    def fail() -> Iterator[None]:
        yield
        raise ZeroDivisionError

    with qtbot.captureExceptions() as caught:
        turns.take(fail())
        turns.take(_pieces(done, "b", 1))
        qtbot.waitUntil(lambda: turns.is_idle)
    assert [kind for kind, *_ in caught] == [ZeroDivisionError]
    assert done == ["b0", "b"]


def test_whoever_closes_the_shop_does_not_wait_for_the_rest(work: Work) -> None:
    done: list[str] = []
    work.turns.take(_pieces(done, "a"))
    assert not work.is_idle
    work.close()
    assert work.turns.is_idle
    assert not done
