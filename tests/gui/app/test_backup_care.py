"""The window makes what is due by itself, and tells on entering when there is no good backup."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.services.own_shop import backup_places, shop_document
from core.wording.locale_figures import moment
from core.wording.messages import say
from gui.app.backup_care import BackupCare
from tests.support.screens import Place


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    folder = tmp_path / "stick"
    folder.mkdir()
    return folder


@pytest.fixture
def care(place: Place) -> BackupCare:
    made = BackupCare(place.work, place.work)
    made.refused.connect(place.window.banner.refuse)
    return made


def _set(place: Place, **places: Path) -> None:
    typed = [(f"backup.{key}", str(folder)) for key, folder in places.items()]
    place.records.shop.run(shop_document.set_texts, typed)


def test_without_a_place_nothing_is_made_and_nothing_is_told(place: Place, care: BackupCare) -> None:
    care.begin()
    place.settle()
    assert place.told == ""


def test_a_backup_is_made_on_entering_and_when_it_is_due_and_nobody_is_disturbed(
    place: Place, care: BackupCare, stick: Path
) -> None:
    _set(place, first=stick)
    care.begin()
    place.settle()
    assert len(list(stick.iterdir())) == 1
    care.look_after()
    place.settle()
    assert len(list(stick.iterdir())) == 1
    place.records.clock.go_on(hours=24)
    care.look_after()
    place.settle()
    assert len(list(stick.iterdir())) == 2
    assert place.told == ""


def test_a_place_that_was_just_set_gets_its_backup_at_once(
    place: Place, care: BackupCare, stick: Path
) -> None:
    care.begin()
    _set(place, first=stick)
    place.work.changed.emit(frozenset({"shop"}))  # while the first round is still under way
    place.settle()
    assert len(list(stick.iterdir())) == 1


def test_on_entering_a_last_good_one_that_is_too_old_and_the_place_are_named(
    place: Place, care: BackupCare, stick: Path
) -> None:
    _set(place, first=stick)
    (copy,) = backup_places.keep_up(place.records.shop).files
    made_at = place.records.clock()
    place.records.clock.go_on(hours=73)
    stick.rename(stick.with_name("carried-away"))
    care.begin()
    place.settle()
    when = moment(made_at, "America/New_York")
    assert say("settings", "backup-too-old", when=when) in place.told
    assert say("settings", "backup-folder-gone", folder=stick) in place.told
    assert copy.parent == stick


def test_a_trouble_is_told_once_and_again_when_it_comes_back(
    place: Place, care: BackupCare, stick: Path
) -> None:
    _set(place, first=stick)
    backup_places.keep_up(place.records.shop)
    away = stick.with_name("carried-away")
    stick.rename(away)
    care.begin()
    place.settle()
    assert str(stick) in place.told
    place.window.banner.clear()
    care.look_after()
    place.settle()
    assert place.told == ""
    away.rename(stick)
    care.look_after()
    place.settle()
    stick.rename(away)
    care.look_after()
    place.settle()
    assert str(stick) in place.told


def test_a_clock_that_was_set_back_is_told_once_on_entering(place: Place, care: BackupCare) -> None:
    _set(place, first=Path("/nowhere-at-all"))
    place.records.clock.go_on(days=-1)
    care.begin()
    place.settle()
    assert "The clock of this computer says" in place.told
