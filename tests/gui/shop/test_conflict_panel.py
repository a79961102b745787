"""Somebody else saved first: both versions are shown field by field, and nothing typed is dropped."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QRadioButton

from core.services.own_shop import settings_versions
from core.services.records_door import Shop
from core.store import current_settings
from gui.settings.backup_page import BackupPage
from gui.settings.people_page import PeoplePage
from gui.shop.backups.backups_chapter import BackupSlip
from gui.shop.conflict_panel import ConflictPanel
from gui.shop.own_shop_page import OwnShopPage
from gui.shop.page_sheet import PageSheet
from gui.shop.shop_screen import ShopScreen
from tests.gui.settings.opened_sheets import kept, opened, save
from tests.support.screens import Place, press, type_in, written


@pytest.fixture
def screen(place: Place) -> ShopScreen:
    return place.turn_to(ShopScreen)


@pytest.fixture
def sheet(place: Place, screen: ShopScreen) -> PageSheet:
    return opened(place, screen, "people_chapter")


def page(sheet: PageSheet) -> PeoplePage:
    assert isinstance(sheet.page, PeoplePage)
    return sheet.page


def elsewhere(place: Place, **changed: object) -> None:
    """Robin saves at another counter; this window has not heard of it."""
    with Shop.open(place.records.where, clock=place.records.clock, who="Robin") as other:
        settings = replace(other.ask(current_settings.read), **changed)  # type: ignore[arg-type]
        other.run(settings_versions.change, settings)


def retype(place: Place, sheet: PageSheet, people: str) -> None:
    field = page(sheet).at_once
    field.setFocus()
    field.selectAll()
    type_in(field, people)


def pick(sheet: PageSheet, name: str) -> None:
    button = sheet.findChild(QRadioButton, f"conflict-{name}")
    assert button is not None
    button.setFocus()
    press(Qt.Key.Key_Space)


def test_both_versions_are_shown_and_the_draft_stays(place: Place, sheet: PageSheet) -> None:
    retype(place, sheet, "5")
    elsewhere(place, people=4)
    save(place, page(sheet).at_once)
    assert kept(place).people == 4
    assert page(sheet).at_once.text() == "5"
    told = written(sheet.conflict)
    assert "The settings were changed meanwhile" in told
    assert "Robin: People at the bench at one time: 2 → 4" in told
    assert "People at the bench at one time: 2 → 5" in told
    assert not sheet.conflict.save.isEnabled(), "nobody picked yet"


@pytest.mark.parametrize(("side", "people"), [("theirs", 4), ("yours", 5)])
def test_the_version_that_is_picked_is_saved_with_all_that_only_one_changed(
    place: Place, sheet: PageSheet, side: str, people: int
) -> None:
    retype(place, sheet, "5")
    page(sheet).file_needed.click()
    elsewhere(place, people=4, lock_minutes=15)
    save(place, page(sheet).at_once)
    pick(sheet, f"work-people-{side}")
    sheet.conflict.save.click()
    place.settle()
    found = kept(place)
    assert (found.people, found.lock_minutes, found.file_for_ready) == (people, 15, True)
    assert "Saved." in place.told


def test_where_nothing_clashes_both_are_saved_by_one_key(place: Place, sheet: PageSheet) -> None:
    retype(place, sheet, "5")
    elsewhere(place, lock_minutes=15)
    save(place, page(sheet).at_once)
    assert "Nothing of it touches what you typed." in written(sheet.conflict)
    assert sheet.conflict.save.hasFocus()
    press(Qt.Key.Key_Space)
    place.settle()
    assert (kept(place).people, kept(place).lock_minutes) == (5, 15)


def test_whoever_keeps_typing_loses_nothing_and_is_asked_again(place: Place, sheet: PageSheet) -> None:
    retype(place, sheet, "5")
    elsewhere(place, people=4)
    save(place, page(sheet).at_once)
    sheet.conflict.leave.click()
    assert not sheet.conflict.isVisible()
    assert page(sheet).at_once.text() == "5"
    retype(place, sheet, "6")
    save(place, page(sheet).at_once)
    assert kept(place).people == 4
    assert "2 → 6" in written(sheet.conflict)


def test_a_third_counter_is_told_as_well(place: Place, sheet: PageSheet) -> None:
    retype(place, sheet, "5")
    elsewhere(place, people=4)
    save(place, page(sheet).at_once)
    pick(sheet, "work-people-yours")
    elsewhere(place, people=7)
    sheet.conflict.save.click()
    place.settle()
    assert kept(place).people == 7
    assert "4 → 7" in written(sheet.conflict)
    pick(sheet, "work-people-yours")
    sheet.conflict.save.click()
    place.settle()
    assert kept(place).people == 5


def test_a_sheet_that_is_built_anew_still_asks(place: Place, screen: ShopScreen, sheet: PageSheet) -> None:
    """The window hears of the other counter and shows the chapter again."""
    retype(place, sheet, "5")
    elsewhere(place, people=4)
    save(place, page(sheet).at_once)
    again = opened(place, screen, "people_chapter")
    assert page(again).at_once.text() == "5"
    assert again.conflict.isVisible()
    pick(again, "work-people-yours")
    again.conflict.save.click()
    place.settle()
    assert kept(place).people == 5


def test_the_pages_of_my_shop_ask_as_well(place: Place, screen: ShopScreen) -> None:
    screen.chapters.stand_on("own_shop")
    place.settle()
    (mine,) = screen.page.findChildren(OwnShopPage)
    field = mine.findChild(object, "front-phone")
    field.setText("(303) 555-0199")
    field.textEdited.emit(field.text())
    front = replace(kept(place).front, phone="(303) 555-0123")
    elsewhere(place, front=front)
    save(place, mine.save)
    assert field.text() == "(303) 555-0199"
    told = written(mine.conflict)
    assert "(303) 555-0123" in told
    assert "(303) 555-0199" in told


def test_the_page_of_backups_asks_as_well(place: Place, screen: ShopScreen) -> None:
    screen.chapters.stand_on("backups")
    place.settle()
    (slip,) = screen.page.findChildren(BackupSlip)
    assert isinstance(slip.page, BackupPage)
    slip.page.figures["keep"].setText("12")
    elsewhere(place, backup=replace(kept(place).backup, keep=20))
    save(place, slip.page.figures["keep"])
    assert slip.page.figures["keep"].text() == "12"
    assert slip.conflict.isVisible()
    slip.conflict.findChild(QRadioButton, "conflict-backup-keep-yours").click()
    slip.conflict.save.click()
    place.settle()
    assert kept(place).backup.keep == 12


def test_every_offer_says_whose_it_is_to_a_screen_reader(place: Place, sheet: PageSheet) -> None:
    retype(place, sheet, "5")
    elsewhere(place, people=4)
    save(place, page(sheet).at_once)
    (panel,) = sheet.findChildren(ConflictPanel)
    named = [each.accessibleName() for each in panel.findChildren(QRadioButton)]
    assert named == [
        "From Robin: People at the bench at one time: 2 → 4",
        "Yours: People at the bench at one time: 2 → 5",
    ]
