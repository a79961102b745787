"""Whether who was told and what customers wished are as the history says."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from sqlalchemy import select

from core.store import history
from core.store.calling_tables import HandoverWishRow, ToldRow
from core.store.job_tables import JobRow
from core.store.shop_tables import EventRow
from core.store.unit import Unit
from core.wording.messages import say

Fact = tuple[str, ...]


def differences(unit: Unit, erased: Collection[str]) -> Iterator[str]:
    """One sentence for each kind of row that does not match its history; ``erased`` orders are left out."""
    if _left(_told(unit), erased) != _said(unit, "told", ("round", "how", "result", "command")):
        yield say("records", "audit_told_differ")
    if _left(_wished(unit), erased) != _said(unit, "handover-wish", ("wish", "value_sha256")):
        yield say("records", "audit_wishes_differ")


def _left(facts: Iterator[Fact], erased: Collection[str]) -> list[Fact]:
    return sorted(fact for fact in facts if fact[0] not in erased)


def _told(unit: Unit) -> Iterator[Fact]:
    rows = unit.session.execute(select(JobRow.number, ToldRow).join(JobRow, JobRow.id == ToldRow.job_id))
    for number, row in rows:
        yield number, str(row.round), row.how.value, row.result.value, row.command


def _wished(unit: Unit) -> Iterator[Fact]:
    asked = select(JobRow.number, HandoverWishRow).join(JobRow, JobRow.id == HandoverWishRow.job_id)
    for number, row in unit.session.execute(asked):
        yield number, row.kind, history.fingerprint(row.value)


def _said(unit: Unit, kind: str, keys: tuple[str, ...]) -> list[Fact]:
    asked = select(EventRow).where(EventRow.kind == kind, EventRow.salt.is_not(None))
    said = [(row.job, history.payload_of(row.payload)) for row in unit.session.scalars(asked)]
    return sorted((str(job), *(str(payload.get(key)) for key in keys)) for job, payload in said)
