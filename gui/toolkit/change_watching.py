"""Hears what other windows and counters change in the same shop, and whether its server is there."""

from __future__ import annotations

from collections.abc import Callable
from threading import Event
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot

from core.model.errors import Unavailable
from core.model.names import ELSEWHERE

if TYPE_CHECKING:
    from core.services.records_door import Shop
    from gui.toolkit.workers import Work

AGAIN_S = 1.0
"""Between two attempts to reach a server that does not answer."""


class ChangeWatching(QObject):
    """Looks on a thread of its own for as long as the shop is open."""

    _found = Signal(object)
    _reached = Signal(bool)
    _broke = Signal(object)

    def __init__(self, work: Work) -> None:
        super().__init__(work)
        self._work = work
        self._is_reached = True
        self._found.connect(self._tell)
        self._reached.connect(work.link_changed)
        self._broke.connect(work.broke)

    def look(self, shop: Shop, closing: Event) -> None:
        """Worker thread: until the shop is closed."""
        watch = shop.watch()
        try:
            while not closing.is_set():
                self._look_once(watch.next, closing.wait)
        except Exception as error:  # noqa: BLE001  # the border: every failure must reach a person
            self._broke.emit(error)
        finally:
            watch.close()

    def _look_once(
        self,
        find: Callable[[Callable[[float], object]], frozenset[str]],
        pause: Callable[[float], object],
    ) -> None:
        try:
            changed = find(pause)
        except Unavailable:
            self._say_reached(False)
            pause(AGAIN_S)
            return
        self._say_reached(True)
        if changed:
            self._found.emit(changed)

    def _say_reached(self, is_reached: bool) -> None:
        if is_reached is not self._is_reached:
            self._is_reached = is_reached
            self._reached.emit(is_reached)

    @Slot(object)
    def _tell(self, changed: frozenset[str]) -> None:
        if not self._work.is_closing:
            self._work.changed.emit(changed | {ELSEWHERE})
