"""The dates that were said to customers: kept under review, said again with a reason, judged when over.

Whom to call first (the rule): a promise wants a call when its chance fell by more than the noise of the model
below what was stated. Among those the customer comes first who would come to the counter first, that is the
earliest promised day; on the same day, the promise with the least chance. All others follow by their chance.

When a promise is judged (the rule): once its day is over, and not earlier; early finishers would else
flatter the record. Every promise is judged, the first one and each that was said again, by the moment the
whole box was ready. What is not ready then is a miss, unless the box waits for the customer's own answer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from sqlalchemy import func, select

from core.model import box_standing, entered_text
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import JobNumber
from core.model.own_shop.settings_records import Permission, ShopSettings
from core.model.promise_records import Promise
from core.model.stations import Station
from core.promise import lateness, promise_basis, recalibration_fit, turnaround
from core.promise.reliability import Judged, Reliability, reliability
from core.scheduling import opening_hours
from core.scheduling.opening_calendar import Calendar
from core.services import deck_queue, event_counts, promise_entries
from core.services.shop_work import learned_work
from core.services.weekly import shop_weeks
from core.store import current_settings, lookup, permissions, row_records
from core.store import history as chain
from core.store.steps import step
from core.store.tables import CustomerRow, FinishRow, JobRow, PromiseRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

NOISE = 0.05
"""A chance that fell by less than one time in twenty is not worth a call (an assumption)."""
NEWEST = 400
"""So many of the newest promises make the record."""
_ON_ITS_WAY = tuple(station for station in Station if not station.is_done)


@dataclass(frozen=True, slots=True)
class Kept:
    """One promise under review.

    ``chance`` is what the model gives it now; None when no date was promised or the box only waits for its
    owner.
    """

    job: Job
    promise: Promise
    """The one that holds."""
    now: Promise | None
    """What would be said today; None when nothing of the job waits for a deck or the bench."""
    chance: float | None
    held_by: tuple[str, ...]
    is_at_risk: bool
    """Less likely now than it was stated, by more than the noise of the model: call the customer first."""
    changes: tuple[str, ...] = ()
    """What is less good in the shop than when it was said."""

    @property
    def is_done(self) -> bool:
        """Whether the box only waits for its owner: it is no promise any more, there is no chance to tell."""
        return box_standing.waits_for_owner(self.job)


def load(unit: Unit, found: Reliability | None = None) -> turnaround.Load:
    """The shop at this moment with its queue worked through, reckoning with what it has counted.

    ``found`` is the record of its promises where the caller has read it already.
    """
    now = current_settings.local(unit, unit.now)
    settings = reckoned(unit, found)
    backlog = shop_weeks.backlog(unit, settings)
    return turnaround.load(settings, deck_queue.waiting(unit), now, backlog=backlog)


def reckoned(
    unit: Unit, found: Reliability | None = None, fitted: ShopSettings | None = None
) -> ShopSettings:
    """The shop's settings with all it has learned of itself; ``found`` as in `load`.

    ``fitted``: other settings than those in force, to look at what they would do.

    This is what a date is made from.
    """
    learned = recalibration_fit.learned((found or record(unit)).judged, _past_calendar(unit))
    fitted = learned_work.reckoned(unit, event_counts.reckoned(unit, fitted))
    return replace(fitted, expected=replace(fitted.expected, recalibration=learned))


def _past_calendar(unit: Unit) -> Calendar:
    """The openings of this year and the one before by the hours in force: what is older teaches nothing."""
    settings = current_settings.read(unit)
    today = opening_hours.today(settings, unit.now)
    first = date(today.year - 1, 1, 1)
    return opening_hours.calendar(settings, first, (date(today.year + 1, 1, 1) - first).days)


def under_review(unit: Unit, looked: turnaround.Load | None = None) -> tuple[Kept, ...]:
    """Every open job with its promise and the chance of keeping it now, first to call first.

    ``looked`` is the shop at this moment where the caller has worked its queue through already.
    """
    here = select(TapeRow.job_id).where(TapeRow.station.in_(lookup.IN_THE_SHOP))
    rows = unit.session.scalars(lookup.whole_jobs().where(JobRow.id.in_(here)).order_by(JobRow.id))
    looked = looked or load(unit)
    return tuple(sorted((_kept(looked, row_records.job(row)) for row in rows), key=_urgency))


def chance_now(looked: turnaround.Load, job: Job) -> float | None:
    """The chance of keeping the promised day as it looks now; None where there is none to tell.

    A box of which nothing waits for a deck or the bench any more is through soon: certain, until its day is
    over.
    """
    day = job.promise.day
    if day is None or box_standing.waits_for_owner(job):
        return None
    if turnaround.standing(looked, job.number) is not None:
        return turnaround.chance_of(looked, job.number, day)
    return 1.0 if looked.made_at.date() <= day else 0.0


@step
def renew(
    unit: Unit,
    number: JobNumber,
    reason: str,
    *,
    agreed_with: str | None = None,
    day: date | None = None,
) -> Job:
    """Says a new day for a job, by the reason; what was said before stays readable.

    ``agreed_with`` is who heard it and said yes; ``day`` another one than the model's, when the customer
    would rather have that. Refused when nothing of the job is on its way or no date can be given, and an
    earlier day than the model's for whoever may not override it; WrongInput without a reason, or for a day
    that is gone or not open.
    """
    row = lookup.job_row(unit, number)
    why = entered_text.line(say("promises", "reason"), reason)
    if not why:
        raise WrongInput(say("promises", "reason"), reason, say("promises", "why_new_day"))
    made = _new_promise(unit, row, day)
    heard = entered_text.line(say("promises", "agreed_with"), agreed_with or "") or None
    promise_entries.enter(unit, row, made, why, heard)
    assert made.day is not None
    day_words = locale_figures.day(made.day)
    words = say(
        "promises", "event_new_day", day=day_words, reason=why, told=heard or "", given=len(heard or "")
    )
    chain.append(
        unit, "promised-again", words, job=row.number, promise=made, before=row.promise.day, agreed_with=heard
    )
    row.promise = made
    unit.session.flush()
    return row_records.job(row)


def as_it_looks(unit: Unit, row: JobRow) -> Promise:
    """The date of an order at hand as its queue looks now; the one promised where nothing is left to be
    done."""
    unit.session.flush()
    looked = load(unit)
    made = turnaround.standing(looked, JobNumber(row.number))
    if made is None:
        return row.promise
    return replace(made, basis=promise_basis.of(looked.settings, looked.tapes_waiting))


def record(unit: Unit) -> Reliability:
    """How the promises of this shop turned out, the newest `NEWEST` of them."""
    return reliability(judged(unit))


def kept(unit: Unit) -> Reliability:
    """`record`, for somebody to look at; NotPermitted for whoever may not see reports."""
    permissions.check(unit, Permission.REPORTS)
    return record(unit)


def of_plans(unit: Unit, found: Reliability) -> tuple[float, ...]:
    """As the tenths of a record, of the curves that the plans alone would have stated."""
    return lateness.tenths_of_plans(found.judged, _past_calendar(unit))


def judged(unit: Unit) -> tuple[Judged, ...]:
    """Promises whose day is over, oldest first, each with what became of its box."""
    zone = ZoneInfo(current_settings.read(unit).front.timezone)
    today, finished = unit.now.astimezone(zone).date(), _finishes(unit)
    open_now, asking = _open_jobs(unit)
    outages = event_counts.outages(unit)
    found = []
    for row, number, customer in _newest(unit):
        day = row.promise.day
        if day is None or day >= today or row.job_id in asking:
            continue
        ready = None if row.job_id in open_now else finished.get(row.job_id)
        if ready is None and row.job_id not in open_now:
            continue  # taken home without ever being ready: nobody waited for the date
        found.append(
            Judged(
                number=number,
                customer=customer,
                promise=row.promise,
                due_at=datetime.combine(day + timedelta(days=1), time(), zone),
                ready_at=ready,
                ready_on=ready.astimezone(zone).date() if ready else None,
                today=today,
                reasons=(
                    *_reasons_after(row, unit),
                    *event_counts.between(outages, row.promise.made_at, ready or unit.now, zone),
                ),
            )
        )
    return tuple(found)


# --- review ------------------------------------------------------------------------------


def _kept(looked: turnaround.Load, job: Job) -> Kept:
    if box_standing.waits_for_owner(job):
        return Kept(job, job.promise, None, None, (), False)
    now = turnaround.standing(looked, job.number)
    held_by = now.held_by if now is not None else ()
    changes = promise_basis.changes(
        job.promise.basis, promise_basis.of(looked.settings, looked.tapes_waiting)
    )
    chance = chance_now(looked, job)
    at_risk = chance is not None and chance < job.promise.stated - NOISE
    return Kept(job, job.promise, now, chance, held_by, at_risk, changes)


def _urgency(kept: Kept) -> tuple[bool, date, float, str]:
    day = kept.promise.day if kept.is_at_risk and kept.promise.day else date.max
    return (not kept.is_at_risk, day, 2.0 if kept.chance is None else kept.chance, kept.job.number)


# --- saying it again ---------------------------------------------------------------------


def _new_promise(unit: Unit, row: JobRow, wanted: date | None) -> Promise:
    looked = load(unit)
    number = JobNumber(row.number)
    made = turnaround.standing(looked, number)
    if made is None:
        raise Refused(say("promises", "nothing_to_promise", number=str(number)))
    if made.day is None:
        raise Refused(say("promises", "no_date", number=str(number), reasons="; ".join(made.held_by)))
    if wanted is not None:
        if wanted < made.day:
            permissions.check(unit, Permission.OVERRIDE)
        made = replace(
            made, day=_checked(wanted, looked), stated=turnaround.chance_of(looked, number, wanted)
        )
    return replace(made, basis=promise_basis.of(looked.settings, looked.tapes_waiting))


def _checked(wanted: date, looked: turnaround.Load) -> date:
    days = looked.calendar.days
    if wanted not in days or wanted < looked.made_at.date():
        raise WrongInput(say("promises", "day"), wanted.isoformat(), say("promises", "open_day"))
    return wanted


# --- what became of them -----------------------------------------------------------------


def _newest(unit: Unit) -> list[tuple[PromiseRow, str, str]]:
    rows = unit.session.execute(
        select(PromiseRow, JobRow.number, CustomerRow.name)
        .join(JobRow, JobRow.id == PromiseRow.job_id)
        .join(CustomerRow, CustomerRow.id == JobRow.customer_id)
        .order_by(PromiseRow.id.desc())
        .limit(NEWEST)
    )
    return [(row, number, name) for row, number, name in rows][::-1]


def _finishes(unit: Unit) -> dict[int, datetime]:
    """The last time each job was ready."""
    rows = unit.session.execute(select(FinishRow.job_id, func.max(FinishRow.at)).group_by(FinishRow.job_id))
    return {row[0]: row[1] for row in rows}


def _open_jobs(unit: Unit) -> tuple[frozenset[int], frozenset[int]]:
    """Jobs with a tape still on its way, and those of them that wait for their owner's answer."""
    rows = unit.session.execute(
        select(TapeRow.job_id, TapeRow.station).where(TapeRow.station.in_(_ON_ITS_WAY)).distinct()
    ).all()
    asking = frozenset(job for job, station in rows if station is Station.ASKING_THE_CUSTOMER)
    return frozenset(job for job, _ in rows), asking


def _reasons_after(row: PromiseRow, unit: Unit) -> Sequence[str]:
    """Why the job was promised again after this one."""
    return tuple(
        unit.session.scalars(
            select(PromiseRow.reason)
            .where(PromiseRow.job_id == row.job_id, PromiseRow.id > row.id, PromiseRow.reason != "")
            .order_by(PromiseRow.id)
        )
    )
