"""Overwrites what deleted rows leave behind in the files of a database."""

from __future__ import annotations

from sqlalchemy import text

from core.store import row_digests
from core.store.engines import Database


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
        names = (*row_digests.tables(connection), *row_digests.OUTSIDE)
        # Whoever is just being let in, to any database of the server, may still see what was removed a moment
        # ago, and it is kept for them: what the first pass had to leave goes with the second.
        for name in (*names, *names):
            connection.execute(text(f'VACUUM (FULL, ANALYZE) "{name}"'))
        drafts = text("SELECT count(*) FROM drafts").execution_options(every_shop=True)
        if not connection.scalar(drafts):
            # Of an empty table ANALYZE leaves what it found before; a column that gets a type forgets it.
            connection.execute(text("ALTER TABLE drafts ALTER COLUMN inventory TYPE text"))
        connection.execute(text("VACUUM FULL pg_catalog.pg_statistic"))
