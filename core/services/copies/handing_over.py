"""Which copies go with a pickup: only those that are made and checked, whole, or said to hold only a part."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

from sqlalchemy import select

from core.model.copies import copy_standing
from core.model.copies.copy_records import CopyRecord
from core.model.errors import Refused
from core.model.job_records import Job
from core.model.names import TapeCode
from core.model.stations import Station
from core.services.copies import copy_steps
from core.store import lookup, row_records
from core.store.copy_tables import CopyRow
from core.store.job_tables import JobRow, PickupRow
from core.store.tape_tables import TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say


def all_that_may_go(unit: Unit, row: JobRow, going: Sequence[TapeRow]) -> list[CopyRow]:
    """The copies that are whole. Of an older order nobody kept record of how far they are: its copies go with
    the first tapes, and whatever is left goes with the last."""
    staying = any(tape.station.is_in_the_shop and tape not in going for tape in row.tapes)
    is_first = not unit.session.scalars(select(PickupRow.id).where(PickupRow.job_id == row.id)).first()
    job = _after(row, going)
    found = []
    for copy in _here(row):
        record = row_records.copy(copy)
        may_go = is_first or not staying if not record.is_followed else copy_standing.is_whole(job, record)
        found += [copy] if may_go and not record.is_download else []
    return found


def chosen(unit: Unit, row: JobRow, item: int, going: Sequence[TapeRow], *, partly: bool) -> CopyRow:
    """One copy of an order that somebody takes. Refused when it is not made, not checked or not whole, handed
    over, or a download; WrongInput when the order has no such copy."""
    copy = copy_steps.in_order(row, item)
    copy_steps.check_here(unit, copy)
    record = row_records.copy(copy)
    if record.is_download:
        raise Refused(say("copies", "is-download", number=row.number, item=str(item)))
    if record.is_followed:
        _check_exists(row, record)
        if not partly:
            _check_whole(_after(row, going), record)
    return copy


def let_go(unit: Unit, row: JobRow, pieces: Sequence[CopyRow]) -> None:
    """Hands copies over. What is not on one of them is made as another, which is not charged again."""
    job = row_records.job(row)
    for copy in pieces:
        record = row_records.copy(copy)
        copy.handed_back_at = unit.now
        if record.is_followed and not copy_standing.is_whole(job, record):
            row.copies.append(
                CopyRow(
                    code=copy.code,
                    words=copy.words,
                    pieces=copy.pieces,
                    delivery=copy.delivery,
                    follows=copy.id,
                )
            )
    unit.session.flush()


def _here(row: JobRow) -> list[CopyRow]:
    return [each for each in lookup.standing_copies(row) if each.handed_back_at is None]


def _after(row: JobRow, going: Collection[TapeRow]) -> Job:
    """The order as it is once these tapes are home: one kept apart goes as not copied."""
    job, codes = row_records.job(row), {each.code for each in going}
    gone = (replace(tape, station=Station.HANDED_BACK) if tape.code in codes else tape for tape in job.tapes)
    return replace(job, tapes=tuple(gone))


def _check_exists(row: JobRow, copy: CopyRecord) -> None:
    blanks = {"copy": copy.words, "number": row.number, "item": str(copy.id)}
    if copy.made is None:
        raise Refused(say("copies", "not-made", **blanks))
    if copy.checked is None:
        raise Refused(say("copies", "not-checked", **blanks))


def _check_whole(job: Job, copy: CopyRecord) -> None:
    missing = (*copy_standing.lacks(job, copy), *copy_standing.still_open(job))
    if missing:
        raise Refused(say("copies", "not-whole", copy=copy.words, tapes=_listed(missing), n=len(missing)))


def _listed(codes: Sequence[TapeCode]) -> str:
    return locale_figures.listed([locale_figures.tape_code(code) for code in codes])
