"""Windows, threads and timers left behind by a test fail the run.

Windows and Python threads are looked for after every test. Qt's threads and timers are found by
walking all live objects, which is slow, so that is done once after each file that uses Qt, and what
was alive before the first test is left out.
"""

from __future__ import annotations

import ctypes
import gc
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import suppress
from typing import Any

import pytest

PATIENCE_S = 2.0
"""How long a thread that is about to end may take."""


def pytest_collection_finish() -> None:
    """Whatever importing the tests has made stays until the end: no collection need look at it again."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True)
def no_threads_left() -> Iterator[None]:
    """Every Python thread that a test starts has ended with it."""
    before = set(threading.enumerate())
    yield
    deadline = time.monotonic() + PATIENCE_S
    left = [thread for thread in threading.enumerate() if thread not in before]
    for thread in left:
        if not _is_a_stranger(thread):
            thread.join(max(0.0, deadline - time.monotonic()))
    running = [thread.name for thread in left if thread.is_alive() and not _is_a_stranger(thread)]
    if running:
        pytest.fail(f"threads still running: {', '.join(running)}")


@pytest.fixture(autouse=True)
def no_windows_left() -> Iterator[None]:
    """Every top-level window that a test opens is closed and gone with it."""
    before = _windows()
    yield
    _carry_out_deletions()
    if _names(_windows(), before):
        gc.collect()  # a window nobody shows may only be waiting in a cycle
        _carry_out_deletions()
    left = _names(_windows(), before)
    if left:
        pytest.fail(f"windows left behind: {', '.join(left)}")


@pytest.fixture(autouse=True, scope="module")
def no_qt_work_left(request: pytest.FixtureRequest) -> Iterator[None]:
    """When a file of tests is through, no Qt timer ticks and no Qt thread runs."""
    own = [item for item in request.session.items if item.getparent(pytest.Module) is request.node]
    if not any("qapp" in item.fixturenames for item in own):
        yield
        return
    before = _qt_work()
    yield
    _carry_out_deletions()
    gc.collect()
    _give_memory_back()
    left = [_described(thing) for thing in _newcomers(_qt_work(), before)]
    if left:
        pytest.fail(f"still at work after the last test of the file: {', '.join(left)}")


def _give_memory_back() -> None:
    """What was freed goes back to the system: glibc keeps up to 180 MB after the arrays of one file."""
    if sys.platform == "linux":
        with suppress(OSError, AttributeError):  # another C library has no such call
            ctypes.CDLL(None).malloc_trim(0)


def _is_a_stranger(thread: threading.Thread) -> bool:
    """Whether Python merely saw a thread that Qt made; Qt's pools keep idle ones for a while."""
    return isinstance(thread, threading._DummyThread)


def _names(things: list[Any], before: list[Any]) -> list[str]:
    return [type(thing).__name__ for thing in _newcomers(things, before)]


def _newcomers(things: list[Any], before: list[Any]) -> list[Any]:
    """By identity; ``before`` keeps its members alive, so that no identity is given out twice."""
    known = {id(thing) for thing in before}
    return [thing for thing in things if id(thing) not in known]


def _windows() -> list[Any]:
    """Top-level widgets without a parent; none before the first test that needs a screen."""
    widgets = sys.modules.get("PySide6.QtWidgets")
    if widgets is None or widgets.QApplication.instance() is None:
        return []
    return [window for window in widgets.QApplication.topLevelWidgets() if window.parent() is None]


def _carry_out_deletions() -> None:
    core = sys.modules.get("PySide6.QtCore")
    if core is not None and core.QCoreApplication.instance() is not None:
        core.QCoreApplication.sendPostedEvents(None, core.QEvent.Type.DeferredDelete.value)


def _qt_work() -> list[Any]:
    """Ticking timers, running threads and busy pools, among all objects Python knows."""
    core = sys.modules.get("PySide6.QtCore")
    if core is None:
        return []
    is_valid = sys.modules["shiboken6"].isValid
    kinds = _with_subclasses(core.QTimer, core.QThread, core.QThreadPool)
    own = core.QThread.currentThread()
    found = [thing for thing in gc.get_objects() if type(thing) in kinds and is_valid(thing)]
    return [thing for thing in found if thing is not own and _is_at_work(thing, core)]


def _with_subclasses(*kinds: type) -> set[type]:
    """By their exact types, a million objects are looked through in a fifth of the time of `isinstance`."""
    inner = [one for kind in kinds for one in type.__subclasses__(kind)]
    return {*kinds, *(_with_subclasses(*inner) if inner else ())}


def _is_at_work(thing: Any, core: Any) -> bool:
    if isinstance(thing, core.QTimer):
        return bool(thing.isActive())
    if isinstance(thing, core.QThread):
        return bool(thing.isRunning()) and thing is not _main_thread(core)
    return not thing.waitForDone(int(PATIENCE_S * 1000))


def _main_thread(core: Any) -> Any:
    application = core.QCoreApplication.instance()
    return application.thread() if application is not None else None


def _described(thing: Any) -> str:
    name = thing.objectName() or "no name"
    parent = type(thing.parent()).__name__ if thing.parent() is not None else "no parent"
    return f"{type(thing).__name__} ({name}, {parent})"
