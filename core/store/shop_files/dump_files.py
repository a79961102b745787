"""Dumps as files: complete, checked and flushed, or not there at all."""

from __future__ import annotations

import contextlib
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection

from core.store.engines import Database
from core.store.shop_files import dump, durable_files, file_copies

ENDING = ".jsonl"


def write(connection: Connection, target: Path, now: datetime) -> Path:
    """All that ``connection`` sees, in a file named ``target``, or numbered where there is such a file."""
    growing = durable_files.beside(target)
    try:
        with growing.open("w", encoding="utf-8", newline="\n") as file:
            file.writelines(line + "\n" for line in dump.lines(connection, now))
        durable_files.flush(growing)
        dump.checked(growing)
        return durable_files.give_free_name(growing, target)
    finally:
        with contextlib.suppress(OSError):
            growing.unlink(missing_ok=True)


def keep_server(database: Database, what: str, now: datetime) -> Path:
    """A dump of a server in the user's data folder, named after what is about to happen to it."""
    folder = kept_in()
    durable_files.make_folders(folder)
    with database.reading.connect() as connection:
        return write(connection, folder / f"{what}-{file_copies.stamp(now)}{ENDING}", now)


def kept_in() -> Path:
    """The folder of `keep_server`."""
    import platformdirs

    return Path(platformdirs.user_data_dir("Tapewright", appauthor=False)) / "copies"
