"""Whether who was told and what customers wished are as the history says."""

from __future__ import annotations

import json
from collections.abc import Iterator

from sqlalchemy import select

from core.store import history
from core.store.calling_tables import HandoverWishRow, ToldRow
from core.store.job_tables import JobRow
from core.store.shop_tables import EventRow
from core.store.unit import Unit
from core.wording.messages import say

Fact = tuple[str, ...]


def differences(unit: Unit) -> Iterator[str]:
    """One sentence for each kind of row that does not match its lines of history."""
    if sorted(_told(unit)) != sorted(_said(unit, "told", ("round", "how", "result", "command"))):
        yield say("records", "audit_told_differ")
    if sorted(_wished(unit)) != sorted(_said(unit, "handover-wish", ("wish", "value_sha256"))):
        yield say("records", "audit_wishes_differ")


def _told(unit: Unit) -> Iterator[Fact]:
    rows = unit.session.execute(select(JobRow.number, ToldRow).join(JobRow, JobRow.id == ToldRow.job_id))
    for number, row in rows:
        yield number, str(row.round), row.how.value, row.result.value, row.command


def _wished(unit: Unit) -> Iterator[Fact]:
    asked = select(JobRow.number, HandoverWishRow).join(JobRow, JobRow.id == HandoverWishRow.job_id)
    for number, row in unit.session.execute(asked):
        yield number, row.kind, history.fingerprint(row.value)


def _said(unit: Unit, kind: str, keys: tuple[str, ...]) -> Iterator[Fact]:
    for row in unit.session.scalars(select(EventRow).where(EventRow.kind == kind)):
        try:
            said = json.loads(row.payload)
        except ValueError:
            continue  # the chain has named this line already
        yield str(row.job), *(str(said.get(key)) for key in keys)
