"""From a key to the repainted quote of forty tapes, against the echo of a plain line edit."""

from __future__ import annotations

import gc
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from itertools import cycle, islice
from pathlib import Path

from PySide6.QtCore import QObject, Qt, QTimer, Slot
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget

from core.model.typed_draft import TypedBox, TypedRow
from core.services.records_door import Shop
from gui.counter.counter_screen import CounterScreen
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.workers import Work
from tests.bench.ratio import Ratio, median, own_time, p95

KEYS = 300
AT_MOST = 3.0
FLOW_MS = 16.0
"""One frame of a 60 Hz screen."""
GAP_MS = 90
"""From key to key: some 11 a second, a very good typist (130 words a minute; from memory)."""
STEADY_KEYS = 120
PATIENCE_S = 30.0
LETTERS = "summer by the sea "
DIGITS = "1726354819213749"
ROWS = (
    TypedRow("1", "VHS", "T-120", label="garden"),
    TypedRow("1", "MiniDV", "DVM60", label="school play"),
    TypedRow("1", "Video8", "P6-120", findings="snapped"),
    TypedRow("1", "VHS-C", "TC-30", label="beach"),
)


def measure() -> Iterator[Ratio]:
    """Types counts, then a long label into the tray of the real Counter on a real shop; then a bare field.

    A label changes nothing on the slip; a count changes hours, price and the share of every copy.
    """
    application = QApplication.instance() or QApplication([])
    assert isinstance(application, QApplication)
    theme.apply(application)
    gc.freeze()  # as the program does before it opens the shop
    with tempfile.TemporaryDirectory() as folder:
        counter = _counter(Path(folder))
        counts = _typed(_cell(counter, "count"), DIGITS, lambda: counter.slip_is_written)
        ours = _typed(_cell(counter, "label"))
        stops = _Stops().while_typing(_cell(counter, "count"))
        counter.close()
        counter.desk.work.close()
    floor = _typed(_bare_field())
    against = "plain line edit"
    yield Ratio("key to quote, p50", median(ours), f"{against}, p50", median(floor), "ms")
    yield Ratio("key to quote, p95", p95(ours), f"{against}, p95", p95(floor), "ms", AT_MOST)
    yield Ratio("key to quote, p95", p95(ours), "one frame", FLOW_MS, "ms", 1.0)
    yield Ratio("count to another quote, p50", median(counts), f"{against}, p50", median(floor), "ms")
    yield Ratio("count to another quote, p95", p95(counts), "one frame", FLOW_MS, "ms", 1.0)
    bare = _Stops().while_typing(_bare_field())
    what = f"longest stop of the window's thread, a count typed every {GAP_MS} ms"
    yield Ratio(f"{what}, its own work", max(stops.busy), "one frame", FLOW_MS, "ms", 1.0)
    yield Ratio(f"{what}, on the wall", max(stops.late), f"{against}, same keys", max(bare.late), "ms")


def _counter(folder: Path) -> CounterScreen:
    """A furnished Counter with forty tapes on it."""

    def open_shop() -> Shop:
        return Shop.open(folder / "shop.sqlite")

    work = Work(open_shop)
    desk = Desk(work, lambda: datetime.now(UTC), "bench", folder, lambda file: None)
    counter = CounterScreen(desk)
    counter.resize(1280, 760)
    counter.show()
    work.open()
    counter.enter()
    wait_until(lambda: work.is_idle)
    counter.draft.begin(TypedBox(rows=tuple(islice(cycle(ROWS), 40)), name="A. Example", phone="2025550142"))
    wait_until(lambda: counter.quote is not None and len(counter.quote.tapes) == 40)
    return counter


def _cell(counter: CounterScreen, column: str) -> QLineEdit:
    table = counter.parts.table
    table.commit()
    table.setFocus()
    table.put_cursor(2, counter.parts.rows.column_named(column))
    QTest.keyClick(table, "1")
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit), "typing into a cell opens no editor"
    return editor


def _bare_field() -> QLineEdit:
    window = QWidget()
    window.resize(1280, 760)
    field = QLineEdit(window)
    field.setGeometry(40, 40, 400, 32)
    field.window().show()
    field.setFocus()
    field.kept = window  # type: ignore[attr-defined]  # its window lives as long as it does
    QApplication.processEvents()
    return field


def _typed(field: QLineEdit, keys: str = LETTERS, is_done: Callable[[], bool] = lambda: True) -> list[float]:
    """Milliseconds from each key until everything it caused is painted; cleared after every word."""
    taken = []
    for count, letter in enumerate(islice(cycle(keys), KEYS)):
        if count % (20 if keys is LETTERS else 2) == 0:
            field.clear()
            QApplication.processEvents()
        began = time.perf_counter()
        QTest.keyClick(field, letter)
        QApplication.processEvents()
        while not is_done():
            QApplication.processEvents()
        QApplication.sendPostedEvents()
        taken.append(1000 * (time.perf_counter() - began))
    return taken


class _Stops(QObject):
    """How long the window's thread stays away from its events: what a timer of one millisecond is late."""

    def __init__(self) -> None:
        super().__init__()
        self.late: list[float] = []
        """Milliseconds by the clock on the wall, other programs on this machine included."""
        self.busy: list[float] = []
        """Milliseconds that the thread itself worked meanwhile."""
        self._timer = QTimer(self, interval=1)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self._tick)
        self._seen = (time.perf_counter(), own_time())

    def while_typing(self, field: QLineEdit) -> _Stops:
        """A steady typist: the day is worked out between the keys, and now and then meets the next one."""
        self._seen = (time.perf_counter(), own_time())
        self._timer.start()
        field.clear()
        for count, digit in enumerate(islice(cycle(DIGITS), STEADY_KEYS)):
            QTest.keyClick(field, digit if count % 4 < 2 else Qt.Key.Key_Backspace)
            QTest.qWait(GAP_MS)
        self._timer.stop()
        return self

    @Slot()
    def _tick(self) -> None:
        now = (time.perf_counter(), own_time())
        self.late.append(1000 * (now[0] - self._seen[0]) - 1)
        self.busy.append(1000 * (now[1] - self._seen[1]))
        self._seen = now


def wait_until(is_so: Callable[[], bool]) -> None:
    """Lets the window work until it is so, or tells that it took too long."""
    deadline = time.monotonic() + PATIENCE_S
    while not is_so():
        if time.monotonic() > deadline:
            raise TimeoutError("the counter was not ready in time")
        QApplication.processEvents()
        time.sleep(0.005)
