"""The order of the boxes in the queue: searched for in the background, set as a step, and set back."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select

from core.model.errors import Refused, WrongInput
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopSettings
from core.model.promise_records import Promise
from core.model.stations import Station
from core.promise.order_search import Better, Promised, better
from core.scheduling import dispatching
from core.scheduling.queued_tapes import QueuedTape
from core.services import deck_queue, promises
from core.store import current_settings, history
from core.store.steps import step
from core.store.tables import BoxOrderRow, CustomerRow, JobRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class QueueSnapshot:
    """What an order was worked out against: boxes in their order, the days they were promised, the shop."""

    boxes: tuple[tuple[JobNumber, date | None], ...]
    settings: ShopSettings


@dataclass(frozen=True, slots=True)
class CompletionChange:
    """How a new order moves the completion of one box."""

    number: JobNumber
    customer: str
    days: float
    """How many days sooner; negative: later."""
    promised: date | None
    was: float | None
    """The chance of keeping the promised day; None without one."""
    will: float | None


@dataclass(frozen=True, slots=True)
class Proposal:
    """A better order that was found, and what it changes, the greatest gain first."""

    order: tuple[JobNumber, ...]
    seen: QueueSnapshot
    changes: tuple[CompletionChange, ...]
    days: float
    """Days by which a box is ready sooner on average."""


@dataclass(frozen=True, slots=True, eq=False)
class SequencingProblem:
    """The search for a better order: read from the records in a moment, run without them."""

    settings: ShopSettings
    """With all the shop has learned of itself."""
    queue: tuple[QueuedTape, ...]
    now: datetime
    promised: Mapping[JobNumber, Promised]
    customers: Mapping[JobNumber, str]
    seen: QueueSnapshot

    def answer(self, stop: Callable[[], bool] = dispatching.never) -> Proposal | None:
        """The best order that harms no promise, or None. ``stop`` ends the search early, with None."""
        found = better(self.settings, self.queue, self.now, self.promised, stop=stop)
        if found is None:
            return None
        told = (self._change(found, number) for number in found.order if number in found.sooner)
        changes = sorted(told, key=lambda each: -each.days)
        return Proposal(found.order, self.seen, tuple(changes), found.days)

    def _change(self, found: Better, number: JobNumber) -> CompletionChange:
        was, will = found.chances.get(number, (None, None))
        made = self.promised.get(number)
        return CompletionChange(
            number, self.customers[number], found.sooner[number], made.day if made else None, was, will
        )


def question(unit: Unit) -> SequencingProblem:
    """The search over the queue of this moment."""
    promised: dict[JobNumber, Promised] = {}
    named: dict[JobNumber, str] = {}
    for number, job_promise, name in _waiting(unit):
        named[number] = name
        if job_promise.day is not None:
            promised[number] = Promised(job_promise.day, job_promise.stated)
    return SequencingProblem(
        settings=promises.reckoned(unit),
        queue=deck_queue.waiting(unit),
        now=current_settings.local(unit, unit.now),
        promised=promised,
        customers=named,
        seen=standing(unit),
    )


@step
def put(unit: Unit, order: Sequence[JobNumber], seen: QueueSnapshot) -> tuple[JobNumber, ...]:
    """Puts the boxes in an order that was worked out against ``seen``; the order before stays readable.

    Refused when boxes, promises or the shop have changed since; WrongInput for an order of other boxes.
    """
    now = standing(unit)
    if now != seen:
        raise Refused(say("queue", "changed_meanwhile"))
    if sorted(order) != sorted(number for number, _ in now.boxes):
        raise WrongInput(say("queue", "place_order"), ", ".join(order), say("queue", "every_waiting_order"))
    return _enter(unit, tuple(order), say("queue", "event_rearranged", count=len(order)))


@step
def put_back(unit: Unit) -> tuple[JobNumber, ...]:
    """Takes the last order back: the one before it holds again, at first the one in which boxes came.

    A second time takes that back in turn. Refused when no order was ever set.
    """
    newest = select(BoxOrderRow).order_by(BoxOrderRow.id.desc()).limit(2)
    rows = unit.session.scalars(newest).all()
    if not rows:
        raise Refused(say("queue", "never_rearranged"))
    before = rows[1].numbers if len(rows) > 1 else ()
    return _enter(unit, tuple(map(JobNumber, before)), say("queue", "event_set_back"))


def standing(unit: Unit) -> QueueSnapshot:
    """What an order would be worked out against now."""
    days = {number: promise.day for number, promise, _ in _waiting(unit)}
    boxes = dict.fromkeys(tape.job for tape in deck_queue.waiting(unit))
    return QueueSnapshot(tuple((number, days[number]) for number in boxes), current_settings.read(unit))


def _enter(unit: Unit, order: tuple[JobNumber, ...], words: str) -> tuple[JobNumber, ...]:
    before = deck_queue.box_order(unit)
    unit.session.add(BoxOrderRow(numbers=order, words=words, at=unit.now, by=unit.who))
    history.append(unit, "order-of-boxes", words, before=before, now=order)
    unit.session.flush()
    return order


def _waiting(unit: Unit) -> Iterator[tuple[JobNumber, Promise, str]]:
    """Boxes with a tape that is not ready, each with its promise and whose it is."""
    waits = [station for station in Station if station.is_unfinished]
    here = select(TapeRow.job_id).where(TapeRow.station.in_(waits))
    rows = unit.session.execute(
        select(JobRow.number, JobRow.promise, CustomerRow.name)
        .join(CustomerRow, CustomerRow.id == JobRow.customer_id)
        .where(JobRow.id.in_(here))
        .order_by(JobRow.id)
    )
    return ((JobNumber(number), promise, name) for number, promise, name in rows)
