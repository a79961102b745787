"""Whether the sign-offs of copied files are as the history says, letter for letter."""

from __future__ import annotations

import hashlib
from collections.abc import Collection, Iterator

from sqlalchemy import select

from core.model import serialization
from core.store import history
from core.store.tape_tables import SignOffRow, TapeRow
from core.store.unit import Unit
from core.wording.messages import say

KINDS = ("signed-off", "sign-off-withdrawn")


def differences(unit: Unit, erased: Collection[str] = ()) -> Iterator[str]:
    """One sentence for each sign-off that does not match its line of history; not of ``erased`` orders."""
    asked = select(SignOffRow, TapeRow.code).join(TapeRow, TapeRow.id == SignOffRow.tape_id)
    rows = unit.session.execute(asked.order_by(SignOffRow.id))
    found = {row.id: fingerprint(row) for row, code in rows if code[:6] not in erased}
    told = history.told_digests(unit, KINDS, "sign_off", "line_sha256")
    for number in sorted(found.keys() | told.keys()):
        if found.get(number) != told.get(number):
            yield say("records", "audit_sign_off_differs", number=number)


def fingerprint(row: SignOffRow) -> str:
    """SHA-256 of all that a sign-off says; its line of history holds it."""
    said = [row.tape_id, row.name, row.files, row.accepted, row.because]
    return hashlib.sha256(serialization.dumps(said).encode()).hexdigest()
