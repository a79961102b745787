"""The files that were recorded from the tapes of an order, as they go onto its copies."""

from __future__ import annotations

from sqlalchemy import select

from core.model.copies.copy_records import CopiedFile
from core.model.names import TapeCode
from core.store.job_tables import JobRow
from core.store.tape_tables import RecordingRow, TapeRow
from core.store.unit import Unit


def of_order(unit: Unit, row: JobRow) -> tuple[CopiedFile, ...]:
    """Those that stand, tape by tape, the oldest first."""
    asked = (
        select(RecordingRow, TapeRow.code)
        .join(TapeRow, TapeRow.id == RecordingRow.tape_id)
        .where(TapeRow.job_id == row.id, RecordingRow.struck_at.is_(None))
        .order_by(TapeRow.place, RecordingRow.id)
    )
    found = unit.session.execute(asked)
    return tuple(
        CopiedFile(each.report.name, each.report.size_bytes, each.sha256, TapeCode(code))
        for each, code in found
    )
