"""Which columns tell of a customer, and what stands there once the customer is erased.

What the books need stays: sums, dates, minutes, stations, codes, repairs. Names, numbers, signatures,
labels and everything typed freely go.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from sqlalchemy import column, select, table, update
from sqlalchemy.orm import Session

from core.store import row_digests
from core.store.sharing import shop_scope

Row = Mapping[str, Any]

_EMPTIED: dict[str, dict[str, Any]] = {
    "customers": {"folded": "", "phone": None, "digits": "", "email": None},
    "tapes": {"note": ""},
    "agreement_versions": {
        "reason": "",
        "agreed_by": None,
        "strokes": "[]",
        "told": "[]",
        "content": None,  # of before commands had a table: a digest without a salt, to be guessed at
    },
    "promises": {"reason": "", "agreed_with": None},
    "pickups": {"strokes": "[]"},
    "told": {"note": ""},
    "handover_wishes": {"value": "", "said_by": ""},
    "incidents": {"words": "", "photo": None, "sha256": None},
    "splices": {"struck_because": ""},
    "repairs": {"note": "", "came_from": "", "struck_because": ""},
    "recordings": {"struck_because": ""},
    "copy_steps": {"reason": "", "content": None},
    "payments": {"note": ""},
    "sign_offs": {"because": "", "accepted": "[]"},
}
"""By table: what a column that holds something holds afterwards."""
_MARKED = {"customers": ("name",), "pickups": ("signed_by",), "agreement_versions": ("tax_exempt",)}
"""Columns that say that somebody was there: the mark of the erased stands in place of what they held."""
_RECORDS = {
    "jobs": ("quote",),
    "tapes": ("draft",),
    "agreement_versions": ("quote",),
    "pickups": ("record",),
    "recordings": ("report",),
    "copy_steps": ("contents", "download"),
}
"""Columns with whole records as JSON."""

_EMPTY_KEYS = {
    **dict.fromkeys(("label", "note", "shown", "came_from", "reason", "struck_because"), ""),
    "strokes": [],
}
_NO_KEYS = ("named", "consent", "phone", "email")
_MARK_KEYS = ("who_agreed", "agreed_by", "tax_exempt", "exempt", "link")
_PEOPLE = ("customer", "signature")
"""Keys of records of people, in which the name is marked."""


def without_person(name: str, row: Row, mark: str) -> dict[str, Any]:
    """The columns of a row that change when its customer is erased, with what stands there afterwards."""
    changed = {each: value for each, value in _EMPTIED.get(name, {}).items() if row[each] is not None}
    changed |= {each: mark for each in _MARKED.get(name, ()) if row[each]}
    for each in _RECORDS.get(name, ()):
        if row[each] is not None:
            held = _emptied(json.loads(row[each]), mark)
            if name == "recordings":
                held["name"] = mark
            changed[each] = json.dumps(held, ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return {each: value for each, value in changed.items() if value != row[each]}


def rows_of(session: Session, name: str, jobs: list[int]) -> Iterator[tuple[Any, Row]]:
    """Key and row, as stored, of every row of a table that belongs to one of these orders."""
    connection = session.connection()
    kept = row_digests.raw_table(connection, name)
    if name == "jobs":
        mine = kept.c.id.in_(jobs)
    elif "job_id" in kept.c:
        mine = kept.c.job_id.in_(jobs)
    else:
        owned = [(each, by) for each, by in row_digests.OWNERS.items() if by in kept.c]
        if not owned:
            return
        owner = table(owned[0][0], column("id"), column("job_id"), column("shop"))
        theirs = select(owner.c.id).where(owner.c.job_id.in_(jobs))
        mine = kept.c[owned[0][1]].in_(shop_scope.narrowed(connection, theirs, owner))
    (key,) = row_digests.key_names(connection, name)
    asked = shop_scope.narrowed(connection, select(kept).where(mine), kept)
    for row in connection.execute(asked).mappings():
        yield row[key], {each: value for each, value in row.items() if each != "shop"}


def customer_row(session: Session, customer: int) -> Row:
    """The row of a customer as stored."""
    connection = session.connection()
    kept = row_digests.raw_table(connection, "customers")
    asked = shop_scope.narrowed(connection, select(kept).where(kept.c.id == customer), kept)
    return dict(connection.execute(asked).mappings().one())


def change(session: Session, name: str, key: Any, values: dict[str, Any]) -> None:
    """Writes columns of one row and counts it as written."""
    kept = row_digests.raw_table(session.connection(), name)
    (key_name,) = row_digests.key_names(session.connection(), name)
    if values:
        session.connection().execute(update(kept).where(kept.c[key_name] == key).values(values))
    row_digests.mark(session, name, [key])


def _emptied(held: Any, mark: str, inside: str = "") -> Any:
    if isinstance(held, list):
        return [_emptied(each, mark, inside) for each in held]
    if not isinstance(held, dict):
        return held
    if held.get("exempt") and held.get("tax_words"):
        # the sentence that says why no tax is charged quotes the reason
        held = {**held, "tax_words": held["tax_words"].replace(held["exempt"], mark)}
    return {key: _value(key, value, mark, inside) for key, value in held.items()}


def _value(key: str, value: Any, mark: str, inside: str) -> Any:
    if value is None or (key in _NO_KEYS and not isinstance(value, (list, bool))):
        return None
    if key in _EMPTY_KEYS:
        return _EMPTY_KEYS[key]
    if (key == "name" and inside in (*_PEOPLE, "files")) or (key in _MARK_KEYS and value):
        return mark
    if (inside, key) in (("agreements", "words"), ("struck", "because")):
        return ""
    return [] if key == "told" and inside == "job" else _emptied(value, mark, key)
