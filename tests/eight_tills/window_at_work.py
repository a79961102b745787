"""The real window, offscreen, with somebody at it who does not stop for any fault; it tells how it went.

``python -m tests.eight_tills.window_at_work SHOP FOLDER`` works until ``FOLDER/stop`` is there, and leaves
``FOLDER/window.json``.
"""

from __future__ import annotations

import faulthandler
import gc
import json
import logging
import os
import sys
from collections.abc import Sequence
from dataclasses import asdict, dataclass, field
from itertools import count, cycle
from pathlib import Path
from time import monotonic

from PySide6.QtCore import QEvent, QObject, QTimer, Slot
from PySide6.QtWidgets import QApplication, QMessageBox

from core.model.job_records import Job
from core.model.typed_draft import TypedBox, TypedRow
from gui.app.composition import CompositionRoot, compose
from gui.app.main_window import Window
from gui.counter.counter_screen import CounterScreen
from gui.toolkit import theme
from tests.eight_tills.heartbeat import Heartbeat, Silence, Stop
from tests.eight_tills.till_at_work import RunningClock

ACT_MS = 150
MOMENTS = ("bench", "counter", "pickup", "counter", "phone", "counter", "shop", "counter")
TURNS = 7
"""So often the clerk looks at another screen although the box is not booked yet."""
LONG_S = 0.1
"""A stop that a person would feel."""
FIRST_S = 3.0
"""The screens are made in one go once the shop is open; from then on nobody is to be stopped."""


@dataclass
class WindowReport:
    """How it went, in seconds."""

    beats: int = 0
    wall: float = 0.0
    given: float = 0.0
    own: float = 0.0
    """The longest stop (see `heartbeat`)."""
    long_stops: list[tuple[float, float, float]] = field(default_factory=list)
    opening: float = 0.0
    """The longest stop of its own while the shop was opened and the screens were made."""
    closing: float = 0.0
    """The longest stop of its own from the wish to close until the window was gone."""
    silent: float = 0.0
    booked: dict[str, str] = field(default_factory=dict)
    """The order of each name it was told of."""
    names: list[str] = field(default_factory=list)
    bugs: list[str] = field(default_factory=list)


class BugLog(logging.Handler):
    """Keeps what the program logs as a bug."""

    def __init__(self, bugs: list[str]) -> None:
        super().__init__(logging.ERROR)
        self._bugs = bugs

    def emit(self, record: logging.LogRecord) -> None:
        self._bugs.append(record.getMessage())


class Clerk(QObject):
    """Types, books, and turns from screen to screen; whatever is refused is tried again."""

    def __init__(self, window: Window, root: CompositionRoot, folder: Path) -> None:
        super().__init__(window)
        self._window, self._root, self._stop = window, root, folder / "stop"
        self.report = WindowReport()
        self._silence = Silence()
        self._heart = Heartbeat(self._note, self)
        self._names, self._moments = count(1), cycle(MOMENTS)
        self._opened_at: float | None = None
        self._turns = 0
        self._is_closing = False
        self._counter: CounterScreen | None = None
        self._stacks = (folder / "stacks.txt").open("w")
        self._act = QTimer(self, interval=ACT_MS)
        self._act.timeout.connect(self._do_something)

    def begin(self) -> None:
        self._heart.begin()
        self._act.start()

    def _note(self, stop: Stop) -> None:
        faulthandler.dump_traceback_later(LONG_S, file=self._stacks)
        report, work = self.report, self._root.desk.work
        report.beats += 1
        if self._is_closing:
            report.closing = max(report.closing, stop.own)
        elif self._opened_at is None or monotonic() - self._opened_at < FIRST_S:
            report.opening = max(report.opening, stop.own)
        else:
            report.wall, report.given = max(report.wall, stop.wall), max(report.given, stop.given)
            report.own = max(report.own, stop.own)
            if stop.own > LONG_S / 2:
                report.long_stops.append((stop.wall, stop.given, stop.own))
        if self._opened_at is None and self._window.screen_on_show() is not None:
            self._opened_at = monotonic()
        waiting = {id(task) for task in work._under_way if task.is_of_records}
        is_told = bool(self._window.link.sentence) or self._window.screen_on_show() is None
        self._silence.note(waiting, is_told)
        report.silent = self._silence.longest

    @Slot()
    def _do_something(self) -> None:
        if self._stop.exists():
            self._close()
            return
        screen = self._window.screen_on_show()
        if isinstance(screen, CounterScreen):
            self._at_the_counter(screen)
        elif screen is not None:
            self._window.go(next(self._moments))

    def _at_the_counter(self, counter: CounterScreen) -> None:
        if self._counter is None:
            self._counter = counter
            counter.job_booked.connect(self._was_booked)
        self._turns += 1
        if counter.draft.box.is_empty:
            name = f"Ada Window {next(self._names)}"
            self.report.names.append(name)
            rows = (TypedRow(count="2", format="VHS", marking="T-120"),)
            counter.draft.begin(TypedBox(rows=rows, name=name))
        elif self._turns % TURNS == 0:
            self._window.go(next(self._moments))
        elif counter.quote is not None:
            counter.booking.book()

    @Slot(object)
    def _was_booked(self, job: Job) -> None:
        self.report.booked[job.customer.name] = job.number

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The last stop that anybody sees ends when the window is gone."""
        if event.type() == QEvent.Type.Hide and watched is self._window:
            self._heart.look()
        return False

    def _close(self) -> None:
        """Close the window, and where it asks because something could not be kept, try once more."""
        if not self._is_closing:
            self._is_closing = True
            self._window.installEventFilter(self)
        question = self._window.findChild(QMessageBox, "closing")
        if question is None:
            self._window.closing.ask_nothing()
            self._window.close()
        elif question.isVisible():
            question.defaultButton().click()
        if self._window.isVisible():
            return
        self._act.stop()
        faulthandler.cancel_dump_traceback_later()
        self._heart.end()
        QApplication.exit()


def main(arguments: Sequence[str]) -> int:
    where, folder = arguments[0], Path(arguments[1])
    app = QApplication([])
    theme.apply(app)
    window = Window()
    window.show()
    gc.freeze()  # as the program does before it opens the shop
    root = compose(window, where, "Kim", RunningClock(float(arguments[2])), folder / "papers")
    clerk = Clerk(window, root, folder)
    logging.getLogger("tapewright").addHandler(BugLog(clerk.report.bugs))
    clerk.begin()
    app.exec()
    (folder / "window.json").write_text(json.dumps(asdict(clerk.report)), encoding="utf-8")
    return 0


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    sys.exit(main(sys.argv[1:]))
