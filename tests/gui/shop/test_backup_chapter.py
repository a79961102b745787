"""What the backup folders hold; a backup and a rehearsal at a key."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from core.model.own_shop.settings_records import BackupPlan
from core.services.own_shop import backup_key, backup_places, shop_document
from core.services.own_shop.backup_key import BackupKey
from core.store import current_settings
from gui.settings.backup_page import BackupPage
from gui.shop.backups.backups_chapter import BackupSlip
from gui.shop.backups.unlock_panel import UnlockPanel
from gui.shop.shop_screen import ShopScreen
from gui.toolkit.text import moment, say
from tests.support.screens import Place, press, written

NEW_YORK = "America/New_York"


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    folder = tmp_path / "stick"
    folder.mkdir()
    return folder


def _opened(place: Place) -> ShopScreen:
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("backups")
    place.settle()
    shop.page.findChildren(QPushButton)[-1].setFocus()
    return shop


def _set(place: Place, **places: Path) -> None:
    typed = [(f"backup.{key}", str(folder)) for key, folder in places.items()]
    place.records.shop.run(shop_document.set_texts, typed)


def test_without_a_place_it_says_so_and_offers_no_backup(place: Place) -> None:
    shop = _opened(place)
    assert say("settings", "backup-no-place") in written(shop.page)
    assert say("settings", "backup-advice") in written(shop.page)
    assert not shop.page.findChild(QPushButton, "backup-now").isEnabled()


def test_a_backup_is_made_and_tried_out_at_a_key_and_told_with_its_moment(place: Place, stick: Path) -> None:
    _set(place, first=stick)
    shop = _opened(place)
    assert say("settings", "backup-none-made") in written(shop.page)
    press(Qt.Key.Key_F8)
    place.settle()
    assert say("settings", "backup-made-now", n=1) in place.told
    (copy,) = stick.iterdir()
    now = moment(place.records.clock(), NEW_YORK)
    assert say("settings", "backup-last-made", when=now) in written(shop.page)
    assert say("settings", "backup-not-tried") in written(shop.page)
    press(Qt.Key.Key_F8, Qt.KeyboardModifier.ShiftModifier)
    place.settle()
    assert say("settings", "backup-tried-good", when=now, file=copy.name) in written(shop.page)


def test_what_is_typed_stays_when_the_page_is_built_anew(place: Place) -> None:
    """Also what does not fit. Seen red: the fields were filled from the records."""
    shop = _opened(place)
    _page(shop).figures["keep"].setText("twelve")
    _page(shop).folders["first"].setText("/somewhere")
    place.records.shop.run(shop_document.set_texts, [("work.people", "5"), ("backup.keep_days", "9")])
    for chapter in ("kept", "backups"):
        shop.chapters.stand_on(chapter)
        place.settle()
    page = _page(shop)
    assert page.figures["keep"].text() == "twelve"
    assert page.folders["first"].text() == "/somewhere"
    page.figures["keep"].setText("12")
    page.folders["first"].setText("")
    page.setFocus()
    page.focus_first()
    press(Qt.Key.Key_F6)
    place.settle()
    (slip,) = shop.page.findChildren(BackupSlip)
    slip.conflict.save.click()
    place.settle()
    kept = place.records.shop.ask(current_settings.read)
    assert (kept.backup.keep, kept.backup.keep_days, kept.people) == (12, 9, 5)
    assert _page(shop).figures["keep_days"].text() == "9", "it is in force: nothing is typed any more"


def test_a_key_that_nobody_saved_is_not_kept_as_typed(place: Place) -> None:
    shop = _opened(place)
    _page(shop).show_key(backup_key.new())
    for chapter in ("kept", "backups"):
        shop.chapters.stand_on(chapter)
        place.settle()
    assert _page(shop).lock.text() == ""


def _page(shop: ShopScreen) -> BackupPage:
    (slip,) = shop.page.findChildren(BackupSlip)
    assert isinstance(slip.page, BackupPage)
    return slip.page


def test_a_place_out_of_reach_is_named_and_the_other_gets_its_copy(place: Place, stick: Path) -> None:
    gone = stick.parent / "gone"
    _set(place, first=gone, second=stick)
    shop = _opened(place)
    assert say("settings", "backup-folder-gone", folder=gone) in written(shop.page)
    press(Qt.Key.Key_F8)
    place.settle()
    assert str(gone) in place.told
    assert len(list(stick.iterdir())) == 1
    assert shop.page.findChild(QPushButton, "backup-now").isEnabled()


def test_a_bad_backup_is_told_in_the_banner_and_on_the_page(place: Place, stick: Path) -> None:
    _set(place, first=stick)
    (copy,) = backup_places.keep_up(place.records.shop).files
    copy.write_bytes(copy.read_bytes()[:5000])
    shop = _opened(place)
    press(Qt.Key.Key_F8, Qt.KeyboardModifier.ShiftModifier)
    place.settle()
    assert str(copy) in place.told
    assert say("settings", "backup-never") in written(shop.page)


def test_a_change_is_undone_at_a_key(place: Place, stick: Path) -> None:
    _set(place, first=stick)
    _opened(place)
    press(Qt.Key.Key_F7)
    place.settle()
    assert place.records.shop.ask(current_settings.read).backup == BackupPlan()


def test_a_backup_made_meanwhile_is_shown_and_what_was_typed_stays(place: Place, stick: Path) -> None:
    _set(place, first=stick)
    shop = _opened(place)
    field = shop.page.findChild(object, "backup-second")
    field.setText("/media/typed")
    backup_places.keep_up(place.records.shop)
    place.work.changed.emit(frozenset({"backups"}))
    place.settle()
    assert say("settings", "backup-kept", n=1) in written(shop.page)
    assert field.text() == "/media/typed"
    shutil.rmtree(stick)


# --- locked ones -------------------------------------------------------------------------


@pytest.fixture
def locked(place: Place, stick: Path) -> BackupKey:
    """The key of the one backup there is."""
    made = backup_key.new()
    _set(place, first=stick)
    place.records.shop.run(shop_document.set_texts, [("backup.lock", made.public_key)])
    backup_places.keep_up(place.records.shop)
    return made


def _asked(place: Place) -> UnlockPanel:
    """Tried out at its key, until the key of the backup is asked for."""
    shop = _opened(place)
    (panel,) = shop.page.findChildren(UnlockPanel)
    assert not panel.isVisible()
    press(Qt.Key.Key_F8, Qt.KeyboardModifier.ShiftModifier)
    place.settle()
    assert panel.isVisible()
    assert panel.field.hasFocus()
    assert panel.field.echoMode() is panel.field.EchoMode.Password
    return panel


def test_a_locked_one_is_tried_out_with_the_key_typed_in_groups(place: Place, locked: BackupKey) -> None:
    panel = _asked(place)
    panel.field.setText(" ".join(locked.key[at : at + 6] for at in range(0, len(locked.key), 6)))
    press(Qt.Key.Key_Return)
    place.settle()
    assert say("settings", "backup-tried-now", n=1) in place.told
    assert not panel.isVisible()
    assert panel.field.text() == ""


def test_another_key_is_refused_without_being_repeated_and_asked_for_again(
    place: Place, locked: BackupKey, tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    panel = _asked(place)
    wrong = backup_key.new().key
    panel.field.setText(wrong)
    panel.unlock.click()
    place.settle()
    assert say("records", "other_key_accepted") in place.told
    assert wrong not in place.told
    assert panel.isVisible()
    assert panel.field.selectedText()
    panel.field.setText(locked.key)
    panel.unlock.click()
    place.settle()
    assert not panel.isVisible()
    assert locked.key not in caplog.text
    for kept in tmp_path.rglob("*"):
        assert not kept.is_file() or locked.key.encode() not in kept.read_bytes()
    assert locked.key not in place.records.shop.ask(shop_document.export)


def test_the_key_comes_out_of_a_file_with_its_remarks(
    place: Place, locked: BackupKey, tmp_path: Path
) -> None:
    panel = _asked(place)
    panel.take_file(str(tmp_path))
    assert say("records", "key_file_accepted") in place.told
    file = tmp_path / "key.txt"
    file.write_text(f"# created: 2026-03-03\n# public key: {locked.public_key}\n{locked.key}\n")
    panel.take_file(str(file))
    place.settle()
    assert say("settings", "backup-tried-now", n=1) in place.told
