"""Copies of the shop while it is in use, and back: never trusted unchecked, never over the only copy."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from sqlalchemy import text
from sqlalchemy.exc import SQLAlchemyError
from sqlalchemy.orm import Session

from core.model import private_files
from core.model.errors import Refused, TapewrightError, Unavailable, WrongInput
from core.model.own_shop.settings_records import Permission, ShopSettings
from core.services.own_shop import shop_settings
from core.store import audit, current_settings, dump, failures, file_copies, permissions, schema
from core.store.columns import StoredTable
from core.store.engines import Database, open_database
from core.store.sqlite_library import sqlite_module
from core.store.unit import Unit
from core.wording.messages import say

_FILE_BEGINS = b"SQLite format 3\x00"
_DUMP = ".jsonl"


def make(database: Database, directory: Path, now: datetime) -> Path:
    """A checked copy in ``directory``, named after the moment: a file of a file, a dump of a server."""
    with failures.named_here(database.where), _full_disk_named(directory):
        private_files.make_folder(directory)
        if database.path is not None:
            name = f"{database.path.stem}-{file_copies.stamp(now)}{database.path.suffix or '.sqlite'}"
            return file_copies.copy_file(database.path, file_copies.unused(directory / name))
        return _dump_to(
            database, file_copies.unused(directory / f"tapewright-{file_copies.stamp(now)}{_DUMP}"), now
        )


def verify(database: Database, now: datetime) -> tuple[str, ...]:
    """What is wrong with an open shop: its file, its links, its history, its tables against its history."""
    with failures.named_here(database.where):
        found = file_copies.problems_of_file(database.path) if database.path is not None else []
        if found:
            return tuple(found)
        with Session(database.reading) as session, session.begin():
            return audit.verify(Unit(session, now, "verify"))


def check(file: Path, now: datetime) -> None:
    """Rehearses a restore in a scratch folder; WrongInput when the backup could not be put back."""
    with failures.named_here(str(file)), _checked_copy(file, None, now):
        pass


def restore(where: str | Path, file: Path, *, now: datetime, who: str) -> Path | None:
    """Puts a backup in the place of the shop at ``where``; gives what was there before, kept beside it.

    The backup is checked first: WrongInput when it is none of ours, damaged or does not agree with its own
    history, and then nothing is changed. Refused where one of the two is a shop to practise in and the other
    is real, and where the people of the shop at ``where`` can be read and ``who`` is none of those who may.
    Unavailable while another program has the shop open.
    """
    there = settings_there(where, now)
    for refusal in permissions.refusals(there, who, Permission.RESTORE) if there is not None else ():
        raise refusal
    shown = str(file)
    if not file.is_file():
        raise WrongInput(say("records", "backup"), shown, say("records", "backup_file_accepted"))
    target = open_database(where)
    target.close()
    with failures.named_here(target.where), _checked_copy(file, target.path, now) as sound:
        _check_not_mixed(where, sound, now)
        if target.path is not None:
            return _put_in_place(sound, target.path, now)
        return _put_on_server(sound, open_database(where), file.parent, now)


@contextmanager
def _full_disk_named(directory: Path) -> Iterator[None]:
    """What goes wrong with files while a copy is made is said of the folder the copy goes to."""
    try:
        yield
    except (OSError, sqlite_module().Error) as error:
        is_there = isinstance(error, OSError) or "full" in str(error)
        failure = failures.named(error, str(directory)) if is_there else None
        if failure is None:
            raise
        raise failure from error


# --- the copy that is checked ------------------------------------------------------------


@contextmanager
def _checked_copy(file: Path, target: Path | None, now: datetime) -> Iterator[Path]:
    """A shop file made from the backup, on the disk where it will be needed, and found sound."""
    folder = target.parent if target is not None else None
    if folder is not None:
        private_files.make_folder(folder)
    with tempfile.TemporaryDirectory(prefix=".restoring-", dir=folder) as scratch:
        copy = Path(scratch) / "shop.sqlite"
        with file.open("rb") as opened:
            is_file = opened.read(len(_FILE_BEGINS)) == _FILE_BEGINS
        if is_file:
            _check_file(file)
            file_copies.copy_file(file, copy)
        database = open_database(copy)
        try:
            if not is_file:
                _load(database, file)
            schema.bring_up(database, create=False, now=now)
            if problems := verify(database, now):
                raise WrongInput(
                    say("records", "backup"),
                    str(file),
                    say("records", "backup_not_sound", problems=problems[0]),
                )
        finally:
            database.close()
        yield copy


def _check_not_mixed(where: str | Path, sound: Path, now: datetime) -> None:
    """Refused when practice would take the place of the real shop, or the real one that of practice."""
    there, comes = _is_practice(where, now), _is_practice(sound, now)
    if there is not None and comes is not None and there is not comes:
        raise Refused(say("records", "practice_over_real" if comes else "real_over_practice"))


def _is_practice(where: str | Path, now: datetime) -> bool | None:
    """Whether the shop there is one to practise in; None where none can be read."""
    there = settings_there(where, now)
    return None if there is None else there.front.practice


def settings_there(where: str | Path, now: datetime) -> ShopSettings | None:
    """The settings of a shop that is not open, those of a new one before any were kept; None where none can
    be read."""
    if "://" not in str(where) and not Path(where).expanduser().exists():
        return None
    database = open_database(where)
    try:
        with Session(database.reading) as session, session.begin():
            row = current_settings.newest(Unit(session, now, "restore"))
            return shop_settings.new_shop() if row is None else current_settings.of_text(row.value)
    except (SQLAlchemyError, TapewrightError):
        return None
    finally:
        database.close()


def _check_file(file: Path) -> None:
    if problems := file_copies.problems_of_file(file):
        raise WrongInput(
            say("records", "backup"), str(file), say("records", "backup_damaged", problems=problems[0])
        )


def _load(database: Database, file: Path) -> None:
    revision, lines = dump.checked(file)
    schema.check_known(revision, str(file))
    with database.writing.begin() as connection:
        schema.upgrade(connection, revision)
        dump.load_old(connection, lines)


# --- putting it in place -----------------------------------------------------------------


def _put_in_place(sound: Path, path: Path, now: datetime) -> Path | None:
    kept = None
    if path.exists():
        _take_alone(path)
        kept = file_copies.unused(
            path.with_name(f"{path.stem}-before-restore-{file_copies.stamp(now)}{path.suffix}")
        )
        for ending in ("", "-wal", "-shm"):
            beside = Path(f"{path}{ending}")
            if beside.exists():
                os.replace(beside, f"{kept}{ending}")
    os.replace(sound, path)
    return kept


def _take_alone(path: Path) -> None:
    """Empties the log into the file; Unavailable while others have it open. A damaged one is left as is."""
    module = sqlite_module()
    connection = module.connect(str(path), timeout=2.0)
    try:
        connection.execute("PRAGMA locking_mode=EXCLUSIVE")
        connection.execute("PRAGMA journal_mode=DELETE")
        connection.execute("BEGIN EXCLUSIVE")
        connection.rollback()
    except module.OperationalError as error:
        raise Unavailable(say("records", "open_elsewhere", path=path, error=error)) from error
    except module.DatabaseError:
        return
    finally:
        connection.close()


def _put_on_server(sound: Path, server: Database, beside: Path, now: datetime) -> Path | None:
    source = open_database(sound)
    try:
        kept = _keep_server(server, beside, now)
        with source.reading.connect() as reading, server.writing.begin() as writing:
            StoredTable.metadata.drop_all(writing)
            writing.execute(text("DROP TABLE IF EXISTS alembic_version"))
            writing.execute(text("DROP FUNCTION IF EXISTS append_only"))
            schema.upgrade(writing)
            dump.load(writing, dump.lines(reading, now))
        return kept
    finally:
        source.close()
        server.close()


def _keep_server(server: Database, beside: Path, now: datetime) -> Path | None:
    with server.reading.connect() as connection:
        if not connection.dialect.has_table(connection, "events"):
            return None
    return _dump_to(
        server, file_copies.unused(beside / f"before-restore-{file_copies.stamp(now)}{_DUMP}"), now
    )


def _dump_to(database: Database, target: Path, now: datetime) -> Path:
    growing = target.with_name(target.name + ".growing")
    private_files.make_file(growing)
    with database.reading.connect() as connection, growing.open("w", encoding="utf-8", newline="\n") as file:
        file.writelines(line + "\n" for line in dump.lines(connection, now))
        file.flush()
        os.fsync(file.fileno())
    dump.checked(growing)
    os.replace(growing, target)
    return target
