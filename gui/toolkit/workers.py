"""The only place that starts threads: for records, backups, papers, long readings and computations.

A step runs on the records thread; its result comes back on the main thread, and then
`changed` tells every screen what kind of thing changed.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from threading import Event
from time import monotonic
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QCoreApplication, QEventLoop, QObject, QThreadPool, Signal, Slot

from core.model.errors import TapewrightError, Unavailable, Unreachable
from core.model.names import ELSEWHERE, EVERY_KIND
from core.wording.messages import say
from gui.toolkit.background_task import BackgroundTask, begin, single_thread
from gui.toolkit.change_watching import ChangeWatching
from gui.toolkit.garbage_collection import MainThreadCollector
from gui.toolkit.sent_steps import SentSteps
from gui.toolkit.turns import Turns

if TYPE_CHECKING:
    from core.services.records_door import Shop


TURN_S = 0.0001
"""The longest a worker keeps the window waiting for each turn in Python, of which one key takes many.

Measured twice in turns (forty tapes, forty counts, an overloaded machine of two cores; stops without the time
in which Linux let threads wait): the longest 92 and 74 ms with one millisecond, 40 and 19 ms with this one,
the worker as quick as before (29.6 and 32.3 rounds a millisecond beside a typist). Less was no better.
"""

LOOK_MS = 10
"""How long the window stays away from its events at a time while it waits for the records to be closed."""


class Work(QObject):
    """Tasks of the window, each done off the main thread and answered on it."""

    opened = Signal()
    changed = Signal(object)
    """A frozenset of kinds: ``jobs``, ``tapes``, ``shop``, ``drafts``, ``backups``, ``who`` acts."""
    refused = Signal(object)
    """A `TapewrightError` nobody else wanted."""
    link_changed = Signal(bool)
    """Whether the server of the records answers, when that changes."""
    broke = Signal(object)
    """An exception that is a bug."""

    def __init__(self, open_shop: Callable[[], Shop], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._open_shop = open_shop
        self._shop: Shop | None = None
        self._records = single_thread(self)
        self._watching = single_thread(self)
        self._papers = single_thread(self)
        self._readings = single_thread(self)
        self._copies = single_thread(self)
        self._long_computations = single_thread(self)
        self._short_computations = single_thread(self)
        self._current: BackgroundTask | None = None
        self._newest: tuple[BackgroundTask, Callable[[], Any]] | None = None
        self._closing = Event()
        self._is_cut_off = False
        self.link_changed.connect(self._note_link)
        self._under_way: set[BackgroundTask] = set()
        self.sent = SentSteps(self)
        self.turns = Turns(self)
        self._collector = MainThreadCollector(self)
        sys.setswitchinterval(TURN_S)

    @property
    def is_idle(self) -> bool:
        """Whether nothing is waiting or running."""
        return not self._under_way and self.turns.is_idle

    @property
    def is_cut_off(self) -> bool:
        """Whether the server of the records is known not to answer."""
        return self._is_cut_off

    @property
    def waited_seconds(self) -> float:
        """How long the records have let whoever asked them wait, at the moment."""
        return max((task.seconds for task in self._under_way if task.is_of_records), default=0.0)

    @property
    def is_closing(self) -> bool:
        """Whether the shop is being closed: what takes long had better stop."""
        return self._closing.is_set()

    def open(self) -> None:
        """Open the shop's records; `opened` follows, or `refused`."""
        self._start(self._records, self._connect, self._was_opened, None, frozenset())

    def ask(
        self,
        query: Callable[..., Any],
        *args: Any,
        then: Callable[[Any], None],
        otherwise: Callable[[TapewrightError], None] | None = None,
        **named: Any,
    ) -> None:
        """Read something; ``then`` gets the record, ``otherwise`` a named failure."""
        self.on_records(lambda shop: shop.ask(query, *args, **named), then, otherwise)

    def run(
        self,
        step: Callable[..., Any],
        *args: Any,
        then: Callable[[Any], None] | None = None,
        otherwise: Callable[[TapewrightError], None] | None = None,
        changes: frozenset[str] = frozenset({"jobs", "tapes"}),
        under: str = "",
        **named: Any,
    ) -> None:
        """Do one step in one transaction; afterwards `changed` carries ``changes``. See `SentSteps`.

        ``under``: the id it goes by, where it has one before it is asked for.
        """
        self.sent.send(step, args, named, then, otherwise, changes, under)

    def on_records(
        self,
        deed: Callable[[Shop], Any],
        then: Callable[[Any], None] | None,
        otherwise: Callable[[TapewrightError], None] | None,
        changes: frozenset[str] = frozenset(),
        ended: Callable[[BaseException | None], None] | None = None,
    ) -> None:
        """Do something with the shop on the thread of its records; ``ended`` hears first how it ended."""
        task = self._task(then, otherwise, changes, ended)
        task.is_of_records = True
        begin(self._records, task.carry_out, lambda: deed(self._reach()))

    def wait_for_records(self, milliseconds: int) -> None:
        """Wait for what the records were asked so far, at most so long, and hand on the answers.

        The window goes on painting and telling meanwhile; keys and clicks wait.
        """
        asked = [task for task in self._under_way if task.is_of_records]
        given_up = monotonic() + milliseconds / 1000
        while not self._under_way.isdisjoint(asked) and monotonic() < given_up:
            self._records.waitForDone(LOOK_MS)
            QCoreApplication.processEvents(QEventLoop.ProcessEventsFlag.ExcludeUserInputEvents)

    def act_as(self, name: str) -> None:
        """What is begun from now on is done by this person; what was begun before, by the one before."""
        self._start(self._records, lambda: self._sign(name), None, None, frozenset())

    def write_paper(
        self,
        render: Callable[[], Any],
        *,
        then: Callable[[Any], None],
        otherwise: Callable[[TapewrightError], None] | None = None,
    ) -> None:
        """Render or save a paper on its own thread, so that a slow printer never holds up a save."""
        self._start(self._papers, render, then, otherwise, frozenset())

    def run_beside(
        self,
        deed: Callable[[Shop], Any],
        *,
        then: Callable[[Any], None],
        otherwise: Callable[[TapewrightError], None] | None = None,
        changes: frozenset[str] = frozenset(),
    ) -> None:
        """Do something with the whole shop that takes seconds, such as a backup, while steps go on."""
        task = self._task(then, otherwise, changes)
        begin(self._copies, self._unless_closing, task, lambda: deed(self._open()))

    def compute_long(
        self,
        work_out: Callable[[], Any],
        *,
        then: Callable[[Any], None],
        otherwise: Callable[[TapewrightError], None] | None = None,
    ) -> None:
        """Work something out that takes seconds and needs no records, so that nobody waits for them."""
        begin(
            self._long_computations, self._unless_closing, self._task(then, otherwise, frozenset()), work_out
        )

    def compute_soon(
        self,
        work_out: Callable[[], Any],
        *,
        then: Callable[[Any], None],
        otherwise: Callable[[TapewrightError], None] | None = None,
    ) -> None:
        """Work something out that takes a blink, too long for the window, and that somebody waits for."""
        self._start(self._short_computations, work_out, then, otherwise, frozenset())

    def compute_latest(
        self,
        work_out: Callable[[], Any],
        *,
        then: Callable[[Any], None],
        otherwise: Callable[[TapewrightError], None] | None = None,
    ) -> None:
        """`compute_soon` for what changes with every key: while one is worked out, only the newest waits."""
        task = self._task(then, otherwise, frozenset())
        if self._newest is not None:
            self._drop(self._newest[0])
        self._newest = (task, work_out)
        if self._current is None:
            self._start_newest()

    def _start_newest(self) -> None:
        self._current = None
        if self._newest is not None and not self._closing.is_set():
            (self._current, work_out), self._newest = self._newest, None
            begin(self._short_computations, self._current.carry_out, work_out)

    def run_with_progress(
        self,
        reading: Callable[[Callable[[float], None], Callable[[], bool]], Any],
        *,
        told: Callable[[float], None],
        then: Callable[[Any], None],
        otherwise: Callable[[TapewrightError], None] | None = None,
    ) -> Callable[[], None]:
        """Do something that takes minutes on its own thread; calling what this gives back stops it.

        ``reading`` is given two functions: one to say the share that is done, which ``told`` then hears on
        the main thread, and one that answers whether it should stop.
        """
        stop, closing = Event(), self._closing
        task = self._task(then, otherwise, frozenset())
        task.progressed.connect(told)

        def read() -> Any:
            return reading(task.progressed.emit, lambda: stop.is_set() or closing.is_set())

        begin(self._readings, task.carry_out, read)
        return stop.set

    def watch(self) -> None:
        """Hear from now on what others change in the open shop."""
        begin(self._watching, ChangeWatching(self).look, self._open(), self._closing)

    def abandon(self) -> None:
        """`close`, and nobody hears any more of what was under way."""
        for task in self._under_way:
            task.then, task.otherwise, task.changes = None, _unheard, frozenset()
        self.close()

    def close(self) -> None:
        """Stop long readings, finish what else was begun, then close the shop."""
        self._closing.set()
        self.turns.end()
        self._hurry()
        self._watching.waitForDone()
        self._long_computations.waitForDone()
        self._short_computations.waitForDone()
        self._readings.waitForDone()
        self._copies.waitForDone()
        self._papers.waitForDone()
        begin(self._records, self._disconnect)
        self._records.waitForDone()
        self._collector.stop()

    def _start(
        self,
        pool: QThreadPool,
        do: Callable[[], Any],
        then: Callable[[Any], None] | None,
        otherwise: Callable[[TapewrightError], None] | None,
        changes: frozenset[str],
    ) -> None:
        task = self._task(then, otherwise, changes)
        task.is_of_records = pool is self._records
        begin(pool, task.carry_out, do)

    def _task(
        self,
        then: Callable[[Any], None] | None,
        otherwise: Callable[[TapewrightError], None] | None,
        changes: frozenset[str],
        ended: Callable[[BaseException | None], None] | None = None,
    ) -> BackgroundTask:
        task = BackgroundTask(self._finish, then, otherwise, changes, self)
        task.ended = ended
        self._under_way.add(task)
        return task

    def _finish(self, task: BackgroundTask, result: Any, failure: BaseException | None) -> None:
        """Main thread: hand the result, or the failure, to whoever asked."""
        self._under_way.discard(task)
        if task.ended is not None:
            task.ended(failure)
        if task is self._current:
            self._start_newest()
        if failure is None:
            self._hand_over(task, result)
            self.sent.look_up()
        elif isinstance(failure, Unreachable) and self._is_cut_off and task.otherwise is None:
            """The strip says it, and what was asked is asked again once the server answers."""
        elif isinstance(failure, TapewrightError):
            (task.otherwise or self.refused.emit)(failure)
        else:
            self.broke.emit(failure)

    def _hand_over(self, task: BackgroundTask, result: Any) -> None:
        """Where whoever asked fails over the answer, the others still hear that something changed."""
        try:
            if task.then is not None:
                task.then(result)
        finally:
            if task.changes:
                self.changed.emit(task.changes)

    def _drop(self, task: BackgroundTask) -> None:
        self._under_way.discard(task)
        task.deleteLater()

    def _unless_closing(self, task: BackgroundTask, do: Callable[[], Any]) -> None:
        """Worker thread: what takes long and has not begun is left when the shop is being closed."""
        if not self._closing.is_set():
            task.carry_out(do)

    def _hurry(self) -> None:
        shop = self._shop
        if shop is not None:
            shop.hurry()

    def _connect(self) -> None:
        self._disconnect()
        self._shop = self._open_shop()
        self._shop.note_changes()

    def _sign(self, name: str) -> None:
        self._open().who = name

    def _disconnect(self) -> None:
        if self._shop is not None:
            self._shop.close()
            self._shop = None

    def _open(self) -> Shop:
        if self._shop is None:
            raise Unavailable(say("window", "not_open_yet"))
        return self._shop

    def _reach(self) -> Shop:
        """Worker thread: nobody waits for a server that is known not to answer."""
        shop = self._open()
        if self._is_cut_off:
            raise Unreachable(say("window", "cut_off_step"))
        return shop

    @Slot(bool)
    def _note_link(self, is_there: bool) -> None:
        """Whoever could not read meanwhile reads again."""
        self._is_cut_off = not is_there
        if is_there:
            self.changed.emit(EVERY_KIND | {ELSEWHERE})

    def _was_opened(self, _: Any) -> None:
        self.opened.emit()


def _unheard(_: TapewrightError) -> None:
    """Whoever asked is gone."""
