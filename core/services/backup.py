"""Copies of the shop while it is in use: never half made, never trusted unchecked."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from sqlalchemy.orm import Session

from core.model import record_heads, regular_files
from core.model.errors import WrongInput
from core.store import (
    audit,
    dump,
    dump_files,
    durable_files,
    failures,
    file_copies,
    history,
    row_audit,
    schema,
)
from core.store.engines import Database, open_database
from core.store.sqlite_library import sqlite_module
from core.store.unit import Unit
from core.wording.messages import say

_FILE_BEGINS = b"SQLite format 3\x00"


def make(database: Database, directory: Path, now: datetime) -> Path:
    """A checked copy in ``directory``, named after the moment: a file of a file, a dump of a server."""
    with failures.named_here(database.where), _full_disk_named(directory):
        durable_files.make_folders(directory)
        told = f"{file_copies.stamp(now)}-{_head(database, now)}"
        if database.path is not None:
            name = f"{database.path.stem}-{told}{database.path.suffix or '.sqlite'}"
            return file_copies.copy_file(database.path, directory / name)
        with database.reading.connect() as connection:
            return dump_files.write(connection, directory / f"tapewright-{told}{dump_files.ENDING}", now)


def _head(database: Database, now: datetime) -> str:
    """How the head of the history begins: in the name of a copy it tells a rewritten or an older one."""
    with Session(database.reading) as session, session.begin():
        return history.head(Unit(session, now, "backup"))[: record_heads.LETTERS]


def verify(database: Database, now: datetime, *, head: str | None = None) -> tuple[str, ...]:
    """What is wrong with an open shop: its file, its links, its history, its tables against its history.

    ``head``: how a digest begins that was printed or kept elsewhere; a history without it is another one.
    """
    with failures.named_here(database.where):
        found = file_copies.problems_of_file(database.path) if database.path is not None else []
        if found:
            return tuple(found)
        with Session(database.reading) as session, session.begin():
            unit = Unit(session, now, "verify")
            return (*audit.verify(unit), *row_audit.not_held(unit, head))


def check(file: Path, now: datetime) -> None:
    """Rehearses a restore in a scratch folder; WrongInput when the backup could not be put back."""
    with (
        failures.named_here(str(file)),
        tempfile.TemporaryDirectory(prefix="tapewright-rehearsal-") as scratch,
    ):
        make_ready(file, Path(scratch) / "shop.sqlite", now)


def make_ready(file: Path, copy: Path, now: datetime) -> None:
    """Makes a shop file of the backup, brought up to date and found sound.

    WrongInput when the backup is none of ours, is damaged or does not agree with its own history.
    """
    regular_files.check(file, say("records", "backup"), say("records", "backup_file_accepted"))
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
        dump.load_old(connection, lines)
