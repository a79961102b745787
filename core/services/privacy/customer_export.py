"""All that is kept of one customer, as plain data for one file: what somebody may ask a shop for."""

from __future__ import annotations

import json
from datetime import datetime
from typing import Any

from sqlalchemy import select

from core.model.own_shop.settings_records import Permission
from core.services.privacy.emptied_records import EXPORTED
from core.services.privacy.erasures import meant
from core.store import history, permissions, personal_columns, row_digests
from core.store.columns import written
from core.store.steps import step
from core.store.tables import CustomerRow, EventRow, JobRow
from core.store.unit import Unit
from core.wording.messages import say

FORMAT = "tapewright-customer-1"
_OURS = frozenset({"salt", "version", "folded", "digits"})
"""Columns that serve the program and say nothing of anybody."""


def export(unit: Unit, who: str) -> dict[str, Any]:
    """Every row of the one customer that ``who`` names, table by table, and every line of history.

    NotPermitted without the right to erase, WrongInput unless exactly one customer is meant.
    """
    permissions.check(unit, Permission.ERASE)
    customer = meant(unit, who)
    jobs = unit.session.execute(select(JobRow.id, JobRow.number).where(JobRow.customer_id == customer.id))
    numbers = {row.id: row.number for row in jobs}
    connection = unit.session.connection()
    tables = {
        name: [_readable(row) for _, row in personal_columns.rows_of(unit.session, name, list(numbers))]
        for name in row_digests.tables(connection)
    }
    return {
        "format": FORMAT,
        "made_at": written(unit.now),
        "customer": _person(customer),
        "orders": sorted(numbers.values()),
        "records": {name: rows for name, rows in tables.items() if rows},
        "history": _lines(unit, list(numbers.values())),
    }


@step
def note(unit: Unit, who: str, file: str) -> tuple[str, ...]:
    """Notes where the data of a customer are about to be written to, so that an erasure can tell; gives the
    orders. NotPermitted and WrongInput as `export`."""
    permissions.check(unit, Permission.ERASE)
    customer = meant(unit, who)
    jobs = select(JobRow.number).where(JobRow.customer_id == customer.id).order_by(JobRow.id)
    numbers = tuple(unit.session.scalars(jobs))
    words = say("privacy", "export-line", file=file)
    history.append(unit, EXPORTED, words, job=numbers[-1], file=file)
    return numbers


def _person(row: CustomerRow) -> dict[str, Any]:
    return {"name": row.name, "phone": row.phone, "email": row.email, "since": written(row.since)}


def _lines(unit: Unit, numbers: list[str]) -> list[dict[str, Any]]:
    asked = select(EventRow).where(EventRow.job.in_(numbers)).order_by(EventRow.seq)
    return [
        {
            "at": written(row.at),
            "by": row.by,
            "order": row.job,
            "tape": row.tape,
            "words": row.words,
            "details": history.payload_of(row.payload),
        }
        for row in unit.session.scalars(asked)
    ]


def _readable(row: personal_columns.Row) -> dict[str, Any]:
    return {name: _value(value) for name, value in row.items() if value is not None and name not in _OURS}


def _value(value: Any) -> Any:
    """A moment as text, a record that is kept as JSON taken apart, all else as it is."""
    if isinstance(value, datetime):
        return written(value)
    if isinstance(value, str) and value[:1] in ("{", "["):
        try:
            return json.loads(value)
        except ValueError:
            return value
    return value
