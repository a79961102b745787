"""Engines: how the shop's records are opened so that nothing acknowledged is ever lost.

SQLite: write-ahead log with every commit flushed (``synchronous=FULL``), and writers that take the write
lock before they read (``BEGIN IMMEDIATE``): a deferred transaction reads first and then overwrites what
another till stored meanwhile. PostgreSQL: one advisory lock gives the same order of writers. Reading goes
through an engine of its own that cannot write.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Dialect, Engine, create_engine, event
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.pool import ConnectionPoolEntry

from core.model import regular_files
from core.model.errors import Unavailable
from core.store import write_turns
from core.store.changes import ChangeLog
from core.store.sharing import server_address, shop_names, shop_scope
from core.store.sharing.shop_default import MAIN
from core.store.silence import Patience
from core.store.sqlite_library import refuse_reset_race, sqlite_module
from core.wording.messages import say

BUSY_SECONDS = 5.0
"""How long a till waits for another one's transaction before it says so."""

CONNECT_SECONDS = 5
"""How long to wait for a PostgreSQL server; also how long unanswered data may hang (``tcp_user_timeout``)."""

IDLE_SECONDS = 30
"""After so long without a word in the middle of a step the server takes it back: a till that was cut off must
not keep the others from writing. Within a step nothing is worked out that takes nearly as long."""
_FILE_BEFORE = "file_before"
SHOWN = "shown"
"""The option of a server's engines with the address as it may be shown."""

WRITERS_LOCK = 0x7461_7065
"""Word of the PostgreSQL advisory lock that puts the writers of a shop in a row ("tape" in ASCII)."""

DOOR_LOCK = 0x646F_6F72
"""Word of the advisory lock that whoever connects to a shop asks for, and a restore holds ("door")."""


@dataclass(frozen=True, slots=True)
class Database:
    """The open records of one shop. ``path`` is None on a server."""

    where: str
    """As it may be shown: never with a password."""
    path: Path | None
    writing: Engine
    reading: Engine
    patience: Patience = field(default_factory=Patience)
    """How long a call to the server may hear nothing."""
    shop: str = MAIN
    """Which of the shops that share the server."""
    changes: ChangeLog = field(default_factory=ChangeLog)

    def close(self) -> None:
        """Closes the readers first, so that the writer is the one that tidies the log away."""
        self.reading.dispose()
        self.writing.dispose()


def open_database(where: str | Path, *, alone: bool = False) -> Database:
    """The engines for a file or a PostgreSQL URL; nothing is connected yet.

    ``alone`` promises that no other program has the file open; it is then locked for as long as it is open.
    """
    if "://" in str(where):
        database = _open_server(str(where))
    else:
        database = _open_file(regular_files.expanded(where).absolute(), alone)
    database.changes.count(database.writing)
    return database


# --- SQLite ------------------------------------------------------------------------------


def _open_file(path: Path, alone: bool) -> Database:
    regular_files.check(path, say("records", "shop"), say("records", "shop_address_accepted"))
    module = sqlite_module()
    if not alone:
        refuse_reset_race(module)
    if alone:
        engine = _file_engine(path, module, "PRAGMA locking_mode=EXCLUSIVE", "BEGIN IMMEDIATE", connections=1)
        return Database(str(path), path, engine, engine)
    return Database(
        str(path),
        path,
        _file_engine(path, module, "PRAGMA query_only=OFF", "BEGIN IMMEDIATE", connections=1),
        _file_engine(path, module, "PRAGMA query_only=ON", "BEGIN", connections=4),
    )


def _file_engine(path: Path, module: Any, pragma: str, begin: str, *, connections: int) -> Engine:
    engine = create_engine(
        URL.create("sqlite", database=str(path)),
        module=module,
        hide_parameters=True,
        pool_size=connections,
        max_overflow=0,
        connect_args={"timeout": BUSY_SECONDS, "isolation_level": None, "check_same_thread": False},
    )

    def note(_: Dialect, entry: ConnectionPoolEntry, *arguments: object) -> None:
        entry.info[_FILE_BEFORE] = _identity(path)

    def prepare(connection: DBAPIConnection, entry: ConnectionPoolEntry) -> None:
        cursor = connection.cursor()
        for statement in (
            f"PRAGMA busy_timeout={int(BUSY_SECONDS * 1000)}",
            pragma if "locking_mode" in pragma else "PRAGMA locking_mode=NORMAL",
            "PRAGMA journal_mode=WAL",
            "PRAGMA synchronous=FULL",
            "PRAGMA foreign_keys=ON",
            pragma,
        ):
            cursor.execute(statement)
        cursor.close()
        if entry.info.pop(_FILE_BEFORE) not in (None, _identity(path)):
            connection.close()
            raise Unavailable(say("records", "restore_under_way", where=path))

    event.listen(engine, "do_connect", note)
    event.listen(engine, "connect", prepare)
    event.listen(engine, "begin", write_turns.beginning(begin, BUSY_SECONDS))
    return engine


def _identity(path: Path) -> tuple[int, int] | None:
    """Which file it is that has this name. A restore gives the name to another one while somebody waits to
    open it; from the end of `prepare` on the open file cannot be replaced."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


# --- PostgreSQL --------------------------------------------------------------------------


def _open_server(address: str) -> Database:
    url, shop = server_address.read(address)
    patience = Patience()
    until_idle = f"SET idle_in_transaction_session_timeout = '{IDLE_SECONDS}s'"
    writing = _server_engine(url, shop, patience, until_idle)
    reading = _server_engine(url, shop, patience).execution_options(
        isolation_level="REPEATABLE READ", postgresql_readonly=True
    )

    def wait_for_turn(connection: Connection) -> None:
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({shop_names.lock_key(WRITERS_LOCK, shop)})")

    event.listen(writing, "begin", wait_for_turn)
    return Database(server_address.shown_parts(url, shop), None, writing, reading, patience, shop)


def program_name(shop: str) -> str:
    """What the server's list of connections calls a program that works on a shop."""
    return f"tapewright {shop}"


def _server_engine(url: URL, shop: str, patience: Patience, *further: str) -> Engine:
    timeouts = {"connect_timeout": CONNECT_SECONDS, "tcp_user_timeout": CONNECT_SECONDS * 1000}
    engine = create_engine(
        url,
        hide_parameters=True,
        pool_pre_ping=True,
        pool_size=2,
        connect_args={**timeouts, "application_name": program_name(shop)},
        execution_options={**shop_scope.options(shop), SHOWN: server_address.shown_parts(url, shop)},
    )
    door = f"SELECT pg_advisory_xact_lock_shared({shop_names.lock_key(DOOR_LOCK, shop)})"

    def prepare(connection: DBAPIConnection, _: ConnectionPoolEntry) -> None:
        cursor = connection.cursor()
        cursor.execute(f"SET lock_timeout = {int(BUSY_SECONDS * 1000)}")
        cursor.execute("SET TIME ZONE 'UTC'")
        for statement in further:
            cursor.execute(statement)
        _wait_at_door(connection, cursor, door, server_address.shown_parts(url, shop))
        cursor.close()
        connection.commit()

    event.listen(engine, "do_connect", partial(_connect, patience))
    event.listen(engine, "connect", prepare)
    shop_scope.keep_apart(engine)
    return engine


def _wait_at_door(connection: DBAPIConnection, cursor: Any, door: str, where: str) -> None:
    """Nobody comes in while the rows of the shop are replaced; Unavailable when that takes long."""
    from psycopg import errors  # for shops on a server alone

    try:
        cursor.execute(door)
    except errors.LockNotAvailable as error:
        connection.close()
        raise Unavailable(say("records", "restore_under_way", where=where)) from error


def _connect(
    patience: Patience, _: Dialect, entry: ConnectionPoolEntry, given: Sequence[Any], named: Mapping[str, Any]
) -> Any:
    """A connection that does not wait for ever."""
    from core.store.server_link import PatientConnection  # psycopg is for shops on a server alone

    connection = PatientConnection.connect(*given, **named)
    connection.patience = patience
    return connection
