"""One call that is done off the main thread, and whoever waits for its result on it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from time import monotonic
from typing import Any

from PySide6.QtCore import QObject, QThreadPool, Signal, Slot

from core.model.errors import TapewrightError


class BackgroundTask(QObject):
    """Lives on the main thread; `carry_out` runs on a worker and sends the outcome over."""

    answered = Signal(object, object)
    progressed = Signal(float)

    def __init__(
        self,
        finish: Callable[[BackgroundTask, Any, BaseException | None], None],
        then: Callable[[Any], None] | None,
        otherwise: Callable[[TapewrightError], None] | None,
        changes: frozenset[str],
        parent: QObject,
    ) -> None:
        """``finish`` is called on the main thread with this task, its result and its failure."""
        super().__init__(parent)
        self._finish = finish
        self.then = then
        self.otherwise = otherwise
        self.changes = changes
        self.ended: Callable[[BaseException | None], None] | None = None
        """Hears first how it ended."""
        self.is_of_records = False
        self._asked = monotonic()
        self.answered.connect(self._deliver)

    @property
    def seconds(self) -> float:
        """How long somebody has been waiting for it, its turn included."""
        return monotonic() - self._asked

    def carry_out(self, do: Callable[[], Any]) -> None:
        """Worker thread: do it and send the outcome over."""
        try:
            result, failure = do(), None
        except Exception as error:  # noqa: BLE001  # the border: every failure must reach a person
            result, failure = None, error
        self.answered.emit(result, failure)

    @Slot(object, object)
    def _deliver(self, result: Any, failure: BaseException | None) -> None:
        try:
            self._finish(self, result, failure)
        finally:
            self.deleteLater()


def begin(pool: QThreadPool, call: Callable[..., Any], *args: Any) -> None:
    """Let a worker of this pool do it when its turn comes.

    A function, and no `QRunnable` of our own: where the worker is through with such an object before `start`
    is back, PySide never lets go of it, nor of the records and screens it holds (about one in sixteen calls
    to an idle pool, measured). What `QThreadPool.clear` takes out is never let go of either.
    """
    pool.start(partial(call, *args))


def single_thread(parent: QObject) -> QThreadPool:
    """A pool of one thread that is kept: calls run one after another, in the order they were given."""
    pool = QThreadPool(parent)
    pool.setMaxThreadCount(1)
    pool.setExpiryTimeout(-1)
    return pool
