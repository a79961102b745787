"""Whether what was done to the copies is as the history says: made, checked, linked, deleted, struck out."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from sqlalchemy import select

from core.model import serialization
from core.store import history
from core.store.copy_tables import CopyRow, CopyStepRow
from core.store.job_tables import JobRow
from core.store.unit import Unit
from core.wording.messages import say

KIND = "copy-step"
"""The kind of their lines of history."""


def fingerprint(row: CopyStepRow) -> str:
    """SHA-256 of all that one step says, and of which copy."""
    said = [row.copy_id, row.kind, row.contents, row.drive, row.download, row.reason, row.at, row.by]
    return history.fingerprint(serialization.dumps(said))


def differences(unit: Unit, erased: Collection[str] = ()) -> Iterator[str]:
    """One sentence for each step that is not as its line of history says, or that only one of them knows.

    Not of ``erased`` orders: their lines say nothing any more.
    """
    asked = select(CopyStepRow, JobRow.number).join(CopyRow, CopyRow.id == CopyStepRow.copy_id)
    rows = unit.session.execute(asked.join(JobRow, JobRow.id == CopyRow.job_id).order_by(CopyStepRow.id))
    found = {row.id: fingerprint(row) for row, number in rows if number not in erased}
    told = history.told_digests(unit, (KIND,), "copy_step", "step_sha256")
    for number in sorted(found.keys() | told.keys()):
        if found.get(number) != told.get(number):
            yield say("records", "audit_copy_step_differs", number=number)
