"""Copies of the shop while it is in use: never half made, never trusted unchecked."""

from __future__ import annotations

import re
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import func, select

from core.model import private_files, regular_files
from core.model.errors import WrongInput
from core.store import failures, history, schema
from core.store.audits import audit, row_audit
from core.store.engines import Database, open_database
from core.store.job_tables import JobRow
from core.store.sharing.shop_names import in_file_name
from core.store.sharing.shop_scope import ShopSession
from core.store.shop_files import (
    dump,
    dump_files,
    durable_files,
    erased_orders,
    file_copies,
    locked_files,
)
from core.store.shop_tables import CounterRow
from core.store.sqlite_library import sqlite_module
from core.store.unit import Unit
from core.wording import record_heads
from core.wording.messages import say

_FILE_BEGINS = b"SQLite format 3\x00"


@dataclass(frozen=True, slots=True)
class Rehearsal:
    """What a backup that could be put back holds."""

    orders: int
    last_number: int
    """The sequence of the last order; 0 when there is none."""
    last_entry: datetime | None
    """When the last line of its history was written."""


def make(database: Database, directory: Path, now: datetime, lock: str = "") -> Path:
    """A checked copy in ``directory``, named after the moment: a file of a file, a dump of a server.

    ``lock``: a public key that it is locked with. Then nothing readable ever lies in ``directory``.
    """
    with failures.named_here(database.where), _full_disk_named(directory):
        durable_files.make_folders(directory)
        _list_erased(database, directory)
        if not lock:
            return _copy(database, directory, now)
        beside = None if database.path is None else database.path.parent
        with tempfile.TemporaryDirectory(prefix=".backing-up-", dir=beside) as scratch:
            plain = _copy(database, Path(scratch), now)
            return locked_files.lock(plain, directory / f"{plain.name}{locked_files.ENDING}", lock)


def _list_erased(database: Database, directory: Path) -> None:
    """Beside every backup lies the list of who was erased, for older ones that still hold them."""
    own = erased_orders.listed(erased_orders.beside(database.where))
    with database.reading.connect() as connection:
        erased_orders.add(directory, own | erased_orders.of_records(connection))


def _copy(database: Database, directory: Path, now: datetime) -> Path:
    told = f"{file_copies.stamp(now)}-{_head(database, now)}"
    name = f"{stem(database)}-{told}"
    if database.path is not None:
        return file_copies.copy_file(database.path, directory / f"{name}{database.path.suffix or '.sqlite'}")
    with database.reading.connect() as connection:
        return dump_files.write(connection, directory / f"{name}{dump_files.ENDING}", now)


def stem(database: Database) -> str:
    """How the names of the backups of a shop begin: as its file is called, or its database on the server."""
    if database.path is not None:
        return database.path.stem
    called = re.sub(r"\W+", "-", database.reading.url.database or "tapewright")
    return f"{called}{in_file_name(database.shop)}"


def _head(database: Database, now: datetime) -> str:
    """How the head of the history begins: in the name of a copy it tells a rewritten or an older one."""
    with ShopSession(database.reading) as session, session.begin():
        return history.head(Unit(session, now, "backup"))[: record_heads.LETTERS]


def verify(database: Database, now: datetime, *, head: str | None = None) -> tuple[str, ...]:
    """What is wrong with an open shop: its file, its links, its history, its tables against its history.

    ``head``: how a digest begins that was printed or kept elsewhere; a history without it is another one.
    """
    with failures.named_here(database.where):
        found = file_copies.problems_of_file(database.path) if database.path is not None else []
        if found:
            return tuple(found)
        with ShopSession(database.reading) as session, session.begin():
            unit = Unit(session, now, "verify")
            return (*audit.verify(unit), *row_audit.not_held(unit, head))


def check(file: Path, now: datetime, key: str = "") -> Rehearsal:
    """Rehearses a restore in a scratch folder that is removed; WrongInput when it could not be put back."""
    with (
        failures.named_here(str(file)),
        tempfile.TemporaryDirectory(prefix="tapewright-rehearsal-") as scratch,
    ):
        copy = Path(scratch) / "shop.sqlite"
        make_ready(file, copy, now, key)
        database = open_database(copy)
        try:
            with ShopSession(database.reading) as session, session.begin():
                return _rehearsal(Unit(session, now, "rehearsal"))
        finally:
            database.close()


def _rehearsal(unit: Unit) -> Rehearsal:
    orders = unit.session.scalar(select(func.count()).select_from(JobRow)) or 0
    last = unit.session.scalar(select(CounterRow.last).where(CounterRow.name == "job")) or 0
    return Rehearsal(orders, last, history.last_at(unit))


def make_ready(file: Path, copy: Path, now: datetime, key: str = "") -> None:
    """Makes a shop file of the backup, brought up to date and found sound; ``key`` unlocks a locked one.

    WrongInput when the backup is none of ours, is damaged or does not agree with its own history, and for
    another key than it was locked with; Refused where it is locked and no key was given.
    """
    regular_files.check(file, say("records", "backup"), say("records", "backup_file_accepted"))
    if locked_files.is_locked(file):
        unlocked = copy.with_name("unlocked")
        locked_files.unlock(file, private_files.make_file(unlocked), key)
        file = unlocked
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
        if problems := verify(database, now, head=record_heads.in_name(file.name)):
            accepted = say("records", "backup_not_sound", problems=problems[0])
            raise WrongInput(say("records", "backup"), str(file), accepted)
    finally:
        database.close()


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


def _check_file(file: Path) -> None:
    if problems := file_copies.problems_of_file(file):
        accepted = say("records", "backup_damaged", problems=problems[0])
        raise WrongInput(say("records", "backup"), str(file), accepted)


def _load(database: Database, file: Path) -> None:
    revision, lines = dump.checked(file)
    schema.check_known(revision, str(file))
    with database.writing.begin() as connection:
        schema.upgrade(connection, revision)
        try:
            dump.load_old(connection, lines)
        except dump.UNFIT as error:
            raise WrongInput(
                say("records", "backup"), str(file), say("records", "backup_is_not_ours")
            ) from error
