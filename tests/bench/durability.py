"""What a sure commit costs, against one flush. What a power cut costs: ``python -m tests.power_cuts``."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from core.services.records_door import Shop
from tests.bench.ratio import Ratio, median, timed
from tests.support import booked

COMMITS = 300
AT_MOST_A_COMMIT = 3
"""Flushes that one commit may take."""


def measure() -> Iterator[Ratio]:
    """Many commits of one line, each flushed."""
    with tempfile.TemporaryDirectory() as folder:
        empty = Path(folder) / "empty.sqlite"
        booked.set_up(empty)
        yield _commit(Path(folder), empty)


def _commit(folder: Path, empty: Path) -> Ratio:
    """One line in one transaction through our own engine, beside one page flushed in the same folder."""
    path = Path(shutil.copy(empty, folder / "commit.sqlite"))
    with Shop.open(path) as shop, shop.database.writing.connect() as connection:
        with connection.begin():
            connection.exec_driver_sql("CREATE TABLE lines (words TEXT)")

        def commit() -> None:
            with connection.begin():
                connection.exec_driver_sql("INSERT INTO lines VALUES ('a job')")

        ours = median(timed(commit, COMMITS))
    with (folder / "page").open("wb", buffering=0) as file:

        def flush() -> None:
            file.write(bytes(4096))
            os.fdatasync(file.fileno())

        floor = median(timed(flush, COMMITS))
    return Ratio("one commit", ours, "one page flushed", floor, "ms", AT_MOST_A_COMMIT)
