"""Books box after box by keys in one real window on a fresh shop, and tells what the process holds in memory.

``python -m tests.bench.window_bookings [--count N] [--open N] [--types]``; `tests.bench bookings` judges it.
Of the boxes booked the newest stay in the queue; an older one is called off, as orders leave a shop as well.
A queue that only grows is something else than a leak: what is known of each waiting tape lies somewhere.
"""

from __future__ import annotations

import argparse
import gc
import os
import subprocess
import sys
import tempfile
import time
from collections import Counter, deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from core.model.agreement_records import Consent
from core.model.job_records import Job
from tests.bench.different_boxes import resident
from tests.bench.ratio import Ratio

COUNT = 2_000
TOLD_AT = (0, 100, 500, 1_000, 1_500, 2_000)
EVERY = 10
"""Bookings between two readings of the memory."""
STEADY_FROM = 500
"""Caches that are bounded are full by then."""
OPEN = 20
MOST_MB = 300.0
MOST_KB = 4.0
"""A booking: 6 MB in 1,500. By right an order adds its share of the names the search knows, some hundred
bytes; the rest is what a heap leaves between things."""
PATIENCE_S = 120.0
ROWS = ("2\rvhs\rt120\r", "1\rminidv\rdvm60\r", "1\rvideo8\rp6-120\r", "3\rvhs-c\rtc30\r", "1\rhi8\rp6-60\r")
"""What is typed into the tray, by cells."""
WHO = Consent("Ada Fenwick")


@dataclass(frozen=True, slots=True)
class MemoryReading:
    """Megabytes in memory after so many bookings."""

    bookings: int
    megabytes: float


def readings(
    count: int = COUNT, stay: int = OPEN, told: Callable[[str], None] = print
) -> list[MemoryReading]:
    """Books ``count`` boxes; what the process held before, in between and after."""
    found: list[MemoryReading] = []
    with tempfile.TemporaryDirectory(prefix="tapewright-bookings-") as folder:
        os.environ["XDG_DATA_HOME"] = os.environ["XDG_STATE_HOME"] = folder
        bookings = _opened(Path(folder), stay)
        found.append(MemoryReading(0, resident()))
        for number in range(1, count + 1):
            bookings.book(number)
            if number % EVERY == 0:
                found.append(MemoryReading(number, resident()))
            if number in TOLD_AT or number % 50 == 0:
                told(f"      after {number} bookings {resident():.1f} MB", flush=True)
        bookings.close()
    return found


def slope(found: Sequence[MemoryReading], since: int = STEADY_FROM) -> float:
    """Kilobytes a booking, by least squares over the readings from ``since`` on."""
    steady = [each for each in found if each.bookings >= since]
    mean = sum(each.bookings for each in steady) / len(steady)
    level = sum(each.megabytes for each in steady) / len(steady)
    across = sum((each.bookings - mean) ** 2 for each in steady)
    return 1024 * sum((each.bookings - mean) * (each.megabytes - level) for each in steady) / across


class WindowBookings:
    """The window of the program with the Counter in front, and hands at its keyboard."""

    def __init__(self, folder: Path, stay: int) -> None:
        from PySide6.QtWidgets import QApplication

        from gui.app.main_window import Window
        from gui.app.startup import DeferredStartup, clock_from
        from gui.toolkit import theme

        application = QApplication.instance() or QApplication([])
        assert isinstance(application, QApplication)
        theme.apply(application)
        self._application, self._stay, self._wait = application, stay, _wait
        self._queue: deque[Job] = deque()
        self._booked = 0
        self.window = Window()
        self.window.show()
        clock = clock_from("2026-03-03T14:00:00+00:00")
        DeferredStartup(self.window, str(folder / "shop.sqlite"), "Kim", clock).begin()
        self._wait(lambda: self.window.screen_on_show() is not None)
        from gui.app.composition import CompositionRoot  # with the records, after the first paint

        (self._root,) = self.window.findChildren(CompositionRoot)
        self._root.desk.show_file = _not_shown
        self._enter()

    def _enter(self) -> None:
        from gui.counter.counter_screen import CounterScreen

        counter = self.window.screen_named("counter")
        assert isinstance(counter, CounterScreen)
        self.counter = counter
        self.window.activateWindow()
        self.window.go("counter")
        self.counter.job_booked.connect(self._note)
        self.counter.refused.connect(_told_why)
        self.settle()

    def book(self, number: int) -> None:
        """One box: typed, named, booked with its papers; the oldest of too many is called off."""
        from PySide6.QtCore import Qt

        from gui.app.walkthrough_keys import press

        self.counter.take_focus()
        self.counter.parts.table.put_cursor(0, 0)
        press(ROWS[number % len(ROWS)])
        _key(Qt.Key.Key_N, Qt.KeyboardModifier.AltModifier)
        press(f"Ada Fenwick {number % 50}\r607 555 {number % 10_000:04d}")
        self._wait(lambda: self.counter.has_its_day and self._root.desk.work.is_idle)
        if not self.counter.parts.telling.is_settled:
            _key(Qt.Key.Key_T, Qt.KeyboardModifier.AltModifier)
        _key(Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
        self._wait(lambda: self._booked >= number)
        self.settle()
        if len(self._queue) > self._stay:
            self._call_off(self._queue.popleft())

    def settle(self) -> None:
        """Until nothing is under way any more, papers among it."""
        self._wait(lambda: self._root.desk.work.is_idle)
        self._application.processEvents()
        self._wait(lambda: self._root.desk.work.is_idle)

    def close(self) -> None:
        self.settle()
        self.window.close()
        self._application.processEvents()

    def _note(self, job: Job) -> None:
        self._booked += 1
        self._queue.append(job)

    def _call_off(self, job: Job) -> None:
        from core.services.agreement import cancellations

        work = self._root.desk.work
        work.run(cancellations.cancel, job.number, None, reason="not now", consent=WHO)
        self.settle()


def objects_by_type() -> Counter[str]:
    """How many objects of each type Python knows, and how many of Qt's hang on windows."""
    from PySide6.QtCore import QObject
    from PySide6.QtWidgets import QApplication

    gc.collect()
    found = Counter(f"{type(each).__module__}.{type(each).__qualname__}" for each in gc.get_objects())
    for window in QApplication.topLevelWidgets():
        found.update(f"Qt {each.metaObject().className()}" for each in window.findChildren(QObject))
    return found


def _opened(folder: Path, stay: int) -> WindowBookings:
    """On a shop that is set up, as a shop of its own is that books."""
    made = f"from tests.support.booked import set_up; set_up({str(folder / 'shop.sqlite')!r})"
    subprocess.run([sys.executable, "-c", made], check=True)  # what that imports is none of the window's
    return WindowBookings(folder, stay)


def _wait(is_so: Callable[[], bool]) -> None:
    """Lets the program work until it is so, in an event loop.

    Plain `processEvents` never deletes what was to be deleted later, and `QTest.qWait` sleeps with Python's
    lock in its hand: the program's own threads waited for it.
    """
    from PySide6.QtCore import QEventLoop, QTimer

    deadline = time.monotonic() + PATIENCE_S
    while not is_so():
        if time.monotonic() > deadline:
            raise TimeoutError(PATIENCE_S)
        loop = QEventLoop()
        QTimer.singleShot(5, loop.quit)
        loop.exec()


def _key(key: object, modifier: object) -> None:
    from PySide6.QtTest import QTest
    from PySide6.QtWidgets import QApplication

    target = QApplication.focusWidget()
    assert target is not None, "nobody has the keyboard"
    QTest.keyClick(target, key, modifier)  # type: ignore[call-overload]  # Qt's own, imported late


def _not_shown(_: Path) -> None:
    """Nobody looks at the papers."""


def _told_why(failure: object) -> None:
    raise AssertionError(getattr(failure, "sentence", failure))


def _grown(count: int, stay: int) -> Iterator[str]:
    """What there is more of after ``count`` bookings than after 40, type by type."""
    with tempfile.TemporaryDirectory(prefix="tapewright-bookings-") as folder:
        os.environ["XDG_DATA_HOME"] = os.environ["XDG_STATE_HOME"] = folder
        bookings = _opened(Path(folder), stay)
        for number in range(1, 41):
            bookings.book(number)
        before, megabytes = objects_by_type(), resident()
        for number in range(41, count + 1):
            bookings.book(number)
        after = objects_by_type()
        yield f"{megabytes:.1f} MB after 40, {resident():.1f} MB after {count}"
        for name, more in (after - before).most_common(40):
            yield f"{more:8d} {more / (count - 40):8.2f} a booking  {name}"
        bookings.close()


def measure() -> Iterator[Ratio]:
    """Megabytes after 2,000 bookings, and how much each of the last 1,500 adds. Linux only; takes an hour."""
    said = subprocess.run(
        [sys.executable, "-u", "-m", "tests.bench.window_bookings"],
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    *told, last = said.splitlines()
    print(*told, sep="\n", flush=True)
    growth, megabytes = (float(word) for word in last.split()[:2])
    yield Ratio(f"memory after {COUNT} bookings", megabytes, "most", MOST_MB, "MB", 1.0)
    yield Ratio("a booking adds", max(growth, 0.0), "most", MOST_KB, "KB", 1.0)


def main(arguments: Sequence[str]) -> int:
    parser = argparse.ArgumentParser(prog="tests.bench.window_bookings")
    parser.add_argument("--count", type=int, default=COUNT)
    parser.add_argument("--open", type=int, default=OPEN)
    parser.add_argument("--types", action="store_true")
    asked = parser.parse_args(arguments)
    if asked.types:
        print(*_grown(asked.count, asked.open), sep="\n", flush=True)
        return 0
    found = readings(asked.count, asked.open)
    print(
        f"{slope(found, min(STEADY_FROM, asked.count // 2)):.2f} KB a booking; {found[-1].megabytes:.1f} MB"
    )
    return 0


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    os.environ.setdefault("QT_LOGGING_RULES", "*.warning=false")
    sys.exit(main(sys.argv[1:]))
