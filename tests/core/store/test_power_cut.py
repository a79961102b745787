"""The power going out in the middle of a booking: what was acknowledged is there when the light is back."""

from __future__ import annotations

import os
import random
import shutil
import sys
from pathlib import Path

import pytest

from core.services import jobs
from core.services.records_door import Shop
from tests.support.booked import Clock, command, quoted
from tests.support.powercut import (
    SECTOR,
    Call,
    Cut,
    Disk,
    Left,
    Trace,
    booked_under_strace,
    is_possible,
)

BOXES = 20
CUTS = 60
SEED = 20260303

needs_strace = pytest.mark.skipif(
    not is_possible() and not (sys.platform == "linux" and os.environ.get("CI")),
    reason="only strace on Linux tells what was flushed",
)
"""Where every check must run, a missing strace is a failure and not a test left out."""


def _trace(empty_file: Path, folder: Path, synchronous: str = "") -> Trace:
    (folder / "shop").mkdir()
    path = Path(shutil.copy(empty_file, folder / "shop" / "shop.sqlite"))
    return booked_under_strace(path, BOXES, synchronous)


@pytest.fixture(scope="module")
def trace(empty_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Trace:
    """What a till does with our own settings."""
    return _trace(empty_file, tmp_path_factory.mktemp("till"))


def _after(cut: Cut, folder: Path) -> Shop:
    """The shop as it is opened when the light is back."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    cut.lay_out(folder)
    return Shop.open(folder / "shop.sqlite", clock=Clock(), create=False)


def _numbers(shop: Shop) -> list[str]:
    return [job.number for job in shop.ask(jobs.open_jobs)]


@needs_strace
def test_no_acknowledged_booking_is_lost_when_the_power_goes_out(trace: Trace, tmp_path: Path) -> None:
    flushed = {call.name for call in trace.calls if call.deed == "flush"}
    assert {"shop.sqlite", "shop.sqlite-wal"} <= flushed, "the log was never copied into the file"
    most = 0
    for cut in trace.cuts(CUTS, random.Random(SEED)):
        with _after(cut, tmp_path / "after") as shop:
            kept, wrong = _numbers(shop), shop.verify()
        assert wrong == (), f"cut before call {cut.at}, {cut.left}"
        assert kept[: len(cut.acknowledged)] == list(cut.acknowledged), (
            f"cut before call {cut.at}, {cut.left}"
        )
        assert len(kept) - len(cut.acknowledged) <= 1  # stored, and the light gone before it was said
        most = max(most, len(cut.acknowledged))
    assert most > BOXES // 2


@needs_strace
def test_the_same_cuts_lose_bookings_where_commits_are_not_flushed(empty_file: Path, tmp_path: Path) -> None:
    """The cuts have teeth: SQLite's other usual setting loses in more than three of ten."""
    cuts = list(_trace(empty_file, tmp_path, "NORMAL").cuts(CUTS, random.Random(SEED)))
    losing = 0
    for cut in cuts:
        with _after(cut, tmp_path / "after") as shop:
            kept = _numbers(shop)
        losing += kept[: len(cut.acknowledged)] != list(cut.acknowledged)
    assert losing > 0.3 * len(cuts)


@needs_strace
def test_after_a_cut_the_shop_books_on(trace: Trace, tmp_path: Path) -> None:
    *_, last = trace.cuts(5, random.Random(SEED))
    with _after(last, tmp_path / "after") as shop:
        kept = _numbers(shop)
        booked = shop.run(jobs.book, quoted(shop), command=command())
        assert _numbers(shop) == [*kept, booked.number]


# --- the disk of the model ---------------------------------------------------------------


def test_what_was_flushed_survives_and_the_rest_may_not() -> None:
    disk = Disk({"a": bytearray(b"old.")})
    disk.take(Call("write", "a", b"NEW", 0))
    disk.take(Call("flush", "a"))
    disk.take(Call("write", "a", b"lost", 4))
    dice = random.Random(SEED)
    assert disk.after_a_cut(Left.NOTHING, dice) == {"a": b"NEW."}
    first = {disk.after_a_cut(Left.FIRST, dice)["a"] for _ in range(50)}
    assert first == {b"NEW.", b"NEW.lost"}


def test_a_new_name_is_sure_once_its_file_or_its_folder_is_flushed() -> None:
    disk = Disk({})
    disk.take(Call("make", "a"))
    disk.take(Call("make", "b"))
    disk.take(Call("write", "b", b"x", 0))
    disk.take(Call("flush", "b"))
    assert disk.after_a_cut(Left.NOTHING, random.Random(SEED)) == {"b": b"x"}
    disk.take(Call("flush", "."))
    disk.take(Call("unlink", "b"))
    assert disk.after_a_cut(Left.NOTHING, random.Random(SEED)) == {"a": b"", "b": b"x"}
    disk.take(Call("flush", "."))
    assert disk.after_a_cut(Left.NOTHING, random.Random(SEED)) == {"a": b""}


def test_a_write_is_torn_only_where_sectors_meet() -> None:
    disk = Disk({"a": bytearray(3 * SECTOR)})
    disk.take(Call("write", "a", b"x" * 2 * SECTOR, SECTOR // 2))
    dice = random.Random(SEED)
    seen = {disk.after_a_cut(Left.ANY, dice)["a"] for _ in range(300)}
    edges = (SECTOR // 2, SECTOR, 2 * SECTOR, 2 * SECTOR + SECTOR // 2)
    for data in seen:
        assert all(data[n] == data[n - 1] for n in range(1, len(data)) if n not in edges)
    assert len(seen) == 8  # three pieces, each there or not
