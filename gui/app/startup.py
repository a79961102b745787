"""Start: paint the window first, then open the shop behind it."""

from __future__ import annotations

import argparse
import gc
import sys
import time
from collections.abc import Callable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Slot
from PySide6.QtWidgets import QApplication

from core.wording.messages import say
from gui.app import window_place
from gui.app.main_window import Window
from gui.toolkit import sizes, theme

if TYPE_CHECKING:
    from datetime import datetime

_STARTED = time.perf_counter()


def main(argv: Sequence[str] | None = None) -> int:
    """Open the window on a shop. Returns the exit code of the program."""
    asked = _arguments(argv)
    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    app.setApplicationName("Tapewright")
    app.setDesktopFileName("tapewright")
    file = window_place.kept_in()
    place = window_place.fitted(window_place.read(file), window_place.screens())
    theme.grow(sizes.unit_for(place.rect.width(), place.rect.height()))
    theme.apply(app)
    window = Window()
    window_place.open_there(window, place)
    window.closed.connect(partial(window_place.keep, file, window))
    opening = DeferredStartup(window, asked.shop, asked.who, clock_from(asked.now))
    window.first_painted.connect(opening.begin_after_paint)
    if asked.quit_after_first_paint:
        window.first_painted.connect(_report_first_paint)
    window.show()
    return app.exec()


class DeferredStartup(QObject):
    """Opens the shop once the window has been painted, and adds its screens when it is open."""

    def __init__(self, window: Window, shop: str | None, who: str, clock: Callable[[], datetime]) -> None:
        super().__init__(window)
        self._window = window
        self._where = shop
        self._who = who
        self._clock = clock

    @Slot()
    def begin_after_paint(self) -> None:
        """Let the paint reach the screen before the libraries of the records are imported."""
        QTimer.singleShot(0, self.begin)

    @Slot()
    def begin(self) -> None:
        from gui.toolkit import memory_given_back, program_icon

        memory_given_back.keep_few_heaps()
        from gui.app.composition import compose  # the database and paper libraries come after the first paint

        memory_given_back.forget_sources()

        QApplication.setWindowIcon(program_icon.icon())
        gc.freeze()  # what importing made stays; later looks for garbage leave it out
        compose(self._window, self._where, self._who, self._clock)


def clock_from(now: str | None) -> Callable[[], datetime]:
    """The wall clock, or a clock that starts at ``now`` (ISO 8601 with offset) and runs on from there."""
    if now is None:
        return _wall_clock
    from datetime import UTC, datetime

    start = datetime.fromisoformat(now)
    began = time.monotonic()

    def moved_clock() -> datetime:
        return datetime.fromtimestamp(start.timestamp() + time.monotonic() - began, UTC)

    return moved_clock


def _wall_clock() -> datetime:
    from datetime import UTC, datetime  # not before the first paint

    return datetime.now(UTC)


def _arguments(argv: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="tapewright")
    parser.add_argument("--shop", default=None, help=say("window", "option_shop"))
    parser.add_argument("--who", default="counter", help=say("window", "option_who"))
    parser.add_argument("--now", default=None, help=say("window", "option_now"))
    parser.add_argument("--quit-after-first-paint", action="store_true", help=argparse.SUPPRESS)
    return parser.parse_args(argv)


@Slot()
def _report_first_paint() -> None:
    print(f"first-paint {1000 * (time.perf_counter() - _STARTED):.1f}", flush=True)
    app = QApplication.instance()
    if app is not None:
        QTimer.singleShot(0, app.quit)
