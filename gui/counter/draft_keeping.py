"""The box on the Counter written down while it is typed, so that a power cut costs a second of typing."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from core.model.inventory import Inventory
from core.model.typed_draft import TypedBox
from core.services import drafts
from gui.counter.typed_box import box_of
from gui.toolkit.screen_context import Desk

KEEP_AFTER_MS = 1000
"""The most that a power cut costs: what was typed is written down so long after the first unkept key."""


class DraftKeeping(QObject):
    """Writes down what ``typed`` returns, for the person at this desk, and finds it again at the start."""

    found = Signal(object)
    """The `TypedBox` that was left behind last time."""

    def __init__(self, desk: Desk, typed: Callable[[], TypedBox], parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._typed = typed
        self._is_restored = False
        self._timer = QTimer(self, interval=KEEP_AFTER_MS, singleShot=True)
        self._timer.timeout.connect(self._keep)

    @property
    def key(self) -> str:
        """Under which the box of this person is kept."""
        return f"counter {self._desk.who}"

    def restore(self) -> None:
        """Look once for what was left behind; `found` follows when there is something."""
        if not self._is_restored:
            self._is_restored = True
            self._desk.work.ask(drafts.kept, self.key, then=self._tell)

    @Slot()
    def soon(self) -> None:
        """Another key: write it down, together with those that follow within a second."""
        if not self._timer.isActive():
            self._timer.start()

    @Slot()
    def now(self) -> None:
        """Write it down without waiting, if it is not written yet."""
        if self._timer.isActive():
            self._timer.stop()
            self._keep()

    @Slot()
    def _keep(self) -> None:
        box = self._typed()
        self._desk.work.run(drafts.keep, self.key, None if box.is_empty else box, changes=frozenset())

    def _tell(self, kept: TypedBox | Inventory | None) -> None:
        if kept is not None:
            self.found.emit(box_of(kept) if isinstance(kept, Inventory) else kept)
