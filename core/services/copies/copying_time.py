"""The time that the copies of the orders in the shop still take."""

from __future__ import annotations

from collections import defaultdict

from sqlalchemy import exists, select

from core.model.names import JobNumber
from core.pricing import copy_minutes
from core.store import current_settings
from core.store.copy_tables import CopyRow, CopyStepRow
from core.store.job_tables import JobRow
from core.store.unit import Unit


def minutes(unit: Unit) -> dict[JobNumber, float]:
    """By order: the minutes for its copies that nothing was done to yet."""
    times = current_settings.read(unit).copying
    asked = select(JobRow.number, CopyRow.code, CopyRow.pieces).join(JobRow, JobRow.id == CopyRow.job_id)
    waiting = asked.where(
        CopyRow.delivery.is_not(None),
        CopyRow.handed_back_at.is_(None),
        CopyRow.left_out_in.is_(None),
        ~exists().where(CopyStepRow.copy_id == CopyRow.id),
    )
    found: dict[JobNumber, float] = defaultdict(float)
    for number, code, pieces in unit.session.execute(waiting):
        found[JobNumber(number)] += copy_minutes.of_pieces(times, code, pieces or 1)
    return found
