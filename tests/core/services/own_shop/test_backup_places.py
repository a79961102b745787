"""Backups go where the settings say, when they are due; the owner hears when there is no good one."""

from __future__ import annotations

import shutil
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from core.model.backup_records import BackupFile, BackupPlace, BackupState
from core.model.errors import Refused, Unavailable, WrongInput
from core.model.own_shop.settings_records import BackupPlan
from core.services import jobs
from core.services.own_shop import backup_places, shop_document, shop_settings
from core.services.records_door import Shop
from core.services.restoring import restored_shop
from core.store import current_settings
from core.store.shop_files import dump_files, file_copies
from core.store.sqlite_library import sqlite_module
from core.wording.locale_figures import moment
from core.wording.messages import say
from tests.support.booked import Desk, events


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    folder = tmp_path / "stick"
    folder.mkdir()
    return folder


@pytest.fixture
def attic(tmp_path: Path) -> Path:
    folder = tmp_path / "attic"
    folder.mkdir()
    return folder


NEWEST_ONLY = {"keep_days": 0, "keep_weeks": 0, "keep_years": 0}


def _settle(desk: Desk, **keys: object) -> None:
    desk.shop.run(shop_document.set_texts, [(f"backup.{key}", str(value)) for key, value in keys.items()])


def _state(desk: Desk) -> BackupState:
    return backup_places.still_there(desk.shop.ask(backup_places.read))


def _place(desk: Desk, folder: Path) -> BackupPlace:
    return next(each for each in _state(desk).places if each.folder == str(folder))


# --- the settings ------------------------------------------------------------------------


def test_no_place_is_set_at_first_and_nobody_is_told(desk: Desk) -> None:
    state = desk.shop.ask(backup_places.read)
    assert state.plan == BackupPlan("", "", 24, 72, 30)
    assert (state.places, state.warning(desk.clock())) == ((), "")
    came = backup_places.keep_up(desk.shop)
    assert (came.files, came.failures, came.warning) == ((), (), "")


def test_places_are_set_by_key_and_come_back_from_a_file(desk: Desk, stick: Path) -> None:
    _settle(desk, first=stick, second="D:\\Backup", every_hours=8, told_after_hours=30, keep=5)
    plan = desk.shop.ask(backup_places.read).plan
    assert plan == BackupPlan(str(stick), "D:\\Backup", 8, 30, 5)
    settings = desk.shop.ask(current_settings.read)
    assert shop_settings.loads(shop_settings.dump(settings)).backup == plan


@pytest.mark.parametrize(
    ("key", "typed", "accepted"),
    [
        ("first", "backup", say("files", "folder")),
        ("first", "../elsewhere", say("files", "folder")),
        ("second", "/safe/", say("files", "another-folder")),
        ("second", "/media/\x07stick", say("files", "one-line")),
        ("every_hours", "0", say("files", "from-1-to-720")),
        ("every_hours", "often", "number"),
        ("told_after_hours", "23", say("files", "from-every-hours", hours=24)),
        ("keep", "1", say("files", "from-2-to-1000")),
    ],
)
def test_what_cannot_be_is_refused_and_named(desk: Desk, key: str, typed: str, accepted: str) -> None:
    _settle(desk, first="/safe")
    before = desk.shop.ask(shop_document.read)
    with pytest.raises(WrongInput) as told:
        _settle(desk, **{key: typed})
    assert key in told.value.place
    assert accepted in told.value.sentence
    assert desk.shop.ask(shop_document.read) == before


# --- made when due -----------------------------------------------------------------------


def test_a_backup_is_made_in_both_places_and_again_when_it_is_due(
    desk: Desk, stick: Path, attic: Path
) -> None:
    _settle(desk, first=stick, second=attic)
    came = backup_places.keep_up(desk.shop)
    assert [each.parent for each in came.files] == [stick, attic]
    assert backup_places.keep_up(desk.shop).files == ()
    desk.clock.go_on(hours=23, minutes=59)
    assert backup_places.keep_up(desk.shop).files == ()
    desk.clock.go_on(minutes=1)
    assert len(backup_places.keep_up(desk.shop).files) == 2
    assert [len(place.files) for place in _state(desk).places] == [2, 2]


def test_what_was_made_stands_in_the_history_with_who_and_the_records_stay_sound(
    desk: Desk, stick: Path
) -> None:
    _settle(desk, first=stick)
    copy = backup_places.back_up(desk.shop, str(stick))
    (line,) = events(desk.shop, backup_places.KIND)
    assert (line.by, line.at) == ("Kim", desk.clock())
    assert copy.name in line.words
    assert str(stick) in line.words
    assert desk.shop.verify() == ()


def test_a_backup_made_by_the_plan_is_restored_whole(desk: Desk, stick: Path, tmp_path: Path) -> None:
    job = desk.book()
    _settle(desk, first=stick)
    (copy,) = backup_places.keep_up(desk.shop).files
    restored_shop.restore(tmp_path / "again.sqlite", copy, now=desk.clock(), who="counter")
    with Shop.open(tmp_path / "again.sqlite", create=False) as again:
        assert again.verify() == ()
        assert again.ask(jobs.get, job.number) == job


def test_a_backup_somebody_took_away_is_made_anew(desk: Desk, stick: Path) -> None:
    _settle(desk, first=stick)
    (copy,) = backup_places.keep_up(desk.shop).files
    copy.unlink()
    assert _place(desk, stick).last_good is None
    (again,) = backup_places.keep_up(desk.shop).files
    assert again.exists()


def test_a_backup_of_a_day_to_come_does_not_put_the_next_one_off(desk: Desk, stick: Path) -> None:
    _settle(desk, first=stick)
    desk.clock.go_on(days=400)  # a clock that was wrong
    backup_places.keep_up(desk.shop)
    desk.clock.go_on(days=-400)
    assert len(backup_places.keep_up(desk.shop).files) == 1


# --- a place out of reach, a full disk ---------------------------------------------------


def test_a_folder_that_is_gone_is_named_and_not_made_and_the_other_still_gets_its_copy(
    desk: Desk, stick: Path, attic: Path
) -> None:
    _settle(desk, first=stick, second=attic)
    shutil.rmtree(stick)
    came = backup_places.keep_up(desk.shop)
    ((folder, failure),) = came.failures
    assert (folder, type(failure)) == (str(stick), Unavailable)
    assert failure.sentence == say("settings", "backup-folder-gone", folder=stick)
    assert not stick.exists(), "under a disk that is not plugged in it would be the disk of the shop"
    assert [each.parent for each in came.files] == [attic]


def test_a_file_in_the_place_of_the_folder_is_named(desk: Desk, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(Unavailable, match="file"):
        backup_places.back_up(desk.shop, str(tmp_path / "file"))


def test_a_full_disk_is_named_leaves_no_half_copy_and_the_old_one_stands(
    desk: Desk, stick: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """SQLite's own answer for a file; the system's (ENOSPC, from /dev/full) for a dump."""
    _settle(desk, first=stick)
    (first,) = backup_places.keep_up(desk.shop).files
    desk.clock.go_on(hours=25)
    if desk.kind == "sqlite":
        monkeypatch.setattr(file_copies, "sqlite_module", lambda: _FullDisk())
    else:
        monkeypatch.setattr(dump_files, "write", _dump_on_full_disk)
    ((folder, failure),) = backup_places.keep_up(desk.shop).failures
    monkeypatch.undo()
    assert folder == str(stick)
    assert say("records", "disk_full", where=stick) in failure.sentence
    assert list(stick.iterdir()) == [first]
    assert _place(desk, stick).last_good == BackupFile(first, desk.clock() - timedelta(hours=25))


class _FullDisk:
    """SQLite on a disk with room for two pages more."""

    def __getattr__(self, name: str) -> Any:
        return getattr(sqlite_module(), name)

    def connect(self, place: str, **named: Any) -> Any:
        opened = sqlite_module().connect(place, **named)
        if place.endswith(".growing"):
            opened.execute("PRAGMA max_page_count = 2")
        return opened


def _dump_on_full_disk(*_: object) -> Path:
    with open("/dev/full", "w") as full:
        full.write("a line")
    raise AssertionError("there was room")


# --- told when none is good --------------------------------------------------------------


def test_the_owner_is_told_when_the_last_good_one_is_too_old(desk: Desk, stick: Path) -> None:
    _settle(desk, first=stick)
    backup_places.keep_up(desk.shop)
    made_at = desk.clock()
    desk.clock.go_on(hours=72)
    assert _state(desk).warning(desk.clock()) == ""
    desk.clock.go_on(minutes=1)
    told = say("settings", "backup-too-old", when=moment(made_at, "America/New_York"))
    assert _state(desk).warning(desk.clock()) == told
    shutil.rmtree(stick)
    assert backup_places.keep_up(desk.shop).warning == told
    stick.mkdir()
    assert backup_places.keep_up(desk.shop).warning == "", "a new one was made"


def test_the_owner_is_told_when_there_never_was_one(desk: Desk, tmp_path: Path) -> None:
    _settle(desk, first=tmp_path / "gone")
    assert backup_places.keep_up(desk.shop).warning == say("settings", "backup-never")


# --- rehearsed ---------------------------------------------------------------------------


def test_a_rehearsal_is_kept_with_its_moment(desk: Desk, stick: Path) -> None:
    desk.book()
    _settle(desk, first=stick)
    backup_places.keep_up(desk.shop)
    desk.clock.go_on(hours=1)
    found = backup_places.rehearse(desk.shop, str(stick))
    assert _place(desk, stick).last_checked == found
    assert (found.checked_at, found.problem) == (desk.clock(), "")


def test_a_backup_found_bad_is_no_good_one_and_a_new_one_is_due(desk: Desk, stick: Path) -> None:
    desk.book()
    _settle(desk, first=stick)
    (copy,) = backup_places.keep_up(desk.shop).files
    content = bytearray(copy.read_bytes())
    content[len(content) // 2 :] = b"\xa5" * (len(content) - len(content) // 2)
    copy.write_bytes(content)
    with pytest.raises(Refused) as told:
        backup_places.rehearse(desk.shop, str(stick))
    assert str(copy) in told.value.sentence
    place = _place(desk, stick)
    assert place.last_good is None
    assert place.last_checked is not None
    assert place.last_checked.problem
    assert len(backup_places.keep_up(desk.shop).files) == 1


def test_without_a_backup_there_is_nothing_to_rehearse(desk: Desk, stick: Path) -> None:
    _settle(desk, first=stick)
    with pytest.raises(Refused, match=str(stick)):
        backup_places.rehearse(desk.shop, str(stick))


# --- thinned -----------------------------------------------------------------------------


def _make(desk: Desk, count: int) -> list[Path]:
    made: list[Path] = []
    for _ in range(count):
        desk.clock.go_on(hours=25)
        made += backup_places.keep_up(desk.shop).files
    return made


def test_the_newest_few_are_kept_and_what_the_shop_did_not_make_is_left_alone(
    file_desk: Desk, stick: Path
) -> None:
    _settle(file_desk, first=stick, keep=3, **NEWEST_ONLY)
    other = stick / "shop-20200101-000000.sqlite"
    other.write_text("a copy of another shop")
    made = _make(file_desk, 6)
    assert sorted(stick.iterdir()) == sorted([other, *made[3:]])


def test_the_last_good_and_the_last_rehearsed_one_are_never_removed(file_desk: Desk, stick: Path) -> None:
    _settle(file_desk, first=stick, keep=2, **NEWEST_ONLY)
    (good,) = _make(file_desk, 1)
    backup_places.rehearse(file_desk.shop, str(stick))
    later = _make(file_desk, 4)
    assert sorted(stick.iterdir()) == sorted([good, *later[-2:]])


def test_the_last_good_one_outlives_bad_ones_that_are_newer(file_desk: Desk, stick: Path) -> None:
    _settle(file_desk, first=stick, keep=3, **NEWEST_ONLY)
    good, *bad = _make(file_desk, 3)
    _settle(file_desk, keep=2)
    for each in bad:
        said = ("bad", backup_places.CHECKED, str(stick), each.name, "bad")
        file_desk.shop.run(backup_places._note, *said)
    backup_places._thin(file_desk.shop, str(stick))
    assert good.exists()
