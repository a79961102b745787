"""Overwrites what deleted rows leave behind in the files of a database."""

from __future__ import annotations

import re
import time
from collections.abc import Sequence
from typing import TYPE_CHECKING

from sqlalchemy import Connection, text

from core.model.errors import Unavailable
from core.store import row_digests
from core.store.engines import Database
from core.wording.messages import say

if TYPE_CHECKING:
    from psycopg.errors import Diagnostic

HELD_SECONDS = 20.0
"""How long a server's older readers are waited for; a till's own steps are given up sooner. Our choice."""
AGAIN_SECONDS = 0.05


def scrub(database: Database) -> None:
    """Writes the file (or, on a server, each table) anew and empties the log; waits as long as a till does.

    A server's own write-ahead log and its backups are its keeper's to rotate.
    """
    if database.path is None:
        _scrub_server(database)
    else:
        _scrub_file(database)


def _scrub_file(database: Database) -> None:
    database.reading.dispose()
    with database.writing.connect() as connection:
        raw = connection.connection.driver_connection
        assert raw is not None
        raw.execute("PRAGMA secure_delete=ON")
        raw.execute("INSERT INTO customer_trigrams (customer_trigrams) VALUES ('rebuild')")
        raw.execute("VACUUM")
        raw.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()


def _scrub_server(database: Database) -> None:
    """Names lie also in what the server keeps to plan by: values that are frequent in a column.

    The tables are those of all shops, and each is written anew as a whole.
    """
    whole = database.writing.execution_options(isolation_level="AUTOCOMMIT")
    with whole.connect() as connection:
        until = time.monotonic() + HELD_SECONDS
        names = [f'"{name}"' for name in (*row_digests.tables(connection), *row_digests.OUTSIDE)]
        _write_anew("VACUUM (FULL, VERBOSE, ANALYZE)", names, connection, until)
        drafts = text("SELECT count(*) FROM drafts").execution_options(every_shop=True)
        if not connection.scalar(drafts):
            # Of an empty table ANALYZE leaves what it found before; a column that gets a type forgets it.
            connection.execute(text("ALTER TABLE drafts ALTER COLUMN inventory TYPE text"))
        _write_anew("VACUUM (FULL, VERBOSE)", ["pg_catalog.pg_statistic"], connection, until)


def _write_anew(how: str, names: Sequence[str], connection: Connection, until: float) -> None:
    """Writes tables anew until none keeps a removed row for somebody; Unavailable after ``until``.

    A server keeps such a row while anybody reads from a view older than its removal, and that may be whoever
    is just being let in to another database.
    """
    left = list(names)
    while left := [name for name in left if _rows_held(f"{how} {name}", connection)]:
        if time.monotonic() > until:
            raise Unavailable(say("records", "still_read"))
        time.sleep(AGAIN_SECONDS)


def _rows_held(statement: str, connection: Connection) -> int:
    """How many removed rows a table had to keep when it was written anew."""
    told: list[int] = []

    def note(said: Diagnostic) -> None:
        # "N dead row versions cannot be removed yet", in the server's language; no other line has details.
        if found := re.search(r"\d+", said.message_detail or ""):
            told.append(int(found[0]))

    driver = connection.connection.driver_connection
    assert driver is not None
    driver.add_notice_handler(note)
    try:
        connection.execute(text(statement))
    finally:
        driver.remove_notice_handler(note)
    return max(told, default=0)
