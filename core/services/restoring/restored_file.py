"""A shop file replaced by a checked one: while nobody has it open, by one renaming, the old one kept."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import Any

from core.model.errors import Unavailable
from core.services.restoring import given_numbers
from core.services.restoring.given_numbers import RestoreNote
from core.store.shop_files import file_copies
from core.store.shop_files.restore_journal import RestoreJournal
from core.store.sqlite_library import sqlite_module
from core.wording.messages import say


def kept_at(path: Path, now: datetime) -> Path:
    """Where the shop that is there will be kept: a name beside it that is free."""
    return file_copies.unused(
        path.with_name(f"{path.stem}-before-restore-{file_copies.stamp(now)}{path.suffix}")
    )


def put_in_place(journal: RestoreJournal, note: RestoreNote) -> bool:
    """The file made ready takes the place of the shop; whether the numbers given out there could be read."""
    with _held(journal.path) as there:
        last = _last_order(there)
        given_numbers.note(journal.sound, note, last or 0)
        _tidy(journal.sound)
        journal.carry_out()
    return last is not None


@contextmanager
def _held(path: Path) -> Iterator[Any]:
    """A connection that keeps all others out until the file is replaced; None for no file or a damaged one.

    Unavailable while others have it open. Windows replaces no open file: there it is let go of before.
    """
    connection = _taken_alone(path) if path.exists() else None
    try:
        yield connection
    finally:
        if connection is not None:
            connection.close()


def _taken_alone(path: Path) -> Any:
    """Empties the log into the file and locks it; None for a damaged one, which is left as it is."""
    module = sqlite_module()
    connection = module.connect(str(path), timeout=2.0, isolation_level=None)
    try:
        connection.execute("PRAGMA journal_mode=DELETE")
        connection.execute("BEGIN EXCLUSIVE")
    except module.OperationalError as error:
        connection.close()
        raise Unavailable(say("records", "open_elsewhere", path=path, error=error)) from error
    except module.DatabaseError:
        connection.close()
        return None
    return connection


def _last_order(there: Any) -> int | None:
    """The sequence of the last order; None where it cannot be read. On Windows the file is let go of."""
    if there is None:
        return None
    try:
        return int(there.execute("SELECT last FROM counters WHERE name = 'job'").fetchone()[0])
    except (sqlite_module().Error, TypeError):
        return None
    finally:
        if os.name == "nt":
            there.close()


def _tidy(sound: Path) -> None:
    """Leaves the file without a log beside it."""
    connection = sqlite_module().connect(str(sound))
    try:
        connection.execute("PRAGMA journal_mode=DELETE")
    finally:
        connection.close()
