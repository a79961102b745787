"""The step that hands back what is checked off: one at a time, carried out once however often it is asked."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QObject, Signal, Slot

from core.model.errors import TapewrightError
from core.model.job_records import Pickup
from core.model.signatures import Signature
from core.services import pickups
from gui.pickup.checklist import Checklist
from gui.toolkit.workers import Work


class HandBack(QObject):
    """Runs the step for one job at a time."""

    done = Signal(object, str)
    """The `Pickup`, and the summary of what was handed back."""
    failed = Signal(object)
    """A `TapewrightError`; nothing was stored."""

    def __init__(self, work: Work, parent: QObject) -> None:
        super().__init__(parent)
        self._work = work
        self.is_under_way = False
        work.broke.connect(self._abandon)

    def run(self, checklist: Checklist, signature: Signature, paid_minor: int, shown: str) -> None:
        """Hand back what is checked off; `done` or `failed` follows. ``shown`` by somebody else, in words."""
        self._work.run(
            pickups.hand_back,
            checklist.job.number,
            codes=checklist.codes,
            copies=checklist.copies,
            signature=signature,
            paid_minor=paid_minor,
            shown=shown,
            partly=bool(checklist.partial_copies),
            then=partial(self._was_done, checklist.summary),
            otherwise=self._was_refused,
        )
        self.is_under_way = True

    def _was_done(self, summary: str, pickup: Pickup) -> None:
        self.is_under_way = False
        self.done.emit(pickup, summary)

    def _was_refused(self, failure: TapewrightError) -> None:
        self.is_under_way = False
        self.failed.emit(failure)
