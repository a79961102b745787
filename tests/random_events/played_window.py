"""The whole window on a shop of its own, opened, closed and opened again; it keeps to its own folder."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from unittest import mock

from PySide6.QtCore import QCoreApplication, QEvent, QtMsgType, QUrl, qInstallMessageHandler
from PySide6.QtGui import QDesktopServices, QGuiApplication, QScreen
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from core.model.errors import TapewrightError
from core.model.names import JobNumber
from core.services import invented_shop, jobs, payments
from core.services.records_door import Shop
from gui.app import composition
from gui.app.main_window import Window
from gui.counter.counter_screen import CounterScreen
from gui.customer_side import second_screen
from gui.first_run import practice_place
from gui.pickup.pickup_screen import PickupScreen
from gui.toolkit.screen import Screen
from gui.toolkit.unexpected_errors import ErrorBoundary
from tests.bench.typing import wait_until
from tests.random_events import begun_shops
from tests.random_events.begun_shops import Begun
from tests.support.booked import Clock

_UNHEARD = ("This plugin does not support", "QFontDatabase", "propagateSizeHints", "requestActivate() called")
"""What the platform without a screen grumbles about."""


class Surroundings:
    """What a window finds around it: its folder of data, and whether there is a second screen.

    The platform without any screen cannot be given another one while it runs.
    """

    is_plugged = False
    data = Path()

    def second_screen(self, screens: list[QScreen], ours: QScreen | None) -> QScreen | None:
        """In place of that of the Customer side: the only screen stands for the second one."""
        return ours if self.is_plugged else None


AROUND = Surroundings()


class PlayedWindow:
    """One window; `bugs` are the exceptions and Qt's own complaints so far."""

    def __init__(self, file: Path, begun: Begun, bugs: list[str]) -> None:
        self.file = file
        self.begun = begun
        self.bugs = bugs
        self.clock = Clock()
        AROUND.is_plugged, AROUND.data = False, file.parent / "data"
        self.window: Window
        self.root: composition.CompositionRoot
        self.open()

    def open(self) -> None:
        """A new window, as a new start of the program; ends when it is ready for a key."""
        self.window = Window()
        self.window.resize(1280, 800)
        self.window.show()
        folder = self.file.parent
        self.root = composition.compose(
            self.window, str(self.file), "Kim", self.clock, folder / "papers", folder / "practice"
        )
        sys.excepthook = self._caught
        self.window.activateWindow()
        self.settle()

    def close(self) -> bool:
        """Closes the window; False where it stays because something would be lost."""
        self.window.close()
        self.look()
        return not self.window.isVisible()

    def let_go(self) -> None:
        """The window is closed, or what it asks first is not heard: nothing of it stays."""
        self.root._place.release()
        side = self.root._customer_side
        if side is not None:
            side.close()
        self.window.deleteLater()
        self.look()

    def look(self) -> None:
        """What is to be painted, told and deleted."""
        QApplication.processEvents()
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)

    def settle(self) -> None:
        """Until nothing is under way."""
        for _ in range(3):
            wait_until(lambda: self.root.desk.work.is_idle)
            self.look()

    def screen(self) -> Screen | None:
        return self.window.screen_on_show()

    @property
    def counter(self) -> CounterScreen | None:
        found = self.window._stack.screens.get("counter")
        return found if isinstance(found, CounterScreen) else None

    @property
    def pickup(self) -> PickupScreen | None:
        found = self.window._stack.screens.get("pickup")
        return found if isinstance(found, PickupScreen) else None

    def in_front(self) -> QWidget:
        """What a hand can reach: a menu, else a dialog, else the window."""
        for found in (QApplication.activePopupWidget(), QApplication.activeModalWidget()):
            if found is not None:
                return found
        side = self.root._customer_side
        covers = side is not None and side.isVisible() and not AROUND.is_plugged
        return side if covers and side is not None else self.window

    def ask(self, query: Callable[..., object], *args: object) -> object:
        """The records as they lie in the file, or in the shop the window went over to."""
        with Shop.open(self.root._where, clock=self.clock, who="Kim", create=False) as shop:
            return shop.ask(query, *args)

    def plug(self) -> None:
        """A second screen comes, or goes with all that was on it."""
        AROUND.is_plugged = not AROUND.is_plugged
        application = QGuiApplication.instance()
        assert isinstance(application, QGuiApplication)
        told = application.screenAdded if AROUND.is_plugged else application.screenRemoved
        told.emit(application.primaryScreen())

    def elsewhere(self, share: float) -> None:
        """Another till changes an order of this shop."""
        where = self.root._where
        with suppress(TapewrightError), Shop.open(where, clock=self.clock, who="Lu", create=False) as shop:
            numbers = sorted({job.number for job in shop.ask(jobs.open_jobs)})
            if numbers:
                shop.run(payments.take, JobNumber(numbers[int(share * len(numbers))]), 100)

    def _caught(self, kind: type[BaseException], error: BaseException, trace: object) -> None:
        self.bugs.append(told(error.with_traceback(trace)))  # type: ignore[arg-type]


def told(error: BaseException) -> str:
    """The exception with its last places."""
    import traceback

    return "".join(traceback.format_exception(error)[-6:])


@contextmanager
def kept_in(folder: Path, begun: Begun) -> Iterator[list[str]]:
    """A list of bugs; meanwhile no window reaches beyond the folder or shows a file."""
    bugs: list[str] = []

    def report(_: ErrorBoundary, error: BaseException) -> None:
        bugs.append(told(error))

    def hear(kind: QtMsgType, _: object, message: str) -> None:
        if kind is not QtMsgType.QtDebugMsg and not message.startswith(_UNHEARD):
            bugs.append(f"Qt: {message}")

    hook = sys.excepthook
    with ExitStack() as kept:
        for target, name, instead in (
            (ErrorBoundary, "report", report),
            (composition, "show_file", _unseen),
            (composition, "_data_folder", lambda: AROUND.data),
            (composition, "_log_to_file", lambda: folder / "log" / "tapewright.log"),
            (practice_place, "made", lambda place, *_: begun_shops.copied(begun, place, invented_shop.FILE)),
            (QFileDialog, "open", QFileDialog.reject),
            (QDesktopServices, "openUrl", _not_opened),
            (second_screen, "second_screen", AROUND.second_screen),
        ):
            kept.enter_context(mock.patch.object(target, name, instead))
        before = qInstallMessageHandler(hear)
        try:
            yield bugs
        finally:
            qInstallMessageHandler(before)
            sys.excepthook = hook


def _unseen(_: Path) -> None:
    """Papers are written and not shown."""


def _not_opened(_: QUrl) -> bool:
    return True
