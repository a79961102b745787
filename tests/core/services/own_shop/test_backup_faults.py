"""Backups while disks fail, places go, clocks are set back and two tills make them; both databases."""

from __future__ import annotations

import errno
import os
import shutil
import threading
from collections.abc import Callable
from pathlib import Path

import pytest

from core.model.errors import TapewrightError
from core.services import backup
from core.services.own_shop import backup_places, shop_document
from core.services.records_door import Shop
from core.store.shop_files import durable_files
from core.wording.messages import say
from tests.support import beginnings
from tests.support.booked import Desk, events


def _begin(desk: Desk) -> None:
    desk.book()


begun_file, begun_server = beginnings.begun_file(_begin), beginnings.begun_server(_begin)

NEWEST_TWO = {"keep": 2, "keep_days": 0, "keep_weeks": 0, "keep_years": 0}


@pytest.fixture
def places(desk: Desk, tmp_path: Path) -> tuple[Path, Path]:
    """A stick and an attic."""
    folders = tmp_path / "stick", tmp_path / "attic"
    for folder in folders:
        folder.mkdir()
    _settle(desk, first=folders[0], second=folders[1], **NEWEST_TWO)
    return folders


def _settle(desk: Desk, **keys: object) -> None:
    desk.shop.run(shop_document.set_texts, [(f"backup.{key}", str(value)) for key, value in keys.items()])


def _at_the_flush(monkeypatch: pytest.MonkeyPatch, folder: Path, fault: Callable[[Path], object]) -> None:
    """Something happens in a folder when the bytes of a copy are to be made sure."""
    real = durable_files.flush

    def flush(path: Path) -> None:
        if path.parent == folder:
            fault(path)
        real(path)

    monkeypatch.setattr(durable_files, "flush", flush)


def _raises(number: int) -> Callable[[Path], object]:
    def fault(path: Path) -> None:
        raise OSError(number, os.strerror(number), str(path))

    return fault


def _tears(path: Path) -> None:
    """A disk that keeps the first half of what it was given: lines that end, pages that do not."""
    held = path.read_bytes()
    path.write_bytes(held[: len(held) // 2].rpartition(b"\n")[0] + b"\n")


@pytest.mark.parametrize(
    ("fault", "sentence"),
    [
        (_raises(errno.ENOSPC), "disk_full"),
        (_raises(errno.EIO), "disk_failed"),
        (lambda path: shutil.rmtree(path.parent), None),
    ],
    ids=["full", "fails", "is unplugged"],
)
def test_where_a_disk_fails_it_is_told_the_other_place_gets_its_copy_and_nothing_half_is_left(
    desk: Desk,
    places: tuple[Path, Path],
    monkeypatch: pytest.MonkeyPatch,
    fault: Callable[[Path], object],
    sentence: str | None,
) -> None:
    stick, attic = places
    _at_the_flush(monkeypatch, stick, fault)
    done = backup_places.keep_up(desk.shop)
    ((folder, failure),) = done.failures
    assert folder == str(stick)
    assert str(stick) in failure.sentence
    if sentence is not None:
        assert say("records", sentence, where=stick) in failure.sentence
    assert not stick.exists() or list(stick.iterdir()) == []
    assert [each.parent for each in done.files] == [attic]
    assert [line.payload.count(str(stick)) for line in events(desk.shop, backup_places.KIND)] == [0]
    assert desk.shop.verify() == ()


def test_a_copy_that_does_not_read_back_is_no_backup(
    desk: Desk, places: tuple[Path, Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Verified after writing: seen red without `problems_of_file` in `copy_file`, and without `checked` in
    `dump_files.write`."""
    stick, attic = places
    real = durable_files.beside
    monkeypatch.setattr(durable_files, "flush", lambda path: None)

    def torn_later(path: Path) -> Path:
        growing = real(path)
        if growing.parent == stick:
            torn.append(growing)
        return growing

    torn: list[Path] = []
    monkeypatch.setattr(durable_files, "beside", torn_later)
    _tear_before_it_is_read(desk, monkeypatch, torn)
    done = backup_places.keep_up(desk.shop)
    assert torn
    assert [folder for folder, _ in done.failures] == [str(stick)]
    assert isinstance(done.failures[0][1], TapewrightError)
    assert list(stick.iterdir()) == []
    assert [each.parent for each in done.files] == [attic]


def _tear_before_it_is_read(desk: Desk, monkeypatch: pytest.MonkeyPatch, torn: list[Path]) -> None:
    """The disk loses half of the copy after the last byte was written and before it is read back."""
    from core.store.shop_files import file_copies

    if desk.kind == "postgres":
        monkeypatch.setattr(durable_files, "flush", lambda path: _tears(path) if path in torn else None)
        return
    copied = file_copies._copy

    def copy(source: Path, target: Path) -> None:
        copied(source, target)
        if target in torn:
            held = bytearray(target.read_bytes())
            held[4096 * 5 : 4096 * 9] = bytes(4096 * 4)
            target.write_bytes(held)

    monkeypatch.setattr(file_copies, "_copy", copy)


def test_two_tills_at_once_both_make_sound_ones_and_thin_without_harm(
    desk: Desk, places: tuple[Path, Path]
) -> None:
    rounds = 2
    ready, failed = threading.Barrier(2), []

    def keep_up(who: str) -> None:
        with Shop.open(desk.where, clock=desk.clock, who=who) as shop:
            for _ in range(rounds):
                ready.wait()
                failed.extend(backup_places.keep_up(shop, at_once=True).failures)

    tills = [threading.Thread(target=keep_up, args=(who,)) for who in ("Ada", "Kit")]
    for till in tills:
        till.start()
    for till in tills:
        till.join()
    assert failed == []
    for place in backup_places.still_there(desk.shop.ask(backup_places.read)).places:
        there = {path for path in Path(place.folder).iterdir() if not path.name.startswith(".")}
        assert {each.path for each in place.files} == there
        assert 2 <= len(there) <= 3
        for path in there:
            backup.check(path, desk.clock())
    assert desk.shop.verify() == ()


def test_after_the_clock_was_set_back_the_newest_are_those_made_last(
    desk: Desk, places: tuple[Path, Path]
) -> None:
    """By their names the older ones look newer."""
    before = backup_places.keep_up(desk.shop).files
    desk.clock.go_on(days=-30)
    made = []
    for _ in range(2):
        made += backup_places.keep_up(desk.shop, at_once=True).files
        desk.clock.go_on(hours=25)
    assert all(each.exists() for each in made)
    assert not any(each.exists() for each in before)
    state = backup_places.still_there(desk.shop.ask(backup_places.read))
    assert state.warning(desk.clock()) == ""
