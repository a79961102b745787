"""Who is to be told that an order is ready: the call list, what came of each attempt, and reminders.

The program reaches nobody by itself: a person calls or sends, and what came of it is kept line by line.
An order must be told again when work on it was taken up once more and finished. Reminders come after so many
days since the customer was told (the shop's settings); whoever came for a part of the order knows by that.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from sqlalchemy import func, select

from core.model import box_standing, entered_text
from core.model.errors import Refused, WrongInput
from core.model.handover_records import RESULTS, HandoverWishes, Telling, ToldHow, ToldResult
from core.model.job_records import Customer, Job
from core.model.names import JobNumber
from core.model.own_shop.settings_records import ShopSettings
from core.model.price_terms import StorageFee
from core.pricing.storage_charge import storage_charge
from core.services.after_ready import handover_wishes
from core.store import current_settings, history, lookup, row_records
from core.store.steps import step
from core.store.tables import FinishRow, JobRow, PickupRow, TapeRow, ToldRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class ToTell:
    """One order that waits for its owner, all of it ready."""

    job: Job
    how: ToldHow
    """As the customer wishes, else as they can be reached."""
    wishes: HandoverWishes
    round: int | None
    """What is due: 0 to tell them, 1 and up a reminder; None: nothing today."""
    told_on: date | None
    """The day the customer was told first."""
    days_waiting: int
    """Since the customer was told; 0 before."""
    tellings: tuple[Telling, ...]
    """Since it is ready, oldest first."""
    is_unclaimed: bool
    """Whether the last reminder is due or past."""
    storage_minor: int
    """What the price book would charge for keeping it, before any law on unclaimed goods."""
    currency: str

    @property
    def last_try(self) -> Telling | None:
        """The newest attempt."""
        return self.tellings[-1] if self.tellings else None


def to_tell(unit: Unit, *, everybody: bool = False) -> tuple[ToTell, ...]:
    """The orders of whose owners somebody is to be told or reminded now, the longest waiting first.

    Unclaimed ones are on the list whether anything is due or not; ``everybody``: all that wait.
    """
    ready = [row for row in _open_rows(unit) if box_standing.may_be_collected(row_records.job(row))]
    settings = current_settings.read(unit)
    found = [_to_tell(unit, row, settings) for row in ready]
    listed = [each for each in found if everybody or each.round is not None or each.is_unclaimed]
    return tuple(sorted(listed, key=_order))


def one(unit: Unit, number: JobNumber) -> ToTell:
    """How it stands with one order; Refused while not all of it may be collected."""
    return _to_tell(unit, _ready_row(unit, number), current_settings.read(unit))


@step
def tell(
    unit: Unit,
    number: JobNumber,
    how: ToldHow,
    result: ToldResult,
    *,
    note: str = "",
) -> ToTell:
    """Keeps one attempt to tell the customer that all is ready, or to remind them.

    Gives how it stands after it. Refused while not all of the order may be collected; WrongInput for an
    answer that this way cannot have.
    """
    said = entered_text.line(say("telling", "note"), note)
    if result not in RESULTS[how]:
        accepted = ", ".join(each.value for each in RESULTS[how])
        raise WrongInput(say("telling", "result"), result.value, say("telling", "results", names=accepted))
    row, settings = _ready_row(unit, number), current_settings.read(unit)
    due = _to_tell(unit, row, settings)
    told = ToldRow(
        command=unit.command,
        job_id=row.id,
        round=_round(due),
        how=how,
        result=result,
        note=said,
        at=unit.now,
        by=unit.who,
    )
    unit.session.add(told)
    _write(unit, row, told)
    unit.session.flush()
    return _to_tell(unit, row, settings)


def of_job(unit: Unit, number: JobNumber) -> tuple[Telling, ...]:
    """Every attempt to tell the owner of an order, oldest first."""
    return of_row(unit, lookup.job_row(unit, number))


def of_row(unit: Unit, row: JobRow) -> tuple[Telling, ...]:
    """`of_job` for an order at hand."""
    return _tellings(unit, row, None)


# --- how it stands -----------------------------------------------------------------------


def _open_rows(unit: Unit) -> Iterable[JobRow]:
    here = select(TapeRow.job_id).where(TapeRow.station.in_(lookup.IN_THE_SHOP))
    return unit.session.scalars(lookup.whole_jobs().where(JobRow.id.in_(here)).order_by(JobRow.id))


def _ready_row(unit: Unit, number: JobNumber) -> JobRow:
    row = lookup.job_row(unit, number)
    job = row_records.job(row)
    if not job.is_open:
        raise Refused(say("telling", "gone_home", number=row.number))
    if not box_standing.may_be_collected(job):
        raise Refused(say("telling", "not_ready", number=row.number))
    return row


def _to_tell(unit: Unit, row: JobRow, settings: ShopSettings) -> ToTell:
    job = row_records.job(row)
    finished = unit.session.scalar(select(func.max(FinishRow.at)).where(FinishRow.job_id == row.id))
    tellings = _tellings(unit, row, finished)
    reminders = settings.calls.reminders
    told_at = _told_at(unit, row, tellings, finished)
    waiting = 0 if told_at is None else (_day(settings, unit.now) - _day(settings, told_at)).days
    wishes = handover_wishes.of_row(unit, row)
    fee = job.quote.price.storage_fee
    return ToTell(
        job=job,
        how=wishes.how or reachable(job.customer),
        wishes=wishes,
        round=_due(tellings, told_at is not None, waiting, reminders),
        told_on=None if told_at is None else _day(settings, told_at),
        days_waiting=waiting,
        tellings=tellings,
        is_unclaimed=bool(reminders) and waiting >= reminders[-1],
        storage_minor=_storage(fee, waiting),
        currency=job.quote.price.currency,
    )


def reachable(customer: Customer) -> ToldHow:
    """How a customer can be told who has not said how: by phone where there is a number."""
    return ToldHow.EMAIL if customer.email and not customer.phone else ToldHow.PHONE


def _due(tellings: Sequence[Telling], is_told: bool, waiting: int, reminders: Sequence[int]) -> int | None:
    if not is_told:
        return 0
    reached = sum(waiting >= days for days in reminders)
    said = max((each.round for each in tellings if each.result.is_told), default=0)
    return reached if reached > said else None


def _round(due: ToTell) -> int:
    """The round an attempt belongs to: what is due, else what was said last, once more."""
    if due.round is not None:
        return due.round
    return max((each.round for each in due.tellings), default=0)


def _told_at(
    unit: Unit, row: JobRow, tellings: Sequence[Telling], finished: datetime | None
) -> datetime | None:
    """When the customer first knew: told by somebody, or here for a part of it."""
    moments = [each.at for each in tellings if each.result.is_told]
    was_here = select(PickupRow.at).where(PickupRow.job_id == row.id)
    moments += [at for at in unit.session.scalars(was_here) if finished is not None and at >= finished]
    return min(moments, default=None)


def _tellings(unit: Unit, row: JobRow, since: datetime | None) -> tuple[Telling, ...]:
    rows = unit.session.scalars(select(ToldRow).where(ToldRow.job_id == row.id).order_by(ToldRow.id))
    found = (Telling(each.round, each.how, each.result, each.note, each.at, each.by) for each in rows)
    return tuple(each for each in found if since is None or each.at >= since)


def _storage(fee: StorageFee | None, waiting: int) -> int:
    return 0 if fee is None else storage_charge(fee, waiting)


def _day(settings: ShopSettings, moment: datetime) -> date:
    return moment.astimezone(ZoneInfo(settings.front.timezone)).date()


def _order(each: ToTell) -> tuple[bool, int, str]:
    """Who was never told first, then who waits longest."""
    return each.told_on is not None, -each.days_waiting, each.job.number


def _write(unit: Unit, row: JobRow, told: ToldRow) -> None:
    words = say(
        "telling",
        "event",
        round=told.round,
        way=say("telling", "way", how=told.how.value),
        came=say("telling", "came-of-it", result=told.result.value),
        note=told.note,
        given=len(told.note),
    )
    history.append(
        unit,
        "told",
        words,
        job=row.number,
        round=told.round,
        how=told.how,
        result=told.result,
        command=told.command,
    )


def told_words(unit: Unit, each: Telling) -> str:
    """``No answer by phone on Tuesday, March 3 (Kim).``"""
    day = locale_figures.day(current_settings.local(unit, each.at).date())
    how, result = each.how.value, each.result.value
    return say("telling", "line", how=how, result=result, day=day, by=each.by, note=each.note).strip()
