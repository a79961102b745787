"""Privacy in the window: the page is shown and printed, one customer is given out or erased."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from core.model.stations import Station
from core.services import jobs, payments
from core.services.own_shop import backup_places, shop_document
from core.services.privacy import kept_entries
from core.store import lookup
from core.store.unit import Unit
from core.wording.messages import say
from gui.shop.privacy.privacy_chapter import PrivacyChapter
from gui.shop.privacy.privacy_sheet import PrivacySheet
from gui.shop.shop_screen import ShopScreen
from tests.support.booked import line
from tests.support.named_everywhere import erase
from tests.support.screens import Place, press, written


@pytest.fixture
def screen(place: Place) -> ShopScreen:
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("privacy")
    place.settle()
    return shop


def sheet(screen: ShopScreen) -> PrivacySheet:
    return next(iter(screen.page.findChildren(PrivacySheet)))


def price_due(unit: Unit, number: str) -> int:
    return payments.price(unit, lookup.job_row(unit, number)).due.likely


def home_and_paid(place: Place) -> str:
    job = place.records.book(line(), name="Quillona Zebedee")
    place.records.bring_to(job.tapes[0], Station.READY)
    place.records.hand_back(job, paid_minor=place.records.shop.ask(price_due, job.number))
    return job.number


def test_the_page_says_what_is_kept(place: Place, screen: ShopScreen) -> None:
    told = written(screen.page)
    for name in kept_entries.KEPT:
        assert say("privacy", f"kept-{name}") in told


def test_the_page_is_printed(place: Place, screen: ShopScreen) -> None:
    press(Qt.Key.Key_F6)
    place.settle()
    assert [path.name for path in place.shown_files] == ["data-kept-2026-03-03.pdf"]


def test_erasing_takes_two_presses_and_says_who(place: Place, screen: ShopScreen) -> None:
    number = home_and_paid(place)
    there = sheet(screen)
    there.who.setText("Quillona Zebedee")
    assert not there.erase.isVisible()
    press(Qt.Key.Key_F8)
    place.settle()
    assert "Quillona Zebedee" in there.sure.text()
    assert number in there.sure.text()
    press(Qt.Key.Key_F8, Qt.KeyboardModifier.ShiftModifier)
    place.settle()
    assert place.records.shop.ask(jobs.get, number).customer.name == "(erased)"
    assert place.records.shop.verify() == ()


def test_another_name_typed_takes_the_second_press_away(place: Place, screen: ShopScreen) -> None:
    home_and_paid(place)
    there = sheet(screen)
    there.who.setText("Quillona Zebedee")
    press(Qt.Key.Key_F8)
    place.settle()
    assert there.erase.isVisible()
    there.who.textEdited.emit("Ada")
    assert not there.erase.isVisible()


def test_one_customer_is_saved_as_a_file(place: Place, screen: ShopScreen, tmp_path: Path) -> None:
    number = home_and_paid(place)
    chapter = screen.chapter("privacy")
    assert isinstance(chapter, PrivacyChapter)
    chapter.write_file(number, str(tmp_path / "her.json"))
    place.settle()
    assert json.loads((tmp_path / "her.json").read_bytes())["orders"] == [number]


def test_the_backups_are_made_anew_at_a_key(place: Place, screen: ShopScreen, tmp_path: Path) -> None:
    stick = tmp_path / "stick"
    stick.mkdir()
    shop = place.records.shop
    number = home_and_paid(place)
    shop.run(shop_document.set_texts, [("backup.first", str(stick))])
    (before,) = backup_places.keep_up(shop).files
    done = erase(shop, number)
    assert done.in_backups_until is not None
    press(Qt.Key.Key_F10)
    place.settle()
    assert say("privacy", "renewed", made=1, removed=1) in place.told
    assert not before.exists()
    assert len([*stick.glob("*.sqlite")]) == 1
    assert sheet(screen).renew.isEnabled()


def test_where_a_place_is_gone_it_is_told_and_nothing_is_called_done(
    place: Place, screen: ShopScreen, tmp_path: Path
) -> None:
    gone = tmp_path / "gone"
    place.records.shop.run(shop_document.set_texts, [("backup.first", str(gone))])
    press(Qt.Key.Key_F10)
    place.settle()
    assert str(gone) in place.told
    assert say("settings", "backup-folder-gone", folder=gone) in place.told


def test_nobody_gives_out_or_erases_without_the_right(
    place: Place, screen: ShopScreen, tmp_path: Path
) -> None:
    number = home_and_paid(place)
    owner = '{may = ["settings", "erase"]}'
    place.records.shop.run(shop_document.set_texts, [("person.Ada", owner), ("person.Kim", "{}")])
    told = "Kim may not export or erase a customer. Ada can; sign in as Ada."
    there = sheet(screen)
    there.who.setText(number)
    press(Qt.Key.Key_F8)
    place.settle()
    assert told in place.told
    assert not there.erase.isVisible()
    place.window.banner.say("")
    there.erase_wanted.emit(number)
    place.settle()
    assert told in place.told
    chapter = screen.chapter("privacy")
    assert isinstance(chapter, PrivacyChapter)
    place.window.banner.say("")
    chapter.write_file(number, str(tmp_path / "her.json"))
    place.settle()
    assert told in place.told
    assert not (tmp_path / "her.json").exists()
    assert place.records.shop.ask(jobs.get, number).customer.name == "Quillona Zebedee"
