"""Whether every row of every table is as the history last told it, and whether the counters fit."""

from __future__ import annotations

import json
from collections.abc import Iterator

from sqlalchemy import select

from core.model import numbers
from core.store import history, row_digests
from core.store.job_tables import JobRow
from core.store.shop_tables import CounterRow, EventRow
from core.store.unit import Unit
from core.wording import record_heads
from core.wording.messages import say


def differences(unit: Unit) -> Iterator[str]:
    """One sentence for each row that differs, is missing, or was never told of; then the counters."""
    told, connection = _told(unit), unit.session.connection()
    salts = row_digests.Salts(connection, all_at_once=True)
    for name in row_digests.tables(connection):
        said = told.get(name, {})
        for key, found in row_digests.standing(connection, name, salts):
            if (expected := said.pop(key, None)) is None:
                yield say("records", "audit_row_unknown", table=name, key=key)
            elif expected != found:
                yield say("records", "audit_row_altered", table=name, key=key)
    for name, left in sorted(told.items()):
        for key in sorted(left):
            yield say("records", "audit_row_missing", table=name, key=key)
    yield from _numbers(unit)


def not_held(unit: Unit, head: str | None) -> tuple[str, ...]:
    """A sentence when the history has no line whose digest begins with ``head``."""
    if head is None or history.holds(unit, head) is not None:
        return ()
    return (say("records", "audit_head_not_held", head=record_heads.short_head(head)),)


def outside() -> dict[str, str]:
    """Why the rows of some tables have no digest, and what is looked at instead."""
    named = {name: say("records", f"audit_outside_{name}") for name in row_digests.OUTSIDE}
    return named | {name: say("records", f"audit_outside_{name}") for name in ("alembic_version", "search")}


def _told(unit: Unit) -> dict[str, dict[str, str]]:
    """By table and key: the digest the history told last, of the rows that are still there."""
    told: dict[str, dict[str, str]] = {}
    lines = select(EventRow.payload).where(EventRow.kind == row_digests.KIND).order_by(EventRow.seq)
    for payload in unit.session.scalars(lines):
        for name, rows in _rows(payload).items():
            known = told.setdefault(name, {})
            for key, digest in rows.items():
                if digest is None:
                    known.pop(key, None)
                else:
                    known[key] = digest
    return told


def _rows(payload: str) -> row_digests.Digests:
    try:
        rows: row_digests.Digests = json.loads(payload)["rows"]
    except (ValueError, LookupError, TypeError):
        return {}  # the chain has named this line already
    return rows


def _numbers(unit: Unit) -> Iterator[str]:
    """Job numbers have no gaps: a missing one is a lost box, save what a restore left out."""
    last = unit.session.scalars(select(CounterRow.last).where(CounterRow.name == "job")).one_or_none()
    there = set(unit.session.scalars(select(JobRow.id)))
    if last is None or last < max(there, default=0):
        yield say("records", "audit_counter_behind", last=last or 0, newest=max(there, default=0))
    elif last > numbers.LAST_SEQUENCE:
        yield say("records", "audit_counter_beyond", last=last)
    elif missing := sorted(set(range(1, last + 1)) - there - _skipped(unit)):
        yield say("records", "audit_orders_missing", count=len(missing), missing=missing[0])


def _skipped(unit: Unit) -> set[int]:
    """The numbers that restores passed over, because they stood on paper already."""
    found: set[int] = set()
    for payload in unit.session.scalars(select(EventRow.payload).where(EventRow.kind == "restored")):
        said = history.payload_of(payload)
        if said.get("first_skipped"):
            found.update(range(int(said["first_skipped"]), int(said["last_skipped"]) + 1))
    return found
