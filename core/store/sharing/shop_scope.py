"""Which rows a statement may touch: on a server those of one shop, in a file all of them.

An engine of a server carries the name of its shop. From it every statement gets its condition: what a session
reads by `ShopSession`, what is changed by `keep_apart`, what is read past a session by `narrowed`. None of it
is left to memory: `shop_fence` stops a statement that goes out without. A file holds one shop, which a check
constraint of its tables sees to, so its statements stay as they are.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import lru_cache
from typing import Any, TypeVar, cast

from sqlalchemy import Connection, Engine, FromClause, Select, column, event, inspect, select, table
from sqlalchemy.orm import ORMExecuteState, Session, with_loader_criteria
from sqlalchemy.orm.util import LoaderCriteriaOption

from core.store.columns import StoredTable
from core.store.sharing import shop_fence
from core.store.sharing.shop_default import OPTION

S = TypeVar("S", bound="Select[*tuple[Any, ...]]")

_EVERY = "every_shop"
_COUNTERS = table("counters", column("name"), column("shop"))


class ShopSession(Session):
    """A session that sees the rows of the shop of its engine."""


def options(name: str) -> dict[str, Any]:
    """What the engines of a shop on a server carry."""
    return {OPTION: name}


def keep_apart(engine: Engine) -> None:
    """From now on what is changed through this engine is of its shop, and the fence stands."""
    event.listen(engine, "before_execute", _narrow_change, retval=True)
    event.listen(engine, "before_cursor_execute", _look)


def name_of(bind: Connection | Engine | Session) -> str | None:
    """The shop whose rows may be touched; None where that need not be said: in a file, or for every shop."""
    if isinstance(bind, Session):
        bind = bind.connection()
    found = bind.get_execution_options()
    return None if found.get(_EVERY) else found.get(OPTION)


def narrowed(bind: Connection | Session, asked: S, *sources: FromClause) -> S:
    """A question to these tables, asked past a session, for the rows of the shop alone."""
    name = name_of(bind)
    return asked if name is None else asked.where(*(each.c.shop == name for each in sources))


def narrowed_once(bind: Connection | Session, asked: S, source: FromClause) -> S:
    """`narrowed` for a statement that was built once: so is what becomes of it for a shop."""
    name = name_of(bind)
    return asked if name is None else cast("S", _built_once(asked, source, name))


@lru_cache(maxsize=512)
def _built_once(asked: Select[Any], source: FromClause, name: str) -> Select[Any]:
    return asked.where(source.c.shop == name)


def owned(bind: Connection | Session, row: Mapping[str, Any]) -> dict[str, Any]:
    """A row to be inserted past the mapped tables, with its shop."""
    name = name_of(bind)
    return dict(row) if name is None else {**row, "shop": name}


@contextmanager
def every_shop(connection: Connection) -> Iterator[Connection]:
    """The rows of all shops, for what is done to the tables themselves."""
    before = connection.get_execution_options().get(_EVERY, False)
    connection.execution_options(**{_EVERY: True})
    try:
        yield connection
    finally:
        connection.execution_options(**{_EVERY: before})


@contextmanager
def one_shop(connection: Connection, name: str | None) -> Iterator[Connection]:
    """The rows of one of the shops, on a connection for every shop; None: as it is."""
    before = connection.get_execution_options()
    if name is not None:
        connection.execution_options(**{_EVERY: False, OPTION: name})
    try:
        yield connection
    finally:
        connection.execution_options(**{key: before.get(key) for key in (_EVERY, OPTION)})


def shops(connection: Connection) -> tuple[str | None, ...]:
    """The shops of a database; None alone for a file, and for tables from before there were several."""
    is_file = connection.dialect.name == "sqlite"
    if is_file or "shop" not in {each["name"] for each in inspect(connection).get_columns("counters")}:
        return (None,)
    asked = select(_COUNTERS.c.shop).where(_COUNTERS.c.name == "event").order_by(_COUNTERS.c.shop)
    return tuple(connection.execute(asked).scalars())


@event.listens_for(ShopSession, "do_orm_execute")
def _narrow_statement(state: ORMExecuteState) -> None:
    name = name_of(state.session.get_bind())
    if name is None or not state.is_orm_statement or not state.is_select:
        return
    criteria, asked = _criteria(name), cast("Select[Any]", state.statement)
    if state.is_column_load and state.bind_mapper is not None:  # a row read again by its key alone
        state.statement = asked.where(state.bind_mapper.class_.shop == name)
    elif criteria not in asked._with_options:  # what is loaded for a row brings those along it was read with
        state.statement = asked.options(criteria)


@lru_cache(maxsize=64)
def _criteria(name: str) -> LoaderCriteriaOption:
    """For each mapped table of a statement, under whatever alias."""
    return with_loader_criteria(StoredTable, lambda kind: kind.shop == name, include_aliases=True)


def _narrow_change(
    connection: Connection, clause: Any, several: Any, values: Any, _: Mapping[str, Any]
) -> tuple[Any, Any, Any]:
    """What a session flushes or was told to change, and what is changed past it."""
    if getattr(clause, "is_dml", False) and not clause.is_insert:
        name = name_of(connection)
        if name is not None:
            clause = clause.where(clause.table.c.shop == name)
    return clause, several, values


def _look(_: Connection, __: Any, statement: str, ___: Any, context: Any, ____: bool) -> None:
    said = context.execution_options
    if said.get(OPTION) is not None and not said.get(_EVERY):
        shop_fence.check(statement, frozenset(StoredTable.metadata.tables))
