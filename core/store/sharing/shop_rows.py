"""The rows of one shop among those of others: whether there are any, their beginning, and their end."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager, nullcontext

from sqlalchemy import Connection, column, delete, insert, select, table, text

from core.store.columns import StoredTable
from core.store.sharing.shop_default import MAIN
from core.store.sharing.shop_scope import every_shop, name_of, narrowed, owned

_COUNTERS = table("counters", column("name"), column("last"), column("shop"))
_COUNTED = ("job", "event")
_IS_SHARED = text(
    "SELECT count(*) FROM pg_attribute WHERE attrelid = to_regclass('counters') AND attname = 'shop'"
)


def are_there(connection: Connection) -> bool:
    """Whether the shop was begun in the tables of this server; older ones hold the main shop alone."""
    if not connection.execute(_IS_SHARED).scalar_one():
        return name_of(connection) in (None, MAIN)
    asked = narrowed(connection, select(_COUNTERS.c.name).limit(1), _COUNTERS)
    return connection.execute(asked).first() is not None


@contextmanager
def older_too(connection: Connection) -> Iterator[Connection]:
    """The rows of the shop, also in tables of a server from before there were several."""
    is_older = name_of(connection) == MAIN and not connection.execute(_IS_SHARED).scalar_one()
    with every_shop(connection) if is_older else nullcontext():
        yield connection


def begin(connection: Connection) -> None:
    """Begins the shop of the connection, unless another till has done so."""
    if not are_there(connection):
        connection.execute(
            insert(_COUNTERS), [owned(connection, {"name": each, "last": 0}) for each in _COUNTED]
        )


def remove(connection: Connection) -> None:
    """Takes the rows of the shop of a server's connection out of every table, also of those append-only."""
    allow = text("SELECT set_config('tapewright.replaced', :shop, true)")
    connection.execute(allow, {"shop": name_of(connection)})
    for kept in reversed(StoredTable.metadata.sorted_tables):
        connection.execute(delete(table(kept.name, column("shop"))))
    connection.execute(allow, {"shop": ""})
