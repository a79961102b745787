"""A digest of every row in the chain of history: a row that was altered, added or taken away shows.

Each transaction ends with a line of kind ``rows`` that holds the digest of every row it wrote. Rows of an
order or a customer are hashed together with a salt that is kept beside them and thrown away when the customer
is erased, so that nobody can find out a name from its digest by trying names.

The name of the shop goes into no digest and no key: a shop keeps its digests when it moves to a server where
it has another name. A row whose shop was altered is missing in its own.
"""

from __future__ import annotations

import hashlib
import secrets
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from datetime import datetime
from functools import cache
from itertools import chain, count, islice
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    Select,
    TableClause,
    bindparam,
    column,
    event,
    inspect,
    literal_column,
    select,
    table,
    tuple_,
)
from sqlalchemy.orm import Session, object_mapper

from core.model import serialization
from core.store.columns import StoredTable, written
from core.store.sharing.shop_scope import narrowed, narrowed_once

KIND = "rows"
"""Of the lines of history that hold digests."""
AT_ONCE = 1000
"""Rows of one line at most."""
OUTSIDE = ("events", "counters", "drafts", "command_answers", "change_numbers", "shop_moves")
"""Tables without digests: `audit.outside` says why, and what is checked instead."""

OWNERS = {"tapes": "tape_id", "copies": "copy_id"}
"""What belongs to an order, and the column by which other rows belong to it."""

_SHOP = "shop"
_WRITTEN = "rows_written"
Digests = dict[str, dict[str, str | None]]
"""By table and key; None: the row is gone."""


_salts: ContextVar[Callable[[], str] | None] = ContextVar("salts", default=None)


def new_salt() -> str:
    """128 bits nobody can guess, in hexadecimal."""
    make = _salts.get()
    return secrets.token_hex(16) if make is None else make()


@contextmanager
def guessable_salts() -> Iterator[None]:
    """The same salts every time, one after the other: for an invented shop, whose people are nobody."""
    numbers = count(1)
    token = _salts.set(lambda: f"{next(numbers):032x}")
    try:
        yield
    finally:
        _salts.reset(token)


def watch(session: Session) -> None:
    """From now on remembers which rows this session writes."""
    event.listen(session, "after_flush", _note)


def mark(session: Session, name: str, keys: Iterable[Any]) -> None:
    """Counts rows as written that were written by a statement."""
    written_rows = session.info.setdefault(_WRITTEN, defaultdict(set))
    written_rows[name].update(each if isinstance(each, tuple) else (each,) for each in keys)


def taken(session: Session) -> Iterator[Digests]:
    """The digests of what was written since they were last taken, at most `AT_ONCE` together."""
    written_rows: Mapping[str, set[tuple[Any, ...]]] = session.info.pop(_WRITTEN, {})
    salts = Salts(session.connection()) if written_rows else None
    every = ((name, key) for name in sorted(written_rows) for key in sorted(written_rows[name]))
    while salts is not None and (some := list(islice(every, AT_ONCE))):
        found: Digests = {}
        for name, key in some:
            found.setdefault(name, {})[_text(key)] = None
        for name, keys in found.items():
            meant = [key for each, key in some if each == name]
            keys.update(_of_rows(session.connection(), name, salts, meant))
        yield found


def standing(connection: Connection, name: str, salts: Salts) -> Iterator[tuple[str, str]]:
    """Key and digest of every row of a table as it stands."""
    return _of_rows(connection, name, salts)


def tables(connection: Connection) -> list[str]:
    """The tables whose rows have digests, as far as they are there; the search's and Alembic's have none."""
    left_out = (*OUTSIDE, "alembic_version")
    there = sorted(inspect(connection).get_table_names())
    return [each for each in there if each not in left_out and "trigram" not in each]


class Salts:
    """The salt of a row: its own, or that of the order it belongs to; nothing where it is nobody's.

    ``all_at_once`` reads those of the whole shop together, for whoever needs most of them.
    """

    def __init__(self, connection: Connection, *, all_at_once: bool = False) -> None:
        self._connection = connection
        self._of_job = self._read("jobs", "salt") if all_at_once else {}
        self._job_of = {name: self._read(name, "job_id") if all_at_once else {} for name in OWNERS}

    def of(self, row: Mapping[str, Any]) -> str:
        if "salt" in row:
            return row["salt"] or ""
        job = row.get("job_id")
        for name, known in self._job_of.items():
            if job is None and row.get(OWNERS[name]) is not None:
                job = self._found(known, name, "job_id", row[OWNERS[name]])
        return "" if job is None else self._found(self._of_job, "jobs", "salt", job) or ""

    def _found(self, known: dict[int, Any], name: str, wanted: str, key: int) -> Any:
        if key not in known:
            known.update({key: None} | self._read(name, wanted, key))
        return known[key]

    def _read(self, name: str, wanted: str, key: int | None = None) -> dict[int, Any]:
        kept = _table(name)
        if key is None:
            found = self._connection.execute(narrowed_once(self._connection, _column(name, wanted), kept))
        else:
            asked = narrowed_once(self._connection, _column_of_one(name, wanted), kept)
            found = self._connection.execute(asked, {"key": key})
        return {row[0]: row[1] for row in found}


def digest(name: str, row: Mapping[str, Any], salt: str) -> str:
    """SHA-256 over a table's name and all that a row holds; an empty column counts as not there, so that a
    column added later changes nothing."""
    held = {key: _plain(value) for key, value in row.items() if value is not None and key != _SHOP}
    return hashlib.sha256((salt + serialization.dumps([name, held])).encode()).hexdigest()


def _of_rows(
    connection: Connection, name: str, salts: Salts, keys: Sequence[tuple[Any, ...]] | None = None
) -> Iterator[tuple[str, str]]:
    names = key_names(connection, name)
    if keys is None:
        asked, given = _every(name), {}
    elif len(names) == 1 and len(keys) == 1:
        asked, given = _one(name, names[0]), {"key": keys[0][0]}
    else:
        asked, given = _every(name).where(_among([column(each) for each in names], keys)), {}
    narrow = narrowed if keys is not None and not given else narrowed_once
    rows = connection.execute(narrow(connection, asked, _table(name)), given)
    for found in rows.mappings():
        row = dict(found)
        yield _text([row[each] for each in names]), digest(name, row, salts.of(row))


_TABLES: dict[str, TableClause] = {}
"""Not by `cache`, which takes a name that SQLAlchemy quotes for another one when it is the only argument."""


def _table(name: str) -> TableClause:
    if name not in _TABLES:
        _TABLES[name] = table(name, column("id"), column(_SHOP))
    return _TABLES[name]


@cache
def _every(name: str) -> Select[Any]:
    return select(literal_column("*")).select_from(_table(name))


@cache
def _one(name: str, key: str) -> Select[Any]:
    """Built once: most steps write one row of a table."""
    return _every(name).where(column(key) == bindparam("key"))


@cache
def _column(name: str, wanted: str) -> Select[Any, Any]:
    return select(column("id"), column(wanted)).select_from(_table(name))


@cache
def _column_of_one(name: str, wanted: str) -> Select[Any, Any]:
    return _column(name, wanted).where(column("id") == bindparam("key"))


def key_names(connection: Connection, name: str) -> list[str]:
    """The columns of a table's primary key within its shop."""
    known = StoredTable.metadata.tables.get(name)
    if known is not None:
        return [each.name for each in known.primary_key]
    names = inspect(connection).get_pk_constraint(name)["constrained_columns"]
    return [each for each in names if each != _SHOP]


def raw_table(connection: Connection, name: str) -> TableClause:
    """A table with its columns as they are kept, without what the program makes of them."""
    return table(name, *(column(each["name"]) for each in inspect(connection).get_columns(name)))


def _among(columns: Sequence[ColumnElement[Any]], keys: Sequence[tuple[Any, ...]]) -> ColumnElement[bool]:
    if len(columns) == 1:
        return columns[0].in_([key[0] for key in keys])
    return tuple_(*columns).in_(keys)


def _note(session: Session, _: object) -> None:
    for row in chain(session.new, session.dirty, session.deleted):
        mapper = object_mapper(row)
        name = mapper.local_table.name  # type: ignore[attr-defined]  # no row of ours is mapped to a join
        if name not in OUTSIDE and (row not in session.dirty or session.is_modified(row)):
            mark(session, name, [tuple(mapper.primary_key_from_instance(row))])


def _text(key: Sequence[Any]) -> str:
    return "/".join(map(str, key))


def _plain(value: Any) -> Any:
    """A value as both databases give it: moments as text, truth as a number."""
    if isinstance(value, datetime):
        return written(value)
    return int(value) if isinstance(value, bool) else value
