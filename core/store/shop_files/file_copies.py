"""Copies of a shop file while it is in use, each checked before it is trusted."""

from __future__ import annotations

import contextlib
from datetime import datetime
from pathlib import Path
from typing import Any

from core.model import private_files
from core.model.errors import Unavailable
from core.store.columns import in_utc
from core.store.shop_files import durable_files
from core.store.sqlite_library import sqlite_module
from core.wording.messages import say

PAGES = 500
"""Pages copied before other programs get their turn."""


def stamp(now: datetime) -> str:
    """A moment as part of a file name, in UTC: ``20260312-093000``."""
    return in_utc(now).strftime("%Y%m%d-%H%M%S")


def copy_before(path: Path, what: str, now: datetime) -> Path:
    """A checked copy beside the file, named after what is about to happen to it."""
    return copy_file(path, path.with_name(f"{path.stem}-{what}-{stamp(now)}{path.suffix}"))


def unused(path: Path) -> Path:
    """``path``, or the next name with a number that is free; for whoever is alone in giving such names."""
    free, count = path, 1
    while free.exists():
        count += 1
        free = path.with_name(f"{path.stem}-{count}{path.suffix}")
    return free


def copy_file(source: Path, target: Path) -> Path:
    """A copy of an SQLite file that others may be writing to, complete or not there at all.

    It is named ``target``, or with a number where there is such a file: no copy overwrites another.
    Unavailable when the copy does not pass SQLite's own check; OSError and SQLite's errors pass through.
    """
    growing = durable_files.beside(target)
    try:
        _copy(source, growing)
        if problems := problems_of_file(growing):
            raise Unavailable(say("records", "copy_not_sound", source=source, problems=problems[0]))
        durable_files.flush(growing)
        return durable_files.give_free_name(growing, target)
    finally:
        with contextlib.suppress(OSError):
            growing.unlink(missing_ok=True)


def problems_of_file(path: Path) -> list[str]:
    """What SQLite's integrity and foreign key checks find in a file; empty when it is sound."""
    try:
        connection = _connect(path)
    except sqlite_module().Error as error:
        return [str(error)]
    try:
        found = [str(row[0]) for row in connection.execute("PRAGMA integrity_check") if row[0] != "ok"]
        broken = connection.execute("PRAGMA foreign_key_check").fetchall()
    except sqlite_module().Error as error:
        return [str(error)]
    finally:
        connection.close()
    return found + [say("records", "link_is_broken", row=row[0], row_2=row[2]) for row in broken]


def _copy(source: Path, target: Path) -> None:
    private_files.make_file(target)
    reading, writing = _connect(source), sqlite_module().connect(str(target))
    try:
        reading.backup(writing, pages=PAGES)
        # A copy stands alone: no log beside it that could be left behind when it is carried away.
        writing.execute("PRAGMA journal_mode=DELETE")
    finally:
        writing.close()
        reading.close()


def _connect(path: Path) -> Any:
    module = sqlite_module()
    return module.connect(f"{path.absolute().as_uri()}?mode=ro", uri=True, timeout=5.0)
