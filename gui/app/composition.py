"""Everything that comes after the first paint: the records, the screens, the border of failure."""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from platformdirs import user_data_path, user_documents_path, user_log_path
from PySide6.QtCore import QObject, QUrl, Slot
from PySide6.QtGui import QDesktopServices

from core.model.settings_records import ShopSettings
from core.services import decks
from core.services.records_door import Shop
from core.wording import messages
from gui.app.backup_care import BackupCare
from gui.app.main_window import Window
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.customer_side.customer_window import CustomerSide
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk
from gui.toolkit.unexpected_errors import ErrorBoundary
from gui.toolkit.workers import Work


def compose(
    window: Window, where: str | None, who: str, clock: Callable[[], datetime], papers: Path | None = None
) -> CompositionRoot:
    """Open the shop at ``where`` (default: the user's data folder) behind ``window``."""
    return CompositionRoot(window, where or _usual_shop(), who, clock, papers or _papers_beside(where))


class CompositionRoot(QObject):
    """Waits for the shop to open, then hands every screen its desk."""

    def __init__(
        self, window: Window, where: str, who: str, clock: Callable[[], datetime], papers: Path
    ) -> None:
        super().__init__(window)
        self._window = window
        self._who = who
        self._border = ErrorBoundary(window, _log_to_file())
        self._border.watch()

        def open_shop() -> Shop:
            return Shop.open(where, clock=clock, who=who)

        self._work = Work(open_shop, self)
        self._work.broke.connect(self._border.report)
        self._work.opened.connect(self._read_fittings)
        self._work.refused.connect(window.banner.refuse)
        self._desk = Desk(self._work, clock, who, papers, show_file)
        self._work.open()

    @property
    def desk(self) -> Desk:
        return self._desk

    @property
    def customer_side(self) -> CustomerSide:
        """The window for the customer; there once the shop was read."""
        return self._customer_side

    @Slot()
    def _read_fittings(self) -> None:
        self._work.ask(decks.settings, then=self._move_in)

    def _move_in(self, fittings: ShopSettings) -> None:
        messages.use(fittings.front.language)
        counter = CounterScreen(self._desk)
        screens: dict[str, Screen] = {
            "counter": counter,
            "phone": PhoneScreen(self._desk),
            "bench": BenchScreen(self._desk),
            "pickup": PickupScreen(self._desk),
            "shop": ShopScreen(self._desk),
        }
        self._customer_side = CustomerSide(self._window)
        self._customer_side.show_front(fittings.front)
        counter.quote_changed.connect(self._customer_side.show_quote)
        counter.job_booked.connect(self._customer_side.show_job)
        self._window.wants_customer_side.connect(self._customer_side.turn)
        self._work.refused.disconnect(self._window.banner.refuse)
        self._window.add_screens(self._desk, fittings.front.name, screens)
        self._look_after_backups()

    def _look_after_backups(self) -> None:
        care = BackupCare(self._work, self._work)
        care.refused.connect(self._window.banner.refuse)
        care.begin()


def _usual_shop() -> str:
    folder = user_data_path("Tapewright", appauthor=False, ensure_exists=True)
    return str(folder / "shop.sqlite")


def _papers_beside(where: str | None) -> Path:
    if where is not None and "://" not in where:
        return Path(where).resolve().parent / "papers"
    return user_documents_path() / "Tapewright"


def _log_to_file() -> Path:
    file = user_log_path("Tapewright", appauthor=False, ensure_exists=True) / "tapewright.log"
    log = logging.getLogger("tapewright")
    if not log.handlers:
        log.addHandler(logging.FileHandler(file, delay=True))
    return file


def show_file(file: Path) -> None:
    """Hand a finished PDF to the system's viewer."""
    QDesktopServices.openUrl(QUrl.fromLocalFile(str(file)))
