"""Dumps as files: complete, checked and flushed, or not there at all."""

from __future__ import annotations

import contextlib
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection

from core.store.engines import Database
from core.store.sharing.shop_default import MAIN
from core.store.sharing.shop_names import in_file_name
from core.store.sharing.shop_scope import every_shop, one_shop, shops
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
    """A dump of each shop of a server in the user's data folder, named after what is about to happen to them.

    Gives that of the shop that was opened, or the last one.
    """
    folder = kept_in()
    durable_files.make_folders(folder)
    kept: dict[str | None, Path] = {}
    with database.reading.connect() as connection, every_shop(connection):
        for shop in shops(connection):
            name = f"{what}{in_file_name(shop or MAIN)}-{file_copies.stamp(now)}{ENDING}"
            with one_shop(connection, shop):
                kept[shop] = write(connection, folder / name, now)
    return kept.get(database.shop) or [*kept.values()][-1]


def kept_in() -> Path:
    """The folder of `keep_server`."""
    import platformdirs

    return Path(platformdirs.user_data_dir("Tapewright", appauthor=False)) / "copies"
