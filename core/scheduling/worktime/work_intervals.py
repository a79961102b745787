"""How long each recorded step took at most: since the tape was there and the person had their hands free.

A history tells when steps ended, not when they began. A step cannot have begun before what it needs was there
nor before whoever did it had ended what they recorded before; the later of the two is taken as its beginning
(the usual rule of process mining for logs of endings, from memory). What the person did besides is in the
interval as well: `core.scheduling.worktime.effort_beliefs` reckons with that.

Steps recorded in one breath, less than `ONE_BREATH` apart, share the time before them as their planned
minutes do, and count together as one. What began in another opening of the shop than it ended in (a tape left
standing over night) tells nothing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date

from core.model.own_shop.handling_minutes import HandlingMinutes
from core.model.stations import Station
from core.scheduling.worktime.recorded_acts import Act, TimedTask, task_ended

ONE_BREATH = 0.5
"""Minutes from one record to the next within which both were done before (an assumption)."""

Hours = Callable[[date], Sequence[tuple[float, float]]]
"""When the shop is open on a day, in minutes after midnight."""


@dataclass(frozen=True, slots=True)
class Interval:
    """A step of work: how many times as long as planned it took, if all of the time went into it."""

    task: TimedTask
    who: str
    ratio: float
    weight: float


@dataclass(slots=True)
class _Batch:
    """Steps that one person recorded in one breath."""

    began: float
    first: Act
    last: Act
    steps: list[tuple[TimedTask, float]] = field(default_factory=list)


@dataclass(slots=True)
class _Tape:
    """Where a tape is, since when, and how long it played."""

    station: Station | None = None
    since: float = 0.0
    deck: str = ""
    played: float = 0.0


class WorkIntervals:
    """Reads acts in their order."""

    def __init__(self, hours: Hours, handling: HandlingMinutes) -> None:
        self._hours, self._handling = hours, handling
        self._tapes: dict[str, _Tape] = {}
        self._free: dict[str, float] = {}
        """Since when each deck is free."""
        self._done: dict[str, tuple[str, float, float]] = {}
        """Of each person what they recorded last, when, and when they did about something else before."""
        self._batches: dict[str, _Batch] = {}

    def of(self, acts: Iterable[Act]) -> Iterator[Interval]:
        """The intervals of all steps that can be timed."""
        for act in acts:
            yield from self._read(act)
        for batch in self._batches.values():
            yield from self._of_batch(batch)

    def _read(self, act: Act) -> Iterator[Interval]:
        tape = self._tapes.setdefault(act.about, _Tape()) if act.station else None
        task, there = self._task(act, tape)
        if task is not None:
            began = max(there, self._hands_free(act))
            yield from self._join(act, task, began, self._planned(act, task, tape))
        if tape is not None and act.station is not tape.station:
            self._move(act, tape)
        self._note(act)

    def _task(self, act: Act, tape: _Tape | None) -> tuple[TimedTask | None, float]:
        """The step that ended, and since when what it needs was there."""
        if act.copies:
            return TimedTask.COPY, 0.0
        if tape is None or act.station is None or act.station is tape.station:
            return None, 0.0
        task = task_ended(tape.station, act.station)
        if task is TimedTask.LOAD:
            return task, max(tape.since, self._free.get(act.deck, 0.0))
        return task, tape.since + (act.played if task is TimedTask.UNLOAD else 0.0)

    def _planned(self, act: Act, task: TimedTask, tape: _Tape | None) -> float:
        if task in (TimedTask.REPAIR, TimedTask.COPY):
            return act.planned
        if task is TimedTask.CHECK:
            return self._handling.check_of(act.played or (tape.played if tape else 0.0))
        return float(getattr(self._handling, task.value))

    def _hands_free(self, act: Act) -> float:
        """When whoever acts had done what they recorded before, about anything else."""
        about, at, before = self._done.get(act.who, ("", 0.0, 0.0))
        return before if about == act.about else at

    def _note(self, act: Act) -> None:
        about, at, before = self._done.get(act.who, ("", 0.0, 0.0))
        self._done[act.who] = act.about, act.at, before if about == act.about else at

    def _move(self, act: Act, tape: _Tape) -> None:
        if tape.deck:
            self._free[tape.deck] = act.at
        tape.station, tape.since, tape.deck = act.station, act.at, act.deck
        tape.played = act.played or tape.played

    def _join(self, act: Act, task: TimedTask, began: float, planned: float) -> Iterator[Interval]:
        batch = self._batches.get(act.who)
        if batch is not None and act.at - batch.last.at <= ONE_BREATH:
            batch.last, batch.began = act, min(batch.began, began)
        else:
            if batch is not None:
                yield from self._of_batch(batch)
            batch = self._batches[act.who] = _Batch(began, act, act)
        batch.steps.append((task, planned))

    def _of_batch(self, batch: _Batch) -> Iterator[Interval]:
        planned = sum(minutes for _, minutes in batch.steps)
        taken = batch.last.at - batch.began
        if planned <= 0 or taken <= 0 or not self._in_one_opening(batch.last, taken):
            return
        for task, minutes in batch.steps:
            if minutes > 0:
                yield Interval(task, batch.last.who, taken / planned, 1 / len(batch.steps))

    def _in_one_opening(self, act: Act, taken: float) -> bool:
        began = act.clock - taken
        return any(opens <= began and act.clock <= closes for opens, closes in self._hours(act.day))
