"""Books a box: its whole quote is worked out with the day that belongs to it, then the job is stored."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal, Slot

from core.model.agreement_records import Consent
from core.model.errors import StoredBefore, TapewrightError
from core.model.inventory import Inventory
from core.model.job_records import Job
from core.model.quote_records import Quote
from core.model.typed_draft import TypedBox
from core.services import drafts
from gui.toolkit.screen_context import Desk

if TYPE_CHECKING:
    from core.services.quoting import ShopSnapshot
    from gui.counter.draft_autosave import DraftAutosave


class Booking(QObject):
    """Books one box at a time: the quote off the window's thread, then one step that stores it."""

    booked = Signal(object, object)
    """The `Job`, and the `TypedBox` it was made from."""
    failed = Signal(object)
    """A `TapewrightError`; nothing was stored."""
    stored_before = Signal(object, object)
    """The `Job` that an earlier try stored without an answer, and the `TypedBox`, which is another by now."""

    def __init__(self, desk: Desk, autosave: DraftAutosave, parent: QObject) -> None:
        super().__init__(parent)
        self._desk = desk
        self._autosave = autosave
        self._box: TypedBox | None = None
        self._quote: Quote | None = None
        desk.work.broke.connect(self._abandon)

    @property
    def is_under_way(self) -> bool:
        return self._box is not None

    def begin(self, box: TypedBox, snapshot: ShopSnapshot, inventory: Inventory, deposit_minor: int) -> None:
        """Book ``inventory``, which was read from ``box``, against the shop; `booked` or `failed` follows.

        The same box pressed again after a failure is carried out once at most, also after a new start.
        """
        self._prepare(box)
        self._desk.work.compute_soon(
            partial(snapshot.quote, inventory, self._desk.clock()),
            then=partial(self._store, deposit_minor, Consent(box.name.strip())),
            otherwise=self._failed,
        )

    def begin_agreed(self, box: TypedBox, quote: Quote, deposit_minor: int, consent: Consent) -> None:
        """Book the very quote somebody agreed to; `booked` or `failed` follows, as after `begin`."""
        self._prepare(box)
        self._store(deposit_minor, consent, quote)

    def _prepare(self, box: TypedBox) -> None:
        self._autosave.save_now()
        self._box = box

    def _store(self, deposit_minor: int, consent: Consent, quote: Quote) -> None:
        assert self._box is not None
        self._quote = quote
        self._desk.work.run(
            drafts.book,
            self._autosave.key,
            quote,
            deposit_minor=deposit_minor,
            consent=consent,
            told=self._box.told,
            under=self._box.command,
            then=self._was_booked,
            otherwise=self._failed,
        )

    def _was_booked(self, job: Job) -> None:
        box, self._box = self._box, None
        self.booked.emit(job, box)

    def _failed(self, failure: TapewrightError) -> None:
        box, self._box = self._box, None
        stored = failure.answer if isinstance(failure, StoredBefore) else None
        if not isinstance(stored, Job) or self._quote is None:
            self.failed.emit(failure)
        elif stored.quote.inventory == self._quote.inventory:
            self.booked.emit(stored, box)
        else:
            self.stored_before.emit(stored, box)

    @Slot()
    def _abandon(self) -> None:
        """A bug on the way was told already; the box may be booked once more."""
        self._box = None
