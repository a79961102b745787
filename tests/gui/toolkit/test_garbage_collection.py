"""A widget nobody holds any more is freed where widgets live, whatever the workers do."""

from __future__ import annotations

import gc
from threading import get_ident

from pytestqt.qtbot import QtBot

from gui.toolkit.garbage_collection import MainThreadCollector
from gui.toolkit.workers import Work
from tests.support.bare_work import no_shop


class Loop:
    """Something that only a look for garbage frees."""

    def __init__(self, freed_on: list[int]) -> None:
        self.itself = self
        self.freed_on = freed_on

    def __del__(self) -> None:
        self.freed_on.append(get_ident())


def plenty() -> int:
    """More than Python makes before it looks for garbage of all ages."""
    return len([[n] for n in range(500_000)])


def test_no_worker_frees_what_holds_itself(work: Work, qtbot: QtBot) -> None:
    freed_on: list[int] = []
    for _ in range(3):
        Loop(freed_on)
    work.compute_long(plenty, then=lambda _: None)
    qtbot.waitUntil(lambda: work.is_idle)
    qtbot.waitUntil(lambda: bool(freed_on))
    assert freed_on == [get_ident()] * 3


def test_every_look_frees_the_young_and_some_the_old(qtbot: QtBot) -> None:
    freed_on: list[int] = []
    sweeping = MainThreadCollector()
    old = Loop(freed_on)
    gc.collect()
    gc.collect()  # survived twice: old
    del old
    sweeping.look()
    assert freed_on == []
    for _ in range(30):
        sweeping.look()
    assert len(freed_on) == 1
    sweeping.stop()


def test_python_looks_for_itself_when_the_work_is_done(qtbot: QtBot) -> None:
    work = Work(no_shop)
    assert not gc.isenabled()
    work.close()
    assert gc.isenabled()
