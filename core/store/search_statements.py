"""The statements of the search, each built once: for all rows of a file, or one shop's on a server.

They go past the session, because they run at every key.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cache
from typing import Any

from sqlalchemy import ColumnElement, FromClause, Row, Select, bindparam, column, literal, select, table

from core.store.columns import StoredTable
from core.store.lookup import IN_THE_SHOP
from core.store.sharing import shop_scope
from core.store.unit import Unit

MOST = 50
_TRIGRAMS = table("customer_trigrams", column("rowid"), column("folded"), column("digits"))
_CUSTOMERS, _JOBS, _TAPES = (StoredTable.metadata.tables[name] for name in ("customers", "jobs", "tapes"))


def found(
    unit: Unit, build: Callable[[bool], Select[Any]], values: Mapping[str, object]
) -> Iterable[Row[Any]]:
    """The rows of a statement that was built once, for all rows of a file or for those of one shop."""
    connection = unit.session.connection()
    shop = shop_scope.name_of(connection)
    given = values if shop is None else {**values, "shop": shop}
    return connection.execute(build(shop is not None), given)


def _here(is_shared: bool, *tables: FromClause) -> list[ColumnElement[bool]]:
    """The condition that rows are of the shop, where tables are shared."""
    return [each.c.shop == bindparam("shop") for each in tables] if is_shared else []


def _jobs_of(is_shared: bool, customer: ColumnElement[int], *more: ColumnElement[Any]) -> Select[Any]:
    """A customer's jobs, the oldest first, each with whether one of its tapes is still here."""
    here = _TAPES.c.station.in_([literal(station, _TAPES.c.station.type) for station in IN_THE_SHOP])
    own = _here(is_shared, _TAPES)
    is_open = select(_TAPES.c.id).where(_TAPES.c.job_id == _JOBS.c.id, here, *own).exists()
    chosen = select(customer.label("customer"), _JOBS.c.id.label("job"), is_open.label("is_open"), *more)
    return chosen.where(_JOBS.c.customer_id == customer, *_here(is_shared, _JOBS))


@cache
def beginning(is_shared: bool) -> Select[Any]:
    """The jobs of the first customers whose folded name ``begins`` so and sorts before what it ``ends`` with.

    A range of the index: a pattern would not use it on every database.
    """
    in_range = _CUSTOMERS.c.folded >= bindparam("begins"), _CUSTOMERS.c.folded < bindparam("ends")
    first = select(_CUSTOMERS.c.id, _CUSTOMERS.c.folded).where(*in_range, *_here(is_shared, _CUSTOMERS))
    some = first.order_by(_CUSTOMERS.c.folded, _CUSTOMERS.c.id).limit(MOST).subquery()
    return _jobs_of(is_shared, some.c.id).order_by(some.c.folded, some.c.id, _JOBS.c.id)


@cache
def holding(is_file: bool, name: str, pieces: int, is_shared: bool) -> Select[Any]:
    """The jobs of customers in whose ``name`` every ``piece_0``, ``piece_1`` … is found by its trigrams.

    Of these the latest are enough, unsorted.
    """
    searched = _TRIGRAMS if is_file else _CUSTOMERS
    kept, key = searched.c[name], searched.c["rowid" if is_file else "id"]
    pieces_held = [kept.like(bindparam(f"piece_{n}")) for n in range(pieces)]
    holds = [*pieces_held, *_here(is_shared and not is_file, _CUSTOMERS)]
    some = select(key.label("id")).where(*holds).order_by(key.desc()).limit(MOST).subquery()
    return _jobs_of(is_shared, some.c.id).order_by(some.c.id.desc(), _JOBS.c.id)


@cache
def numbered(is_shared: bool) -> Select[Any]:
    """The job of a ``number``."""
    number = _JOBS.c.number == bindparam("number")
    return select(_JOBS.c.id.label("job")).where(number, *_here(is_shared, _JOBS))


@cache
def coded(is_shared: bool) -> Select[Any]:
    """The job of the tape of a ``code``."""
    code = _TAPES.c.code == bindparam("code")
    return select(_TAPES.c.job_id.label("job")).where(code, *_here(is_shared, _TAPES))


@cache
def named(is_shared: bool) -> Select[Any]:
    """The jobs of customers whose folded name is one of those ``alike``."""
    alike = _CUSTOMERS.c.folded.in_(bindparam("alike", expanding=True))
    chosen = _jobs_of(is_shared, _CUSTOMERS.c.id, _CUSTOMERS.c.folded)
    return chosen.where(alike, *_here(is_shared, _CUSTOMERS)).order_by(_JOBS.c.id)
