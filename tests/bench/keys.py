"""A caller answered and a tape added by keys, as a clerk's seconds, against the same work with a mouse."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

from PySide6.QtWidgets import QApplication

from core.model.typed_draft import TypedBox, TypedRow
from core.services.records_door import Shop
from gui.app.main_window import Window
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from gui.toolkit import theme
from gui.toolkit.screen_context import Desk
from gui.toolkit.workers import Work
from tests.bench.ratio import Ratio
from tests.bench.typing import wait_until
from tests.support import klm

AT_MOST = 0.6


def measure() -> Iterator[Ratio]:
    """Keys are counted at the real window; the seconds of both ways come from the same published times."""
    application = QApplication.instance() or QApplication([])
    assert isinstance(application, QApplication)
    theme.apply(application)
    with tempfile.TemporaryDirectory() as folder:

        def open_shop() -> Shop:
            return Shop.open(Path(folder) / "shop.sqlite")

        window = Window()
        work = Work(open_shop, window)
        desk = Desk(work, lambda: datetime.now(UTC), "bench", Path(folder), lambda file: None)
        counter = CounterScreen(desk)
        window.add_screens(desk, "The Tape Table", {"counter": counter, "phone": PhoneScreen(desk)})
        window.show()
        window.activateWindow()
        work.open()
        wait_until(lambda: work.is_idle)
        yield _ratio("a tape added", lambda: _row(counter))
        yield _ratio("a caller answered by four digits", lambda: klm.answer_a_caller("0142"))
        wait_until(lambda: work.is_idle)
        window.close()


def _row(counter: CounterScreen) -> klm.Effort:
    counter.draft.begin(TypedBox(rows=(TypedRow("1", "VHS", "T-120", label="garden"),)))
    counter.parts.table.setFocus()
    counter.parts.table.put_cursor(0, counter.parts.rows.column_named("label"))
    return klm.add_a_row()


def _ratio(task: str, work: Callable[[], klm.Effort]) -> Ratio:
    effort = work()
    what = f"{task}, {effort.keys} keys"
    return Ratio(what, effort.seconds, "by mouse, worked out", effort.by_mouse_s, "s", AT_MOST)
