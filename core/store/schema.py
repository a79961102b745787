"""Brings the tables of a shop up to what this version of the program writes; new shops start empty.

Alembic is imported only when there is something to do: it costs a tenth of a second at every start.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection, inspect, text

from core.model import private_files
from core.model.errors import NoShopYet, Refused, Unavailable, WrongInput
from core.store.engines import Database
from core.store.sharing import shop_rows, shop_scope
from core.store.shop_files import durable_files, file_copies, restore_journal, shop_marker
from core.store.silence import UPDATE_SECONDS
from core.wording.messages import say

HEAD = "0020"
"""The newest revision in `core.store.migrations.versions`."""

_MIGRATIONS = Path(__file__).with_name("migrations")

_UPDATE_LOCK = 0x7461_626C
"""Key of the PostgreSQL advisory lock of whoever changes the tables that shops share ("tabl" in ASCII)."""


def bring_up(database: Database, *, create: bool, now: datetime) -> Path | None:
    """Makes the tables new or brings them up to date; gives the copy made before an old file was touched.

    NoShopYet when nothing is there and nothing may be made; WrongInput when the tables are another
    program's; Refused when a newer version of this program wrote it; Unavailable where
    there was a shop whose file is gone.
    """
    if database.path is not None:
        _find_file(database.path, create)
    found, holds_tables = _look(database)
    if found is None and holds_tables:
        raise WrongInput(say("records", "shop"), database.where, say("records", "tables_not_ours"))
    if found is None and database.path is not None and shop_marker.place(database.path).exists():
        found, _ = _look(database)  # another program may have made the tables meanwhile, and left the marker
        if found is None:
            raise shop_marker.is_gone(database.path)
    is_begun = found is not None and _holds_shop(database)
    if not create and not is_begun:
        raise NoShopYet(say("records", "no_shop_yet", where=database.where))
    kept = None if found in (HEAD, None) else _keep_older(database, found, now)
    if found != HEAD:
        with database.patience.lengthened(UPDATE_SECONDS):
            _upgrade(database)
    if database.path is not None:
        shop_marker.leave(database.path)
    elif not is_begun:
        with database.writing.begin() as connection:
            shop_rows.begin(connection)
    return kept


def found_in(database: Database) -> tuple[str | None, bool]:
    """The revision of the tables, if they are ours, and whether more is there than other shops."""
    revision, holds_tables = _look(database)
    return revision, holds_tables and (revision != HEAD or _holds_shop(database))


def make_and_fill(database: Database, fill: Callable[[Connection], None]) -> None:
    """Makes the tables of a new shop and fills them, in one transaction: all of it or nothing.

    On a server where there are tables of today it becomes another shop in them.
    """
    if database.path is not None:
        durable_files.make_folders(database.path.parent)
        private_files.make_file(database.path)
    with _unlinked(database) as connection, connection.begin():
        bring_up_within(connection)
        fill(connection)
    if database.path is not None:
        durable_files.flush_folder(database.path.parent)
        shop_marker.leave(database.path)


def _find_file(path: Path, create: bool) -> None:
    """Settles a restore that was cut off, then sees to it that there is a file or a folder to make it in."""
    restore_journal.settle(path)
    was_there = shop_marker.place(path).exists()
    if path.exists():
        private_files.tighten_beside(path)
        if path.stat().st_size or create or was_there:
            return
        # To look into it would make it a database.
        raise NoShopYet(say("records", "no_shop_yet", where=path))
    if was_there:
        raise shop_marker.is_gone(path)
    if not create:
        raise NoShopYet(say("records", "no_shop_at", path=path))
    durable_files.make_folders(path.parent)
    private_files.make_file(path)


def _keep_older(database: Database, found: str, now: datetime) -> Path:
    """A copy of an older shop before its tables are changed: beside a file, of a server on this computer."""
    check_known(found, database.where)
    if database.path is not None:
        return file_copies.copy_before(database.path, f"before-{HEAD}", now)
    from core.store.shop_files import dump_files

    return dump_files.keep_server(database, f"before-{HEAD}", now)


def _look(database: Database) -> tuple[str | None, bool]:
    """The revision of the tables, and whether there are tables at all."""
    with database.reading.connect() as connection:
        found = revision_of(connection)
        return found, found is not None or bool(inspect(connection).get_table_names())


def revision_of(connection: Connection) -> str | None:
    """The revision of the tables; None where there are none of ours."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    return connection.execute(text("SELECT version_num FROM alembic_version")).scalar()


def check_known(found: str, where: str) -> None:
    """Refused when a newer program wrote tables of revision ``found``."""
    if not any((_MIGRATIONS / "versions").glob(f"{found}_*.py")):
        raise Refused(say("records", "written_by_newer", where=where, found=found, head=HEAD))


def upgrade(connection: Connection, revision: str = "head") -> None:
    """Runs what is missing up to ``revision`` on a connection, inside its transaction."""
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(_MIGRATIONS).replace("%", "%%"))
    config.attributes["connection"] = connection
    with shop_scope.every_shop(connection):
        command.upgrade(config, revision)


def bring_up_within(connection: Connection) -> None:
    """Runs what is missing inside the transaction of a connection, for all shops that are there.

    Tables that are made new on a server hold no shop; in a file they hold the beginning of one.
    """
    if connection.dialect.name == "sqlite":
        upgrade(connection)
        return
    connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_UPDATE_LOCK})")
    is_new = not inspect(connection).has_table("alembic_version")
    upgrade(connection)
    if is_new:
        with shop_scope.every_shop(connection):
            connection.execute(text("DELETE FROM counters"))


def _holds_shop(database: Database) -> bool:
    """Whether the tables there hold the shop of this database, and not only others."""
    if database.path is not None:
        return True
    with database.reading.connect() as connection:
        return shop_rows.are_there(connection)


def _upgrade(database: Database) -> None:
    with _unlinked(database) as connection, connection.begin():
        # Another till may have done it while we waited for the lock; then there is nothing left to do.
        bring_up_within(connection)
        is_file = connection.dialect.name == "sqlite"
        if is_file and connection.exec_driver_sql("PRAGMA foreign_key_check").first():
            raise Unavailable(say("records", "update_breaks_links", where=database.where))
    if database.path is not None:
        durable_files.flush_folder(database.path.parent)


@contextmanager
def _unlinked(database: Database) -> Iterator[Connection]:
    """A connection with foreign keys off: with them on, rebuilding a table deletes what points to it."""
    with database.writing.connect() as connection:
        raw = connection.connection.driver_connection
        if connection.dialect.name == "sqlite" and raw is not None:
            raw.execute("PRAGMA foreign_keys=OFF")
        try:
            yield connection
        finally:
            connection.rollback()
            if connection.dialect.name == "sqlite" and raw is not None:
                raw.execute("PRAGMA foreign_keys=ON")
