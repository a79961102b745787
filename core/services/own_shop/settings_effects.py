"""What a change of the settings would do, told beforehand: promises that would move, boxes being quoted.

The question is read from the records in a moment; its answer plans the queue as it is and as it would be with
the same draws (common random numbers), so that what moves, moves because of the change. For the background:
it costs two plans.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from sqlalchemy import func, select

from core.model.names import JobNumber
from core.model.own_shop.settings_records import BackupPlan, Person, ShopFront, ShopSettings
from core.promise import turnaround
from core.scheduling.queued_tapes import QueuedTape
from core.services import deck_queue, promises
from core.store import current_settings, lookup
from core.store.tables import CustomerRow, DraftRow, JobRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

MOST_TOLD = 5
"""So many promises are named one by one."""


@dataclass(frozen=True, slots=True)
class MovedPromise:
    """An open promise for which another day would be found; None: no day at all."""

    number: JobNumber
    customer: str
    promised: date
    was: date | None
    """The day the shop as it is would be ready."""
    now: date | None
    """The day the changed shop would be ready."""
    stranded: int = 0
    """Tapes of the order that can be copied now and could not be: no deck plays them, or nobody here can do
    what they need."""
    lack: str = "deck"
    """What it is that these lack: a ``deck``, or ``people``."""

    @property
    def is_late(self) -> bool:
        """Whether the change would put it, or a tape of it, past the day that was promised."""
        if self.stranded:
            return True
        return self.now is None or (self.now > self.promised and (self.was is None or self.now > self.was))

    @property
    def words(self) -> str:
        """``Order 000018 (Ada Fenwick): ready Thursday, March 12 instead of …``, and whether that is late."""
        key = "effects-stranded" if self.stranded else "effects-late" if self.is_late else "effects-moved"
        return say(
            "settings",
            key,
            number=str(self.number),
            customer=self.customer,
            was=_day(self.was),
            now=_day(self.now),
            promised=_day(self.promised),
            n=self.stranded,
            lack=self.lack,
        )


@dataclass(frozen=True, slots=True)
class Effects:
    """What a change would touch of what is under way."""

    moved: tuple[MovedPromise, ...]
    """Those that would come later first, by the day they were promised for."""
    drafts: int
    """Boxes being quoted at the counters, not booked yet."""

    @property
    def lines(self) -> tuple[str, ...]:
        """Whole sentences: what was promised stays, what would move, what is being quoted."""
        return tuple(self._lines())

    def _lines(self) -> Iterator[str]:
        late = sum(each.is_late for each in self.moved)
        if self.moved:
            yield say("settings", "effects-some-move", n=len(self.moved), late=late)
        else:
            yield say("settings", "effects-none-move")
        for each in self.moved[:MOST_TOLD]:
            yield each.words
        if len(self.moved) > MOST_TOLD:
            yield say("settings", "effects-more", n=len(self.moved) - MOST_TOLD)
        if self.drafts:
            yield say("settings", "effects-drafts", n=self.drafts)


@dataclass(frozen=True, slots=True, eq=False)
class AboutChange:
    """What would a change of the settings do? Answered without the records."""

    as_it_is: ShopSettings
    as_it_would_be: ShopSettings
    queue: tuple[QueuedTape, ...]
    now: datetime
    promised: Mapping[JobNumber, tuple[str, date]]
    """The customer and the day of each open order that was given one."""
    drafts: int

    def answer(self) -> Effects:
        """Plans both shops, unless no date can tell them apart."""
        if not self.promised or _planned_by(self.as_it_is) == _planned_by(self.as_it_would_be):
            return Effects((), self.drafts)
        plain = turnaround.load(self.as_it_is, self.queue, self.now)
        other = turnaround.load(self.as_it_would_be, self.queue, self.now)
        lost = [
            tape
            for tape in self.queue
            if turnaround.is_planned(plain, tape) and not turnaround.is_planned(other, tape)
        ]
        stranded = Counter(tape.job for tape in lost)
        without = {tape.job for tape in lost if not turnaround.decks_for(other, tape)}
        found = [
            MovedPromise(
                number,
                customer,
                day,
                _ready(plain, number),
                _ready(other, number),
                stranded[number],
                "deck" if number in without else "people",
            )
            for number, (customer, day) in self.promised.items()
        ]
        moved = [each for each in found if each.was != each.now or each.stranded]
        return Effects(tuple(sorted(moved, key=lambda one: (not one.is_late, one.promised))), self.drafts)


def about(unit: Unit, changed: ShopSettings) -> AboutChange:
    """The question of what ``changed`` would do in place of the settings in force."""
    return AboutChange(
        as_it_is=promises.reckoned(unit),
        as_it_would_be=promises.reckoned(unit, fitted=changed),
        queue=deck_queue.waiting(unit),
        now=current_settings.local(unit, unit.now),
        promised=_promised(unit),
        drafts=unit.session.scalar(select(func.count()).select_from(DraftRow)) or 0,
    )


def of(unit: Unit, changed: ShopSettings) -> Effects:
    """What ``changed`` would do, with the records held as long as it takes."""
    return about(unit, changed).answer()


def _planned_by(settings: ShopSettings) -> ShopSettings:
    """The settings with everything taken out that no plan looks at."""
    clock = ShopFront("", (), "", "", settings.front.timezone)
    return replace(
        settings,
        front=clock,
        staff=_planned_people(settings),
        lock_minutes=0,
        confirmed=frozenset(),
        backup=BackupPlan(),
        partners=(),
    )


def _planned_people(settings: ShopSettings) -> tuple[Person, ...]:
    """The people as far as plans tell them apart."""
    if not any(person.is_particular for person in settings.working_staff):
        return ()
    return tuple(replace(each, name="", may=frozenset(), pin="") for each in settings.working_staff)


def _ready(load: turnaround.Load, number: JobNumber) -> date | None:
    standing = turnaround.standing(load, number)
    return None if standing is None else standing.day


def _promised(unit: Unit) -> dict[JobNumber, tuple[str, date]]:
    here = select(TapeRow.job_id).where(TapeRow.station.in_(lookup.IN_THE_SHOP))
    rows = unit.session.execute(
        select(JobRow, CustomerRow.name)
        .join(CustomerRow, CustomerRow.id == JobRow.customer_id)
        .where(JobRow.id.in_(here))
        .order_by(JobRow.id)
    )
    return {JobNumber(row.number): (customer, row.promise.day) for row, customer in rows if row.promise.day}


def _day(day: date | None) -> str:
    return say("settings", "effects-no-day") if day is None else locale_figures.day(day)
