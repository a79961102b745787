"""What was promised for each job, line by line, and when everything of it was ready."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select

from core.model.copies import copy_standing
from core.model.job_records import Job
from core.model.names import JobNumber
from core.model.promise_records import Promise
from core.model.stations import Station
from core.store import history, lookup, row_records
from core.store.tables import FinishRow, JobRow, PromiseRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class Said:
    """One promise of a job as it was said, with the reason when it was not the first."""

    promise: Promise
    reason: str
    agreed_with: str | None
    at: datetime
    by: str


def said(unit: Unit, number: JobNumber) -> tuple[Said, ...]:
    """All that was promised for a job, oldest first; the last one holds."""
    rows = unit.session.scalars(
        select(PromiseRow).where(PromiseRow.job_id == lookup.job_row(unit, number).id).order_by(PromiseRow.id)
    )
    return tuple(Said(row.promise, row.reason, row.agreed_with, row.at, row.by) for row in rows)


def enter(
    unit: Unit, row: JobRow, promise: Promise, reason: str = "", agreed_with: str | None = None
) -> None:
    """Keeps one promise of a job."""
    unit.session.add(
        PromiseRow(
            job_id=row.id, promise=promise, reason=reason, agreed_with=agreed_with, at=unit.now, by=unit.who
        )
    )


def note_finish(unit: Unit, row: TapeRow, before: Station) -> None:
    """Keeps the moment a box became ready: the tape was at ``before``, and nothing is on its way any more."""
    if not before.is_done:
        note_whole(unit, row.job)


def note_whole(unit: Unit, row: JobRow) -> None:
    """Keeps this moment as the one at which an order became ready, if nothing of it is on its way any more.

    Its copies must be made and checked as well.
    """
    if any(not each.station.is_done for each in row.tapes):
        return
    if copy_standing.are_being_written(row_records.job(row)):
        return
    unit.session.add(FinishRow(job_id=row.id, at=unit.now, by=unit.who))
    history.append(unit, "box-ready", say("promises", "event_ready"), job=row.number)


def is_done(job: Job) -> bool:
    """Whether the shop has done for every tape what it can."""
    return all(tape.station.is_done for tape in job.tapes)
