"""The power going out in the middle of writing: what was acknowledged is there when the light is back."""

from __future__ import annotations

import os
import random
import sys
from pathlib import Path

import pytest

from core.store.shop_files import restore_journal
from tests.power_cuts import cut_scenarios
from tests.power_cuts.cut_disk import SECTOR, Call, Disk, Left, Model, Remains
from tests.power_cuts.cut_scenarios import BOOKINGS, Scenario
from tests.power_cuts.system_calls import Trace, is_possible, traced_in_turn

CUTS = 3
"""For each scenario and model; ``python -m tests.power_cuts`` takes over a thousand."""
SEED = 20260303
SHORT = (
    BOOKINGS,
    cut_scenarios.FIRST_START,
    cut_scenarios.MIGRATION,
    cut_scenarios.BACKUPS,
    cut_scenarios.RESTORES,
)
GUARDLESS = "NORMAL"
"""The bookings once more, with SQLite's other usual setting."""

needs_strace = pytest.mark.skipif(
    not is_possible() and not (sys.platform == "linux" and os.environ.get("CI")),
    reason="only strace on Linux tells what was flushed",
)
"""Where every check must run, a missing strace is a failure and not a test left out."""


@pytest.fixture(scope="module")
def traces(empty_file: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Trace]:
    """What the programs of all scenarios do, by their names without spaces."""
    root = tmp_path_factory.mktemp("cuts") / "shops"
    programs = {_folder(each): each.ready(empty_file, root / _folder(each)) for each in SHORT}
    programs[GUARDLESS] = BOOKINGS.ready(empty_file, root / GUARDLESS, GUARDLESS)
    return traced_in_turn(programs, root)


def _folder(scenario: Scenario) -> str:
    return scenario.name.replace(" ", "-")


@needs_strace
@pytest.mark.parametrize("scenario", SHORT, ids=lambda each: each.name)
def test_nothing_acknowledged_is_lost_when_the_power_goes_out(
    scenario: Scenario, traces: dict[str, Trace], tmp_path: Path
) -> None:
    trace = traces[_folder(scenario)]
    assert any(call.deed == "say" for call in trace.calls)
    for model in Model:
        assert scenario.broken(trace, CUTS, SEED, model, tmp_path / "after") == []


@needs_strace
def test_the_same_cuts_lose_bookings_where_commits_are_not_flushed(
    traces: dict[str, Trace], tmp_path: Path
) -> None:
    """The cuts have teeth: SQLite's other usual setting loses in more than three of ten."""
    broken = BOOKINGS.broken(traces[GUARDLESS], 3 * CUTS, SEED, Model.STRICT, tmp_path / "after")
    assert len(broken) > 0.3 * 3 * CUTS


@needs_strace
def test_a_restore_that_nobody_settles_leaves_its_journal_lying(
    traces: dict[str, Trace], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The cuts of a restore have teeth: without the settling at the next start they find what it left."""
    scenario = cut_scenarios.RESTORES
    monkeypatch.setattr(restore_journal, "settle", lambda path: None)
    assert scenario.broken(traces[_folder(scenario)], 2 * CUTS, SEED, Model.STRICT, tmp_path / "after")


# --- the disk of the model ---------------------------------------------------------------


def _disk(model: Model = Model.STRICT, **files: bytes) -> Disk:
    return Disk.holding(files, ("folder",), model)


def _left(disk: Disk, left: Left = Left.NOTHING) -> Remains:
    return disk.after_a_cut(left, random.Random(SEED))


def test_what_was_flushed_survives_and_the_rest_may_not() -> None:
    disk = _disk(a=b"old.")
    disk.take(Call("write", "a", b"NEW", 0))
    disk.take(Call("flush", "a"))
    disk.take(Call("write", "a", b"lost", 4))
    assert _left(disk).files == {"a": b"NEW."}
    dice = random.Random(SEED)
    assert {disk.after_a_cut(Left.FIRST, dice).files["a"] for _ in range(50)} == {b"NEW.", b"NEW.lost"}


def test_a_new_name_is_sure_once_its_folder_is_flushed_or_with_a_journal_anything() -> None:
    for model in Model:
        disk = _disk(model)
        disk.take(Call("make", "folder/a"))
        disk.take(Call("write", "folder/a", b"x", 0))
        disk.take(Call("flush", "folder/a"))
        assert _left(disk).files == ({} if model is Model.STRICT else {"folder/a": b"x"})
        disk.take(Call("flush", "folder"))
        assert _left(disk).files == {"folder/a": b"x"}
        disk.take(Call("unlink", "folder/a"))
        assert _left(disk).files == {"folder/a": b"x"}
        disk.take(Call("flush", "folder"))
        assert _left(disk).files == {}


def test_a_file_renamed_over_another_is_one_of_the_two() -> None:
    disk = _disk(a=b"old", b=b"new")
    disk.take(Call("rename", "b", to="a"))
    assert _left(disk).files == {"a": b"old", "b": b"new"}
    dice = random.Random(SEED)
    seen = {tuple(sorted(disk.after_a_cut(Left.ANY, dice).files.items())) for _ in range(50)}
    assert seen == {(("a", b"new"),), (("a", b"old"), ("b", b"new"))}
    disk.take(Call("flush", "."))
    assert _left(disk).files == {"a": b"new"}


def test_a_file_in_a_folder_that_is_not_sure_is_not_sure() -> None:
    disk = _disk()
    disk.take(Call("mkdir", "new"))
    disk.take(Call("make", "new/a"))
    disk.take(Call("flush", "new"))
    assert _left(disk).files == {}
    disk.take(Call("flush", "."))
    assert _left(disk).files == {"new/a": b""}


def test_a_write_is_torn_only_where_sectors_meet() -> None:
    disk = _disk(a=bytes(3 * SECTOR))
    disk.take(Call("write", "a", b"x" * 2 * SECTOR, SECTOR // 2))
    dice = random.Random(SEED)
    seen = {disk.after_a_cut(Left.ANY, dice).files["a"] for _ in range(300)}
    edges = (SECTOR // 2, SECTOR, 2 * SECTOR, 2 * SECTOR + SECTOR // 2)
    for data in seen:
        assert all(data[n] == data[n - 1] for n in range(1, len(data)) if n not in edges)
    assert len(seen) == 8  # three pieces, each there or not
