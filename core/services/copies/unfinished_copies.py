"""The copies the shop still has to make, check or give the link of, order by order."""

from __future__ import annotations

from sqlalchemy import select

from core.model.copies import copy_standing
from core.model.job_records import Job
from core.store import lookup, row_records
from core.store.copy_tables import CopyRow
from core.store.job_tables import JobRow
from core.store.unit import Unit


def orders(unit: Unit) -> tuple[Job, ...]:
    """Every order with such a copy: those of which all tapes are settled first, then as they came in."""
    here = select(CopyRow.job_id).where(
        CopyRow.delivery.is_not(None), CopyRow.handed_back_at.is_(None), CopyRow.left_out_in.is_(None)
    )
    rows = unit.session.scalars(lookup.whole_jobs().where(JobRow.id.in_(here)).order_by(JobRow.id))
    found = [job for job in map(row_records.job, rows) if copy_standing.unfinished(job)]
    return tuple(sorted(found, key=lambda job: not copy_standing.are_being_written(job)))
