"""All tables as lines of JSON: a copy that any database can take in, and that says when it is not whole.

First line: what it is. Then one line for each row, parents before children. Last line: how many, and the
SHA-256 of all lines before it. Of a database with several shops it holds the one of the connection, and its
rows do not say which: they become rows of the shop that takes them in.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from itertools import groupby, islice
from pathlib import Path
from typing import Any

from sqlalchemy import (
    Connection,
    String,
    TableClause,
    Text,
    column,
    delete,
    func,
    insert,
    inspect,
    select,
    table,
)
from sqlalchemy.exc import ArgumentError, CompileError, InvalidRequestError, StatementError
from sqlalchemy.types import TypeEngine

from core.model.errors import WrongInput
from core.store.columns import ByValue, Serialized, StoredTable, UtcMoment, written
from core.store.sharing.shop_scope import name_of, narrowed, owned
from core.wording.messages import say

_AT_ONCE = 500
_SHOP = "shop"
UNFIT = (
    *(ValueError, TypeError, LookupError, AttributeError, ArgumentError, CompileError, InvalidRequestError),
    *(StatementError, RecursionError),
)
"""What `load_old` raises for rows that no program of ours wrote, though somebody counted them right."""


def lines(connection: Connection, now: datetime) -> Iterator[str]:
    """The whole shop as seen by one transaction, each line without its end."""
    sha, count = hashlib.sha256(), 0
    for line in _body(connection, now):
        sha.update(line.encode() + b"\n")
        count += 1
        yield line
    yield json.dumps({"rows": count - 1, "sha256": sha.hexdigest()})


def rows(connection: Connection, now: datetime) -> Iterator[tuple[str, str]]:
    """Each row of the whole shop in the order of `lines`: its table, and all of it as a line."""
    for line in islice(_body(connection, now), 1, None):
        yield json.loads(line)["table"], line


def load(connection: Connection, dumped: Iterable[str]) -> None:
    """Puts rows of today's tables into a new, empty shop, inside the connection's transaction."""
    _load(connection, dumped, _raw)
    if connection.dialect.name == "postgresql":
        _go_on_counting(connection)


def load_old(connection: Connection, dumped: Iterable[str]) -> None:
    """Puts rows of older tables into an SQLite file that has just these, as they were written."""
    _load(
        connection, dumped, lambda name: table(name, *(column(each) for each in _columns(connection, name)))
    )


def checked(path: Path) -> tuple[str, list[str]]:
    """The revision and the lines of a dump; WrongInput when it is none, cut short or altered."""
    try:
        found = path.read_text(encoding="utf-8").splitlines()
        head, last = json.loads(found[0]), json.loads(found[-1])
        revision, said = str(head["tapewright"]), last.get("sha256")
    except (ValueError, IndexError, KeyError, TypeError, AttributeError, RecursionError):
        raise WrongInput(say("records", "backup"), str(path), say("records", "backup_is_not_ours")) from None
    body = "".join(line + "\n" for line in found[:-1]).encode()
    if said != hashlib.sha256(body).hexdigest():
        raise WrongInput(say("records", "backup"), str(path), say("records", "backup_incomplete"))
    return revision, found


def _load(connection: Connection, dumped: Iterable[str], into: Callable[[str], TableClause]) -> None:
    connection.execute(delete(table("counters", column("shop"))))  # a new shop begins with two of them
    rows = (json.loads(line) for line in dumped)
    for name, group in groupby((row for row in rows if "table" in row), key=lambda row: str(row["table"])):
        target = into(name)
        while chunk := list(islice(group, _AT_ONCE)):
            connection.execute(
                insert(target), [owned(connection, _read(target, row["row"])) for row in chunk]
            )


def _columns(connection: Connection, name: str) -> list[str]:
    return [each["name"] for each in inspect(connection).get_columns(name)]


def _body(connection: Connection, now: datetime) -> Iterator[str]:
    """Of a shop of today's tables these; of an older one the tables it has."""
    revision = connection.execute(
        select(column("version_num")).select_from(table("alembic_version"))
    ).scalar()
    yield json.dumps({"tapewright": revision, "made_at": written(now)})
    tables = _todays() if _has_todays_tables(connection) else _older(connection)
    for raw, key in tables:
        asked = select(*(each for each in raw.c if each.name != _SHOP)).order_by(
            *(raw.c[name] for name in key)
        )
        shared = [raw] if _SHOP in raw.c else []
        for row in connection.execute(narrowed(connection, asked, *shared)).mappings():
            plain = {
                name: written(value) if isinstance(value, datetime) else value for name, value in row.items()
            }
            yield json.dumps({"table": raw.name, "row": plain}, ensure_ascii=False, sort_keys=True)


def _has_todays_tables(connection: Connection) -> bool:
    there = set(inspect(connection).get_table_names())
    known = StoredTable.metadata.tables
    return set(known) <= there and all(
        set(_columns(connection, name)) == set(known[name].columns.keys()) for name in known
    )


def _todays() -> Iterator[tuple[TableClause, list[str]]]:
    """Each table with its key, parents before children."""
    for kept in StoredTable.metadata.sorted_tables:
        yield _raw(kept.name), [key.name for key in kept.primary_key]


def _older(connection: Connection) -> Iterator[tuple[TableClause, list[str]]]:
    found = inspect(connection)
    for name, _ in found.get_sorted_table_and_fkc_names():
        if name is not None and name != "alembic_version":
            key = [each for each in found.get_pk_constraint(name)["constrained_columns"] if each != _SHOP]
            yield table(name, *(column(each) for each in _columns(connection, name))), key


def _raw(name: str) -> TableClause:
    """A table whose records are left as the text they are kept as."""
    return table(
        name, *(column(each.name, _raw_type(each.type)) for each in StoredTable.metadata.tables[name].columns)
    )


def _raw_type(kind: TypeEngine[Any]) -> TypeEngine[Any]:
    if isinstance(kind, Serialized):
        return Text()
    return String() if isinstance(kind, ByValue) else kind


def _read(into: TableClause, row: dict[str, Any]) -> dict[str, Any]:
    moments = {each.name for each in into.columns if isinstance(each.type, UtcMoment)}
    return {
        name: datetime.fromisoformat(value) if name in moments and value is not None else value
        for name, value in row.items()
    }


def _go_on_counting(connection: Connection) -> None:
    """Lets the server's own counters go on after the highest id that was put in, and never back."""
    for kept in StoredTable.metadata.sorted_tables:
        if kept.autoincrement_column is not None:
            sequence = func.pg_get_serial_sequence(kept.name, "id")
            after = select(func.coalesce(func.max(kept.c.id), 0) + 1).where(
                kept.c.shop == name_of(connection)
            )
            last = func.greatest(func.nextval(sequence), after.scalar_subquery())
            connection.execute(select(func.setval(sequence, last, False)))
