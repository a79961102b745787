"""The search for a better order of the boxes: beside the records, stopped by a key, newest answer only."""

from __future__ import annotations

from functools import partial
from threading import Event

from PySide6.QtCore import QObject, Signal, Slot

from core.model.errors import TapewrightError
from core.services import box_order
from core.services.box_order import Proposal, SequencingProblem
from gui.toolkit.workers import Work


class OrderSearch(QObject):
    """At most one search is wanted; what another one finds is dropped."""

    found = Signal(object)
    """A `Proposal`, or None when no order was better."""
    failed = Signal(object)
    """A `TapewrightError`."""

    def __init__(self, work: Work, parent: QObject) -> None:
        super().__init__(parent)
        self._work = work
        self._stop: Event | None = None
        work.broke.connect(self.stop)

    @property
    def is_under_way(self) -> bool:
        return self._stop is not None

    def begin(self) -> None:
        """Look for a better order of the queue as it is now."""
        self.stop()
        stop = self._stop = Event()
        self._work.ask(
            box_order.question, then=partial(self._think, stop), otherwise=partial(self._fail, stop)
        )

    @Slot()
    def stop(self) -> None:
        """Nobody wants the answer any more."""
        if self._stop is not None:
            self._stop.set()
            self._stop = None

    def _think(self, stop: Event, question: SequencingProblem) -> None:
        if stop is self._stop:
            self._work.compute_long(
                partial(question.answer, partial(_is_over, stop, self._work)),
                then=partial(self._tell, stop),
                otherwise=partial(self._fail, stop),
            )

    def _tell(self, stop: Event, proposal: Proposal | None) -> None:
        if stop is self._stop:
            self._stop = None
            self.found.emit(proposal)

    def _fail(self, stop: Event, failure: TapewrightError) -> None:
        if stop is self._stop:
            self._stop = None
            self.failed.emit(failure)


def _is_over(stop: Event, work: Work) -> bool:
    return stop.is_set() or work.is_closing
