"""Where backups go, how often, and when the owner is told, set by keys; a wrong one is said at its field."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog

from core.model.own_shop.settings_records import BackupPlan
from core.services.own_shop import backup_key, shop_document
from core.store import current_settings
from gui.settings.backup_page import BackupPage
from gui.shop.shop_screen import ShopScreen
from tests.support import pdf
from tests.support.screens import Place, press, type_in


@pytest.fixture
def page(place: Place) -> BackupPage:
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("backups")
    place.settle()
    return next(iter(shop.page.findChildren(BackupPage)))


def _plan(place: Place) -> BackupPlan:
    return place.records.shop.ask(current_settings.read).backup


def test_it_shows_what_holds(page: BackupPage) -> None:
    assert [field.text() for field in page.folders.values()] == ["", ""]
    assert [field.text() for field in page.figures.values()] == ["24", "72", "30", "14", "8", "10"]
    assert len(page.paths) == len(BackupPlan.__dataclass_fields__)


def test_places_and_figures_are_set_by_keys_and_confirm_the_page(
    place: Place, page: BackupPage, tmp_path: Path
) -> None:
    page.focus_first()
    type_in(page.folders["first"], str(tmp_path))
    press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Tab)
    assert page.folders["second"].hasFocus()
    type_in(page.folders["second"], "/media/at-home")
    page.figures["keep"].setText("12")
    press(Qt.Key.Key_F6)
    place.settle()
    assert _plan(place) == BackupPlan(str(tmp_path), "/media/at-home", 24, 72, 12)
    assert "backup" in place.records.shop.ask(current_settings.read).confirmed


def _made(place: Place, page: BackupPage) -> str:
    """A new key, asked for at its button."""
    page.new_key.click()
    place.settle()
    return next(word for word in page.shown_key.text().split() if word.startswith("AGE-SECRET-KEY-1"))


def test_a_new_key_is_put_on_paper_and_shown_before_it_is_saved_and_only_its_public_half_is_kept(
    place: Place, page: BackupPage, tmp_path: Path
) -> None:
    assert not page.shown_key.isVisible()
    key = _made(place, page)
    (paper,) = place.shown_files
    sheet = paper.read_bytes()
    assert ("QRCode", key) in pdf.scanned(sheet)
    assert key in pdf.words(sheet).replace(" ", "")
    assert paper.parent.stat().st_mode & 0o077 == 0
    assert paper.parent != place.desk.papers
    assert page.shown_key.isVisible()
    assert page.shown_key.textFormat() == Qt.TextFormat.PlainText
    public = page.lock.text()
    press(Qt.Key.Key_F6)
    place.settle()
    assert _plan(place).lock == public
    assert not paper.parent.exists(), "the paper is printed; nothing readable is left on this computer"
    for kept in (*tmp_path.rglob("*"), Path(place.records.where)):
        assert not kept.is_file() or key.encode() not in kept.read_bytes()
    assert key not in place.records.shop.ask(shop_document.export)


def test_a_key_that_cannot_be_put_on_paper_locks_nothing(
    place: Place, page: BackupPage, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Seen red where the field was filled in before the paper was written."""

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(backup_key, "written", full)
    page.new_key.click()
    place.settle()
    assert "No space left" in place.told
    assert (page.lock.text(), page.shown_key.isVisible()) == ("", False)


def test_whoever_leaves_without_saving_locks_nothing(place: Place, page: BackupPage) -> None:
    _made(place, page)
    (paper,) = place.shown_files
    page.hide()
    assert (page.lock.text(), page.shown_key.text()) == ("", "")
    assert not paper.exists()
    page.show()
    assert not page.shown_key.isVisible()


@pytest.mark.parametrize(
    ("key", "typed", "told"),
    [
        ("first", "Desktop", "First folder"),
        ("second", "/safe", "Second folder"),
        ("every_hours", "now and then", "Hours between backups"),
        ("every_hours", "1.5", "Hours between backups"),
        ("told_after_hours", "3", "Hours until you are told"),
        ("keep", "", "Backups kept"),
    ],
)
def test_what_cannot_be_is_said_at_its_field_and_changes_nothing(
    place: Place, page: BackupPage, key: str, typed: str, told: str
) -> None:
    page.folders["first"].setText("/safe")
    field = {**page.folders, **page.figures}[key]
    field.setText(typed)
    page.folders["first"].setFocus()
    press(Qt.Key.Key_F6)
    place.settle()
    assert told in place.told
    assert field.hasFocus()
    assert field.property("wrong")
    assert field.text() == typed
    assert _plan(place) == BackupPlan()
    field.setText("/other")
    assert not field.property("wrong")


def test_a_folder_is_chosen_in_the_systems_dialog(page: BackupPage, tmp_path: Path) -> None:
    page.choose["second"].click()
    dialog = next(iter(page.findChildren(QFileDialog)))
    dialog.fileSelected.emit(str(tmp_path))
    dialog.reject()
    assert page.folders["second"].text() == str(tmp_path)
    assert page.folders["first"].text() == ""
