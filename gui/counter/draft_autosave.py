"""The box on the Counter saved while it is typed, so that a power cut costs a second of typing."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer, Signal, Slot

from core.model.inventory import Inventory
from core.model.typed_draft import TypedBox
from core.services import drafts
from gui.counter.typed_box import box_of
from gui.toolkit.screen_context import Desk

SAVE_AFTER_MS = 1000
"""The most that a power cut costs: the draft is saved so long after the first unsaved key."""


class DraftAutosave(QObject):
    """Saves what ``typed`` returns, for the person at this desk, and restores it at the start."""

    found = Signal(object)
    """The `TypedBox` saved last time and not booked."""

    def __init__(self, desk: Desk, typed: Callable[[], TypedBox], parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._key = f"counter {desk.who}"
        self._typed = typed
        self._is_restored = False
        self._timer = QTimer(self, interval=SAVE_AFTER_MS, singleShot=True)
        self._timer.timeout.connect(self._save)

    @property
    def key(self) -> str:
        """The key under which the box of this counter is saved, whoever signs in meanwhile."""
        return self._key

    def restore(self) -> None:
        """Look once for a saved draft; `found` follows when there is one."""
        if not self._is_restored:
            self._is_restored = True
            self._desk.work.ask(drafts.kept, self.key, then=self._tell)

    @Slot()
    def save_soon(self) -> None:
        """A key was typed: save it together with those that follow within a second."""
        if not self._timer.isActive():
            self._timer.start()

    @Slot()
    def save_now(self) -> None:
        """Save without waiting what is not saved yet."""
        if self._timer.isActive():
            self._timer.stop()
            self._save()

    @Slot()
    def _save(self) -> None:
        box = self._typed()
        self._desk.work.run(drafts.keep, self.key, None if box.is_empty else box, changes=frozenset())

    def _tell(self, kept: TypedBox | Inventory | None) -> None:
        if kept is not None:
            self.found.emit(box_of(kept) if isinstance(kept, Inventory) else kept)
