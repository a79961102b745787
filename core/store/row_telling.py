"""Tells the history rows that no step wrote: a migration that changes what they hold calls this at its end.

It works on the tables as they are kept, because the program's own may be ahead of those of a migration. Each
shop of a database has a history of its own, and is told of its own rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import UTC, datetime

from sqlalchemy import Connection, column, insert, select, table, update

from core.model import serialization
from core.store import history, row_digests
from core.store.columns import UtcMoment, written
from core.store.sharing.shop_scope import narrowed, one_shop, owned, shops

BY = "tapewright"
_EVENTS = table(
    "events",
    *(column(name) for name in ("seq", "job", "tape", "kind", "words", "payload", "by", "previous")),
    *(column(name) for name in ("digest", "salt", "sealed")),
    column("at", UtcMoment()),
    column("shop"),
)
_COUNTERS = table("counters", column("name"), column("last"), column("shop"))


def tell(connection: Connection, names: Iterable[str]) -> None:
    """Lines with the digests of all rows of these tables, by the program, at the moment of the last line."""
    told = tuple(names)
    for shop in shops(connection):
        with one_shop(connection, shop):
            _tell(connection, told)


def _tell(connection: Connection, names: Iterable[str]) -> None:
    newest = select(_EVENTS.c.at, _EVENTS.c.digest, _EVENTS.c.seq).order_by(_EVENTS.c.seq.desc()).limit(1)
    found = connection.execute(narrowed(connection, newest, _EVENTS)).one_or_none()
    at = datetime.now(UTC) if found is None else found.at
    before, seq = (history.BEGINNING, 0) if found is None else (found.digest, found.seq)
    for rows in _standing(connection, names):
        seq += 1
        before = _append(connection, seq, before, at, serialization.dumps({"rows": rows}))
    counted = _COUNTERS.c.name == "event"
    connection.execute(update(_COUNTERS).where(counted, _COUNTERS.c.last < seq).values(last=seq))


def _append(connection: Connection, seq: int, before: str, at: datetime, payload: str) -> str:
    salt = row_digests.new_salt()
    sealed = history.sealed("", payload, salt)
    said = [seq, None, None, row_digests.KIND, sealed, written(at), BY, before]
    digest = history.fingerprint(serialization.dumps(said))
    line = {"seq": seq, "kind": row_digests.KIND, "words": "", "payload": payload, "at": at, "by": BY}
    line |= {"previous": before, "salt": salt, "sealed": sealed, "digest": digest}
    connection.execute(insert(_EVENTS).values(**owned(connection, line)))
    return digest


def _standing(connection: Connection, names: Iterable[str]) -> Iterator[dict[str, dict[str, str]]]:
    salts = row_digests.Salts(connection, all_at_once=True)
    for name in names:
        rows = list(row_digests.standing(connection, name, salts))
        for first in range(0, len(rows), row_digests.AT_ONCE):
            yield {name: dict(rows[first : first + row_digests.AT_ONCE])}
