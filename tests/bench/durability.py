"""What a power cut costs, against another usual setting; and what a sure commit costs, against one flush."""

from __future__ import annotations

import os
import random
import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

from core.services import jobs
from core.services.records_door import Shop
from tests.bench.ratio import Ratio, median, timed
from tests.support import booked
from tests.support.booked import Clock
from tests.support.powercut import Trace, booked_under_strace, is_possible

BOXES = 60
CUTS = 1_000
TEETH_CUTS = 200
SEED = 20260303
COMMITS = 300
AT_MOST_A_COMMIT = 3
"""Flushes that one commit may take."""


def measure() -> Iterator[Ratio]:
    """Cuts at calls picked with a fixed seed, each opened and searched for what was acknowledged."""
    with tempfile.TemporaryDirectory() as folder:
        empty = Path(folder) / "empty.sqlite"
        booked.set_up(empty)
        yield _commit(Path(folder), empty)
        if not is_possible():
            print("   power cuts: not measured, because only strace on Linux tells what was flushed")
            return
        losing = _losing(_trace(Path(folder) / "full", empty), CUTS, Path(folder) / "after")
        yield Ratio("cuts that lost an acknowledged job", losing, "all cuts", CUTS, "cuts", 0.0)
        kept = TEETH_CUTS - _losing(
            _trace(Path(folder) / "normal", empty, "NORMAL"), TEETH_CUTS, Path(folder) / "after"
        )
        yield Ratio("teeth: cuts without loss, synchronous=NORMAL", kept, "all cuts", TEETH_CUTS, "cuts", 0.7)


def _trace(folder: Path, empty: Path, synchronous: str = "") -> Trace:
    (folder / "shop").mkdir(parents=True)
    return booked_under_strace(Path(shutil.copy(empty, folder / "shop" / "shop.sqlite")), BOXES, synchronous)


def _losing(trace: Trace, count: int, folder: Path) -> int:
    """How many of the cuts lost a job that a customer had the slip of, or left records that do not agree."""
    losing = 0
    for cut in trace.cuts(count, random.Random(SEED)):
        shutil.rmtree(folder, ignore_errors=True)
        folder.mkdir()
        cut.lay_out(folder)
        with Shop.open(folder / "shop.sqlite", clock=Clock(), create=False) as shop:
            kept = [job.number for job in shop.ask(jobs.open_jobs)]
            wrong = shop.verify()
        losing += kept[: len(cut.acknowledged)] != list(cut.acknowledged) or bool(wrong)
    return losing


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
