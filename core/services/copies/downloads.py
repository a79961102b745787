"""Downloads: the link that was given and until when, and that the files were deleted afterwards."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from sqlalchemy import select

from core.model import entered_text
from core.model.copies import copy_standing
from core.model.copies.copy_records import DOWNLOAD, CopyRecord, CopyStepKind, DownloadLink
from core.model.errors import Refused, WrongInput
from core.model.job_records import Job
from core.model.names import JobNumber
from core.services import payments, promise_entries
from core.services.accounts import settling
from core.services.copies import copy_steps
from core.services.copies.copy_steps import NewStep
from core.store import current_settings, lookup, row_records
from core.store.copy_tables import CopyRow
from core.store.job_tables import JobRow
from core.store.steps import step
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


@dataclass(frozen=True, slots=True)
class Download:
    """A download that was given to a customer and is still there."""

    job: Job
    copy: CopyRecord
    link: DownloadLink
    is_due: bool
    """Whether its last day is over: the files are to be deleted."""


@step
def give(
    unit: Unit,
    number: JobNumber,
    item: int | None,
    link: str,
    until: date,
) -> Job:
    """Keeps the link that the customer was given; with that the copy is handed over.

    ``item`` None: the one download of the order. A further link takes the place of the one before. Refused
    before the files are made and checked, while a copied tape is missing, and once they were deleted;
    WrongInput for no link, or a day that is over.
    """
    row, copy = _of_order(unit, number, item)
    said = entered_text.line(say("copies", "link"), link)
    if not said or " " in said:
        raise WrongInput(say("copies", "link"), link, say("copies", "link-accepted"))
    today = current_settings.local(unit, unit.now).date()
    if until < today:
        raise WrongInput(say("copies", "until"), until.isoformat(), say("copies", "until-accepted"))
    _check(row, copy)
    words = say("copies", "event-link", day=locale_figures.day(until))
    new = NewStep(CopyStepKind.LINK, words, download=DownloadLink(said, until))
    copy_steps.enter(unit, row, copy, new)
    copy.handed_back_at = copy.handed_back_at or unit.now
    unit.session.flush()
    promise_entries.note_whole(unit, row)
    settling.settle(unit, row, payments.price(unit, row), None)
    return row_records.job(row)


@step
def delete(unit: Unit, number: JobNumber, item: int | None) -> Job:
    """Keeps that the files of a download were deleted. Refused where no link was given, or it was done."""
    row, copy = _of_order(unit, number, item)
    record = row_records.copy(copy)
    if record.download is None:
        raise Refused(say("copies", "no-link", number=row.number))
    if record.deleted is not None:
        day = locale_figures.day(current_settings.local(unit, record.deleted.at).date())
        raise Refused(say("copies", "deleted-already", number=row.number, day=day))
    words = say("copies", "event-deleted")
    copy_steps.enter(unit, row, copy, NewStep(CopyStepKind.DELETED, words))
    return row_records.job(row)


def standing(unit: Unit, *, due: bool = False) -> tuple[Download, ...]:
    """The downloads that were not deleted, the earliest last day first; ``due``: only those past it."""
    with_one = select(CopyRow.job_id).where(CopyRow.code == DOWNLOAD, CopyRow.handed_back_at.is_not(None))
    rows = unit.session.scalars(lookup.whole_jobs().where(JobRow.id.in_(with_one)).order_by(JobRow.id))
    today = current_settings.local(unit, unit.now).date()
    found = [
        Download(job, copy, copy.download, copy.download.until < today)
        for job in map(row_records.job, rows)
        for copy in job.copies
        if copy.download is not None and copy.deleted is None
    ]
    return tuple(sorted((each for each in found if each.is_due or not due), key=_by_day))


def _by_day(each: Download) -> tuple[date, str]:
    return each.link.until, each.job.number


def _of_order(unit: Unit, number: JobNumber, item: int | None) -> tuple[JobRow, CopyRow]:
    row = lookup.job_row(unit, number)
    there = [each for each in lookup.standing_copies(row) if each.code == DOWNLOAD]
    if item is not None:
        copy = copy_steps.in_order(row, item)
    elif len(there) == 1:
        copy = there[0]
    else:
        raise Refused(say("copies", "which-download", number=row.number, n=len(there)))
    if copy.code != DOWNLOAD:
        raise Refused(say("copies", "not-download", copy=copy.words))
    return row, copy


def _check(row: JobRow, copy: CopyRow) -> None:
    job, record = copy_steps.record(row, copy)
    if record.deleted is not None:
        raise Refused(say("copies", "over", copy=copy.words))
    if record.checked is None or not copy_standing.is_whole(job, record):
        key = "not-made" if record.made is None else "not-checked" if record.checked is None else "link-early"
        raise Refused(say("copies", key, copy=copy.words, number=row.number, item=str(copy.id)))
