"""The way of a new owner: the first question, the pages of the set-up, the list of what is missing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import Protocol

from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication, QWidget

from core.services.records_door import Shop
from gui.app.main_window import Window
from gui.app.walkthrough_keys import wait_until
from gui.first_run.set_up_screen import SetUpScreen
from gui.toolkit.screen_context import Desk


class Composed(Protocol):
    """What composing a window gives."""

    @property
    def desk(self) -> Desk: ...


Compose = Callable[[Window, str, str, Callable[[], datetime], Path, Path], Composed]
"""Fills a window: with the shop's place, who works, the clock, the folders of papers and of data."""


@dataclass(frozen=True, slots=True)
class Stop:
    """Something to look at, on show until the next stop is asked for."""

    name: str
    widget: QWidget


def stops(
    folder: Path, clock: Callable[[], datetime], who: str, size: tuple[int, int], compose: Compose
) -> Iterator[Stop]:
    """Every stop of the first start in an empty ``folder``."""
    shop = folder / "shop.sqlite"
    for walk in (_question, _set_up):
        window = Window()
        window.resize(*size)
        window.show()
        try:
            yield from walk(
                window, partial(compose, window, str(shop), who, clock, folder / "papers", folder)
            )
        finally:
            window.close()
            window.deleteLater()
            QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
        with Shop.open(shop, clock=clock):
            pass  # the way that the question leads to begins with an empty shop


def _question(window: Window, start: Callable[[], Composed]) -> Iterator[Stop]:
    _settle(start())
    yield Stop("0-first-question", window)


def _set_up(window: Window, start: Callable[[], Composed]) -> Iterator[Stop]:
    root = start()
    wait_until(lambda: window.screen_on_show() is not None)
    _settle(root)
    screen = window.screen_on_show()
    if isinstance(screen, SetUpScreen):
        for page in screen.pages:
            screen.open_at(page)
            window.go("set-up")
            _settle(root)
            yield Stop(f"0-set-up-{page.value}", window)
    window.go("shop")
    _settle(root)
    yield Stop("0-missing", window)


def _settle(root: Composed) -> None:
    for _ in range(4):
        wait_until(lambda: root.desk.work.is_idle)
        QApplication.processEvents()
