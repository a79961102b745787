"""How long the window's thread stays away from its events, and how long nothing is said while somebody waits.

The machine of a run may be busy, so three figures are taken of every stop: its length by the clock; what is
left without the time in which the system let the thread wait for a processor (Linux tells it in
``/proc/self/task/*/schedstat``, second number, in nanoseconds: kernel documentation, *scheduler statistics*);
and what is left when, while the thread slept, the longest such wait of another thread of the program is taken
off as well, for that one may have held the interpreter. The last is what the program does of its own.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from time import monotonic

from PySide6.QtCore import QObject, Qt, QTimer, Slot

BEAT_MS = 20
_TASKS = Path("/proc/self/task")


@dataclass(frozen=True, slots=True)
class Stop:
    """One stretch between two beats, in seconds, without the pause that was meant."""

    wall: float
    given: float
    """Without the time in which the thread itself waited for a processor."""
    own: float
    """Without that of the other threads either, while it slept."""


class Heartbeat(QObject):
    """Beats from `begin` on; ``beat`` is called with each stop."""

    def __init__(self, beat: Callable[[Stop], None], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._beat = beat
        self._main = str(threading.get_native_id())
        self._timer = QTimer(self, interval=BEAT_MS)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self.look)
        self._seen = (monotonic(), _threads())

    def begin(self) -> None:
        self._seen = (monotonic(), _threads())
        self._timer.start()

    def end(self) -> None:
        self._timer.stop()

    @Slot()
    def look(self) -> None:
        """A beat; also where somebody wants one at once."""
        now = (monotonic(), _threads())
        before, self._seen = self._seen, now
        self._beat(stop_between(before, now, self._main))


Moment = tuple[float, Mapping[str, tuple[float, float]]]
"""By the clock, and of each thread what it worked and what it waited for a processor, in seconds."""


def stop_between(before: Moment, now: Moment, main: str) -> Stop:
    """The stop between two beats of the thread ``main``."""
    nothing = (0.0, 0.0)
    wall = max(0.0, now[0] - before[0] - BEAT_MS / 1000)
    worked, waited = (now[1][main][each] - before[1][main][each] for each in (0, 1))
    others = [
        waits - before[1].get(thread, nothing)[1] for thread, (_, waits) in now[1].items() if thread != main
    ]
    given = max(0.0, wall - waited)
    asleep = max(0.0, given - worked)
    return Stop(wall, given, given - min(asleep, max(others, default=0.0)))


def _threads() -> dict[str, tuple[float, float]]:
    found = {}
    for name in os.listdir(_TASKS):
        try:
            worked, waited, _ = (_TASKS / name / "schedstat").read_text(encoding="ascii").split()
        except OSError:
            continue  # it has just ended
        found[name] = (int(worked) / 1e9, int(waited) / 1e9)
    return found


class Silence:
    """The longest time in which somebody waited and nothing was said."""

    def __init__(self) -> None:
        self.longest = 0.0
        self._asked: dict[int, float] = {}
        self._said_at = 0.0

    def note(self, waiting: set[int], is_told: bool, now: float | None = None) -> None:
        """``waiting``: what was asked and is not answered, by an id of its own."""
        now = monotonic() if now is None else now
        self._asked = {key: self._asked.get(key, now) for key in waiting}
        if is_told:
            self._said_at = now
        elif self._asked:
            since = max(min(self._asked.values()), self._said_at)
            self.longest = max(self.longest, now - since)
