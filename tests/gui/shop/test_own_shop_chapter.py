"""My shop: shown, changed with a word on what that touches, saved, taken back; by keys."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import ShopSettings
from core.services import decks
from core.services.own_shop import settings_versions, shop_document
from gui.shop.own_shop_page import OwnShopPage
from gui.shop.shop_screen import ShopScreen
from tests.support.booked import OWN_NAME, line
from tests.support.screens import Place, press, type_in, written


@pytest.fixture
def screen(place: Place) -> ShopScreen:
    front = [("front.phone", "(303) 555-0100"), ("front.address", '["1 Elm Street"]')]
    place.records.shop.run(shop_document.set_texts, front)
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("own_shop")
    place.settle()
    return shop


def page(screen: ShopScreen) -> OwnShopPage:
    (found,) = screen.page.findChildren(OwnShopPage)
    return found


def field(screen: ShopScreen, name: str) -> object:
    return next(each for each in page(screen).findChildren(object) if each.objectName() == name)


def settings(place: Place) -> ShopSettings:
    return place.records.shop.ask(decks.settings)


def retype(widget: object, text: str) -> None:
    widget.setFocus()  # type: ignore[attr-defined]
    widget.selectAll()  # type: ignore[attr-defined]
    type_in(widget, text)  # type: ignore[arg-type]


def test_the_settings_stand_on_the_pages_and_nothing_changes_by_looking(
    place: Place, screen: ShopScreen
) -> None:
    assert field(screen, "front-name").text() == OWN_NAME
    assert "Nothing is changed." in written(screen.page)
    before = settings(place)
    press(Qt.Key.Key_F6)
    place.settle()
    assert settings(place) == before


def test_a_change_says_what_it_touches_and_is_saved_by_keys(place: Place, screen: ShopScreen) -> None:
    retype(field(screen, "front-name"), "The Second Reel")
    place.qtbot.waitUntil(lambda: "The Second Reel" in written(screen.page))
    told = written(screen.page)
    assert f"Name of the shop: {OWN_NAME} → The Second Reel" in told
    assert "What was quoted, promised and printed before stays as it was." in told
    press(Qt.Key.Key_F6)
    place.settle()
    assert settings(place).front.name == "The Second Reel"
    assert place.told.endswith("Saved.")
    assert f"Kim: Name of the shop: {OWN_NAME} → The Second Reel" in written(screen.page)


def test_promises_that_would_move_are_named_before_saving(place: Place, screen: ShopScreen) -> None:
    place.records.book(line(count=2))
    field(screen, "own-tab-hours").click()
    for number in range(5):
        retype(field(screen, f"hours-{number}"), "closed")
    place.qtbot.waitUntil(lambda: "Ada Fenwick" in written(screen.page))


def test_hours_are_changed_and_told_by_the_day(place: Place, screen: ShopScreen) -> None:
    field(screen, "own-tab-hours").click()
    assert field(screen, "hours-0").hasFocus()
    retype(field(screen, "hours-0"), "9-12:30, 13:30-18")
    place.qtbot.waitUntil(lambda: "Monday: 9:00 AM–6:00 PM → " in written(screen.page))
    press(Qt.Key.Key_F6)
    place.settle()
    monday = [(each.start, each.end) for each in settings(place).openings if each.weekday == 0]
    assert monday == [(540, 750), (810, 1080)]
    assert page(screen).tabs[1].isChecked()


def add_season(screen: ShopScreen, number: int, name: str, days: tuple[str, str], monday: str) -> None:
    """One more season, by keys from its name on."""
    field(screen, "hours-season-add").click()
    assert field(screen, f"hours-season-{number}-name").hasFocus()
    type_in(field(screen, f"hours-season-{number}-name"), name)
    for end, day in zip(("first", "last"), days, strict=True):
        retype(field(screen, f"hours-season-{number}-{end}"), day)
        press(Qt.Key.Key_Return)
    retype(field(screen, f"hours-season-{number}-0"), monday)


def seasons(place: Place) -> list[OpeningHours]:
    return [each for each in settings(place).openings if each.first]


def test_any_number_of_seasons_is_added_named_and_removed(place: Place, screen: ShopScreen) -> None:
    field(screen, "own-tab-hours").click()
    add_season(screen, 1, "Summer", ("Jun 15", "Aug 31"), "8-13")
    add_season(screen, 2, "", ("Dec 1", "Jan 6"), "9-12:30, 13:30-20")
    told = "Other hours Summer, Jun 15–Aug 31: Monday 8:00 AM–1:00 PM"
    place.qtbot.waitUntil(lambda: told in written(screen.page))
    press(Qt.Key.Key_F6)
    place.settle()
    summer = OpeningHours(0, 480, 780, "06-15", "08-31", "Summer")
    christmas = [OpeningHours(0, start, end, "12-01", "01-06") for start, end in ((540, 750), (810, 1200))]
    assert seasons(place) == [summer, *christmas]
    assert field(screen, "hours-season-1-name").text() == "Summer"
    listed = field(screen, "hours-seasons")
    assert [(each.title, each.place) for each in listed.pieces] == [
        ("Summer", "Jun 15–Aug 31"),
        ("Other hours", "Dec 1–Jan 6"),
    ]
    listed.setFocus()
    press(Qt.Key.Key_Delete)
    removed = "No other hours Summer, Jun 15–Aug 31 anymore"
    place.qtbot.waitUntil(lambda: removed in written(screen.page))
    press(Qt.Key.Key_F6)
    place.settle()
    assert seasons(place) == christmas


def test_what_does_not_fit_in_a_season_is_shown_though_another_one_is_looked_at(
    place: Place, screen: ShopScreen
) -> None:
    field(screen, "own-tab-hours").click()
    add_season(screen, 1, "Summer", ("Jun 15", "Aug 31"), "8-7")
    add_season(screen, 2, "Winter", ("Dec 1", "Jan 6"), "9-12")
    press(Qt.Key.Key_F6)
    place.settle()
    assert "Monday: found '8-7'; hours like" in place.told
    assert field(screen, "hours-season-1-0").hasFocus()
    assert seasons(place) == []


def test_what_does_not_fit_is_told_where_it_stands_and_nothing_is_saved(
    place: Place, screen: ShopScreen
) -> None:
    before = settings(place)
    field(screen, "own-tab-hours").click()
    retype(field(screen, "hours-0"), "9-6")
    field(screen, "own-tab-front").click()
    press(Qt.Key.Key_F6)
    place.settle()
    assert "Monday: found '9-6'; hours like" in place.told
    assert field(screen, "hours-0").hasFocus()
    assert settings(place) == before


def test_typing_is_never_interrupted_by_what_is_not_finished(place: Place, screen: ShopScreen) -> None:
    retype(field(screen, "front-country"), "Germa")
    place.qtbot.waitUntil(lambda: "Country: found 'Germa'" in written(screen.page))
    assert field(screen, "front-country").hasFocus()
    assert field(screen, "front-country").text() == "Germa"


def test_a_country_fills_in_what_nobody_typed(place: Place, screen: ShopScreen) -> None:
    retype(field(screen, "front-country"), "Germa")
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_F6)
    place.settle()
    found = settings(place)
    assert (found.front.country, found.front.timezone, found.front.language) == (
        "DE",
        "Europe/Berlin",
        "en-DE",
    )
    assert (found.front.paper, found.holiday_country) == ("a4", "DE")


def test_what_was_typed_by_hand_stays_when_the_country_changes(place: Place, screen: ShopScreen) -> None:
    retype(field(screen, "front-timezone"), "America/Chicago")
    press(Qt.Key.Key_Return)
    retype(field(screen, "front-country"), "Canada")
    press(Qt.Key.Key_Return)
    assert field(screen, "front-timezone").text() == "America/Chicago"
    assert field(screen, "front-language").text() == "English (Canada)"


def test_the_last_change_is_taken_back(place: Place, screen: ShopScreen) -> None:
    retype(field(screen, "front-greeting"), "Hello")
    press(Qt.Key.Key_F6)
    place.settle()
    assert settings(place).front.greeting == "Hello"
    press(Qt.Key.Key_F7)
    place.settle()
    assert settings(place).front.greeting == ""
    assert "taken back" in written(screen.page)


def test_what_is_not_saved_waits_while_another_chapter_is_open(place: Place, screen: ShopScreen) -> None:
    retype(field(screen, "front-closing"), "Come again")
    place.qtbot.waitUntil(lambda: "Come again" in written(screen.page))
    screen.chapters.stand_on("week")
    place.settle()
    screen.chapters.stand_on("own_shop")
    place.settle()
    assert field(screen, "front-closing").text() == "Come again"
    assert settings(place).front.closing == ""


def test_a_change_by_somebody_else_is_told_and_nothing_is_lost(place: Place, screen: ShopScreen) -> None:
    retype(field(screen, "front-greeting"), "Hello")
    other = settings(place)
    place.records.shop.run(
        settings_versions.change, replace(other, front=replace(other.front, closing="Theirs"))
    )
    press(Qt.Key.Key_F6)
    place.settle()
    assert "changed the settings while you were at it" in place.told
    assert settings(place).front.closing == "Theirs"
    assert settings(place).front.greeting == ""
    assert field(screen, "front-greeting").text() == "Hello"
    page(screen).conflict.save.click()
    place.settle()
    assert (settings(place).front.closing, settings(place).front.greeting) == ("Theirs", "Hello")


def test_a_test_print_is_made_and_shown(place: Place, screen: ShopScreen) -> None:
    field(screen, "own-tab-papers").click()
    field(screen, "papers-test").click()
    place.settle()
    box = field(screen, "papers-claim_slip_on")
    assert not field(screen, "papers-roll-test").isVisible()
    box.setCurrentIndex(box.findData("roll"))
    field(screen, "papers-roll-test").click()
    place.settle()
    assert [path.name for path in place.shown_files] == ["label-test.pdf", "roll-test.pdf"]
    assert place.shown_files[0].read_bytes().startswith(b"%PDF")
