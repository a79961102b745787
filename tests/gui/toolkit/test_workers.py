"""What follows the keys is worked out beside the window: one at a time, of those that wait the newest."""

from __future__ import annotations

import gc
import sys
import weakref
from functools import partial
from threading import Event, Timer, current_thread, main_thread

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QTimer
from pytestqt.qtbot import QtBot

from core.model.errors import WrongInput
from gui.toolkit import background_task
from gui.toolkit.workers import TURN_S, Work
from tests.support.patience import PATIENCE_S


class Held:
    """Something that is being worked out for as long as a test likes."""

    def __init__(self) -> None:
        self.began, self.go_on = Event(), Event()

    def __call__(self) -> str:
        self.began.set()
        self.go_on.wait(PATIENCE_S)
        return "first"


def test_of_those_that_wait_only_the_newest_is_worked_out(work: Work, qtbot: QtBot) -> None:
    first, told, made = Held(), [], []

    def make(n: int) -> int:
        made.append(n)
        return n

    work.compute_latest(first, then=told.append)
    assert first.began.wait(PATIENCE_S)
    for n in range(5):
        work.compute_latest(partial(make, n), then=told.append)
    first.go_on.set()
    qtbot.waitUntil(lambda: work.is_idle)
    assert (told, made) == (["first", 4], [4])


def test_what_somebody_waits_for_is_never_left_out(work: Work, qtbot: QtBot) -> None:
    first, told = Held(), []
    work.compute_latest(first, then=told.append)
    assert first.began.wait(PATIENCE_S)
    work.compute_soon(partial(str, "booking"), then=told.append)
    work.compute_latest(partial(str, "older"), then=told.append)
    work.compute_latest(partial(str, "newer"), then=told.append)
    first.go_on.set()
    qtbot.waitUntil(lambda: work.is_idle)
    assert sorted(told) == ["booking", "first", "newer"]


def test_it_is_worked_out_on_another_thread_and_told_on_the_windows(work: Work, qtbot: QtBot) -> None:
    worked, told = [], []

    def tell(_: object) -> None:
        told.append(current_thread())

    def note() -> None:
        worked.append(current_thread())

    work.compute_latest(note, then=tell)
    work.compute_soon(note, then=tell)
    qtbot.waitUntil(lambda: len(told) == 2)
    assert main_thread() not in worked
    assert told == [main_thread()] * 2


def test_a_refusal_is_told_and_the_next_one_follows(work: Work, qtbot: QtBot) -> None:
    told, refused = [], []

    def refuse() -> None:
        raise WrongInput("day", "never", "a day is accepted")

    work.compute_latest(refuse, then=told.append, otherwise=refused.append)
    work.compute_latest(partial(str, "next"), then=told.append)
    qtbot.waitUntil(lambda: work.is_idle)
    assert told == ["next"]
    assert len(refused) == 1


def test_closing_does_not_begin_what_still_waits(work: Work, qtbot: QtBot) -> None:
    first, made = Held(), []
    work.compute_latest(first, then=made.append)
    assert first.began.wait(PATIENCE_S)
    work.compute_latest(partial(made.append, "waiting"), then=made.append)
    first.go_on.set()
    work.close()
    qtbot.waitUntil(lambda: "first" in made)
    assert made == ["first"]


def test_workers_hand_the_interpreter_over_before_a_frame_is_lost(work: Work) -> None:
    assert sys.getswitchinterval() == pytest.approx(TURN_S)
    assert TURN_S < 0.016 / 8


class Kept:
    """A record that somebody asked for."""


def _unused(_: object) -> None:
    """Nobody looks at the answer."""


def test_nothing_of_a_call_is_held_once_it_is_answered(work: Work, qtbot: QtBot) -> None:
    """A pool that was idle is through with some calls before it is told of the next one."""
    held = []
    for _ in range(400):
        kept = Kept()
        held.append(weakref.ref(kept))
        work.compute_soon(partial(id, kept), then=_unused)
        del kept
        work._short_computations.waitForDone()
    qtbot.waitUntil(lambda: work.is_idle)
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    gc.collect()
    assert sum(each() is not None for each in held) == 0


def test_what_takes_long_and_has_not_begun_is_left_when_the_shop_is_closed(work: Work) -> None:
    first, made = Held(), []
    work.compute_long(first, then=made.append)
    assert first.began.wait(PATIENCE_S)
    work.compute_long(partial(made.append, "begun"), then=made.append)
    Timer(0.05, first.go_on.set).start()
    work.close()
    assert made == []


def test_who_waits_for_a_turn_waits(work: Work, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    """Three calls of two seconds keep whoever asked last waiting for six, and the window says so."""
    now = [0.0]
    monkeypatch.setattr(background_task, "monotonic", lambda: now[0])
    first, second = Held(), Held()
    work._start(work._records, first, None, None, frozenset())
    work._start(work._records, second, None, None, frozenset())
    now[0] += 2.0
    first.go_on.set()
    assert second.began.wait(PATIENCE_S)
    now[0] += 2.0
    assert work.waited_seconds == 4.0
    second.go_on.set()
    qtbot.waitUntil(lambda: work.is_idle)


def test_the_window_goes_on_while_it_waits_for_the_records_to_be_closed(work: Work, qtbot: QtBot) -> None:
    held, beats = Held(), []
    heart = QTimer(interval=5)

    def beat() -> None:
        beats.append(1)
        if len(beats) == 5:
            held.go_on.set()

    heart.timeout.connect(beat)
    heart.start()
    work._start(work._records, held, None, None, frozenset())
    assert held.began.wait(PATIENCE_S)
    work.wait_for_records(1000 * PATIENCE_S)
    heart.stop()
    assert len(beats) >= 5
    assert work.is_idle
