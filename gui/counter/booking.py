"""From the key that books to the stored job: the box as it was then, with the day that belongs to it."""

from __future__ import annotations

import uuid
from functools import partial

from PySide6.QtCore import QObject, Signal, Slot

from core.model.errors import TapewrightError
from core.model.inventory import Inventory
from core.model.job_records import Job
from core.model.names import CommandId
from core.model.quote_records import Quote
from core.model.typed_draft import TypedBox
from core.services import drafts
from core.services.quoting import ShopSnapshot
from gui.toolkit.screen_context import Desk


class Booking(QObject):
    """One box at a time: worked out whole off the window's thread, then stored in one step."""

    booked = Signal(object, object)
    """The `Job`, and the `TypedBox` it was made from."""
    failed = Signal(object)
    """A `TapewrightError`; nothing was stored."""

    def __init__(self, desk: Desk, draft_key: str, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._draft_key = draft_key
        self._box: TypedBox | None = None
        self._command: CommandId | None = None
        desk.work.broke.connect(self._give_up)

    @property
    def is_under_way(self) -> bool:
        return self._box is not None

    def begin(self, box: TypedBox, present: ShopSnapshot, inventory: Inventory, deposit_minor: int) -> None:
        """Book ``inventory``, which was read from ``box``, against ``present``; `booked` or `failed` follows.

        The same box pressed again after a failure is carried out once at most.
        """
        self._box = box
        self._command = self._command or CommandId(str(uuid.uuid4()))
        self._desk.work.reckon(
            partial(present.quote, inventory, self._desk.clock()),
            then=partial(self._store, deposit_minor),
            otherwise=self._failed,
        )

    def _store(self, deposit_minor: int, quote: Quote) -> None:
        assert self._command is not None
        self._desk.work.run(
            drafts.book,
            self._draft_key,
            quote,
            command=self._command,
            deposit_minor=deposit_minor,
            then=self._was_booked,
            otherwise=self._failed,
        )

    def _was_booked(self, job: Job) -> None:
        box, self._box, self._command = self._box, None, None
        self.booked.emit(job, box)

    def _failed(self, failure: TapewrightError) -> None:
        self._box = None
        self.failed.emit(failure)

    @Slot()
    def _give_up(self) -> None:
        """A bug on the way was told already; the box may be booked once more."""
        self._box = None
