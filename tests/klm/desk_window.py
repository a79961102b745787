"""The real window on a new shop of its own, for as long as a task takes."""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QPushButton, QTabBar

from core.model.names import TapeCode
from core.services.own_shop import shop_document
from core.services.records_door import Shop
from gui.app import composition
from gui.app.main_window import Window
from gui.toolkit import theme
from gui.toolkit.screen import Screen
from tests.bench.typing import wait_until
from tests.support.booked import Clock, Desk, set_up

SHOP_PHONE = "(303) 555-0100"
"""Of an area where numbers are said without it; 555-01xx are set aside for inventions (ATIS-0300115)."""
S = TypeVar("S", bound=Screen)


@dataclass
class DeskWindow:
    """One window at the desk, and the same shop without a window, where tasks are made ready."""

    window: Window
    root: composition.CompositionRoot
    records: Desk
    codes: tuple[TapeCode, ...] = ()
    """The tapes of the order that was made ready."""

    def settle(self) -> None:
        for _ in range(3):
            wait_until(lambda: self.root.desk.work.is_idle)
            QApplication.processEvents()

    def screen(self, kind: type[S]) -> S:
        """The screen on show."""
        found = self.window.screen_on_show()
        assert isinstance(found, kind), found
        return found

    def go(self, name: str) -> None:
        """Another moment, before the task begins."""
        self.window.go(name)
        self.settle()

    def refresh(self) -> None:
        """Every screen hears of what was done without the window."""
        for name in ("counter", "phone", "bench", "pickup"):
            self.go(name)

    @property
    def told(self) -> str:
        """What stands in the banner."""
        return self.window.banner.accessibleName()

    def moment(self, name: str) -> tuple[QTabBar, QPoint]:
        """The tabs of the moments, and where among them one is."""
        tabs = self.window._bar.tabs
        return tabs, tabs.tabRect([*self.window.moments].index(name)).center()

    def main_button(self) -> QPushButton:
        """The leading button of the screen on show."""
        screen = self.window.screen_on_show()
        assert screen is not None
        buttons = screen.findChildren(QPushButton)
        return next(each for each in buttons if each.isVisible() and each.property("role") == "main")


@contextmanager
def desk_window() -> Iterator[DeskWindow]:
    """A new shop with its window, the Counter on show."""
    app = QApplication.instance() or QApplication([])
    assert isinstance(app, QApplication)
    theme.apply(app)
    clock = Clock()
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "shop.sqlite"
        set_up(file)
        with Shop.open(file, clock=clock, who="owner") as shop:
            shop.run(shop_document.set_texts, [("front.phone", SHOP_PHONE)])
        shown, composition.show_file = composition.show_file, _unseen  # no program opens the papers
        hook = sys.excepthook  # the program puts its own in place
        window = Window()
        window.show()
        root = composition.compose(window, str(file), "Kim", clock, Path(folder) / "papers")
        wait_until(lambda: window.screen_on_show() is not None)
        with Shop.open(file, clock=clock, who="Kim") as shop:
            at_desk = DeskWindow(window, root, Desk(shop, clock, str(file), "sqlite"))
            window.activateWindow()
            at_desk.settle()
            try:
                yield at_desk
            finally:
                at_desk.settle()
                window.closing.ask_nothing()
                window.close()
                composition.show_file = shown
                sys.excepthook = hook


def _unseen(_: Path) -> None:
    """Papers are written and not shown."""
