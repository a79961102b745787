"""The page of the decks by keys: kinds added, fields changed, decks renamed, retired and removed."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Outage
from core.model.own_shop.setup_pages import SetupPage
from core.services import decks
from core.services.own_shop import settings_versions, shop_document
from gui.settings.decks_page import DecksPage
from gui.shop.page_sheet import PageSheet
from gui.shop.shop_screen import ShopScreen
from tests.gui.settings.opened_sheets import kept, opened, save
from tests.support.booked import line
from tests.support.screens import Place, press, type_in, written


@pytest.fixture
def sheet(place: Place) -> PageSheet:
    return opened(place, place.turn_to(ShopScreen), "decks")


def page(sheet: PageSheet) -> DecksPage:
    assert isinstance(sheet.page, DecksPage)
    return sheet.page


def test_decks_of_a_kind_are_added_by_keys_and_saved(place: Place, sheet: PageSheet) -> None:
    at = page(sheet)
    at.kind.setFocus()
    QTest.keyClicks(at.kind, "Betamax")
    at.how_many.setFocus()
    at.how_many.selectAll()
    type_in(at.how_many, "2", enter=True)
    assert at.kind.hasFocus()
    assert [row.title for row in at.tray.pieces][-2:] == ["Betamax 1", "Betamax 2"]
    save(place, page(sheet).kind)
    one, two = kept(place).decks[-2:]
    assert (one.name, two.name) == ("Betamax 1", "Betamax 2")
    assert replace(one, name=two.name) == two
    assert (one.plays, one.tv, one.speeds) == ({"betamax"}, {"ntsc"}, {"b1", "b2", "b3"})
    assert "decks" in kept(place).confirmed


@pytest.mark.parametrize("typed", ["0", "21", "2.5", "some", ""])
def test_a_number_of_decks_that_cannot_be_adds_none(sheet: PageSheet, typed: str) -> None:
    at = page(sheet)
    before = at.tray.pieces
    at.how_many.setText(typed)
    at.add.click()
    assert at.tray.pieces == before
    assert "How many: found" in written(at) or "How many" in written(at)
    assert at.how_many.property("wrong")


def test_every_field_of_a_deck_can_be_changed(place: Place, sheet: PageSheet) -> None:
    at = page(sheet)
    at.tray.stand_on(at.tray.pieces[1].key)
    form = at.form
    assert form.name.text() == "VHS 2"
    form.name.selectAll()
    type_in(form.name, "The old one")
    for box in (
        form.plays.boxes["s-vhs"],
        form.plays.boxes["vhs-c"],
        form.tv.boxes["pal"],
        form.speeds.boxes["ep"],
        form.in_service,
    ):
        box.setFocus()
        press(Qt.Key.Key_Space)
    save(place, page(sheet).kind)
    changed = kept(place).decks[1]
    assert changed.name == "The old one"
    assert changed.formerly == ("VHS 2",)
    assert changed.plays == {"vhs", "s-vhs"}
    assert (changed.tv, changed.speeds) == ({"ntsc", "pal"}, {"sp", "lp"})
    assert not changed.in_service


def test_two_decks_may_swap_their_names(place: Place, sheet: PageSheet) -> None:
    day = place.records.clock().date() + timedelta(days=3)
    place.records.shop.run(decks.plan_outage, Outage("VHS 1", day, day))
    screen = place.window.screen_named("shop")
    assert isinstance(screen, ShopScreen)
    sheet = opened(place, screen, "decks")
    at = page(sheet)
    for number, name in ((0, "VHS 2"), (1, "VHS 1")):
        at.tray.stand_on(at.tray.pieces[number].key)
        at.form.name.selectAll()
        type_in(at.form.name, name)
    save(place, page(sheet).kind)
    assert [deck.name for deck in kept(place).decks[:2]] == ["VHS 2", "VHS 1"]
    assert [each.deck for each in kept(place).outages] == ["VHS 2"]


def test_a_retired_deck_stays_on_the_page_and_comes_back_into_service(place: Place, sheet: PageSheet) -> None:
    at = page(sheet)
    at.form.retired.click()
    assert at.tray.pieces[0].place == "retired"
    save(place, page(sheet).kind)
    assert kept(place).decks[0].retired
    at = page(next(iter(place.window.findChildren(PageSheet))))
    at.form.retired.click()
    assert at.tray.pieces[0].place == "in service"
    save(place, next(iter(place.window.findChildren(PageSheet))))
    assert kept(place).decks[0].in_service


def test_delete_takes_a_deck_off_the_list(place: Place, sheet: PageSheet) -> None:
    at = page(sheet)
    at.tray.setFocus()
    at.tray.stand_on(at.tray.pieces[2].key)
    press(Qt.Key.Key_Delete)
    assert "S-VHS" not in [row.title for row in at.tray.pieces]
    save(place, page(sheet).kind)
    assert "S-VHS" not in {deck.name for deck in kept(place).decks}


def test_planned_outages_are_told(place: Place) -> None:
    day = place.records.clock().date() + timedelta(days=3)
    place.records.shop.run(decks.plan_outage, Outage("VHS 1", day, day))
    at = page(opened(place, place.turn_to(ShopScreen), "decks"))
    assert "Out of service by plan on Friday, March 6" in written(at.form)


def test_what_would_move_is_told_before_it_is_saved(place: Place) -> None:
    job = place.records.book(line(count=8), line(format="video8", marking="P6-120"))
    sheet = opened(place, place.turn_to(ShopScreen), "decks")
    at = page(sheet)
    before = kept(place)
    at.tray.stand_on(at.tray.pieces[3].key)
    at.form.retired.click()
    place.qtbot.waitUntil(lambda: f"Order {job.number}" in sheet.effects.text())
    assert "no deck would be left for 1 of its tapes" in sheet.effects.text()
    assert kept(place) == before


def test_a_name_twice_is_told_with_the_keyboard_at_the_field(place: Place, sheet: PageSheet) -> None:
    at = page(sheet)
    before = kept(place)
    at.tray.stand_on(at.tray.pieces[1].key)
    at.form.name.selectAll()
    type_in(at.form.name, "VHS 1")
    at.tray.stand_on_first()
    save(place, page(sheet).kind)
    assert "deck 2, name: found 'VHS 1'" in place.told
    assert at.form.name.hasFocus()
    assert at.form.name.text() == "VHS 1"
    assert at.tray.current == at.tray.pieces[1].key
    assert kept(place) == before


def test_what_was_typed_is_still_there_after_another_chapter(place: Place, sheet: PageSheet) -> None:
    at = page(sheet)
    at.form.name.selectAll()
    type_in(at.form.name, "Front desk")
    place.qtbot.waitUntil(lambda: "Front desk" in sheet.touched.text())
    screen = place.window.screen_named("shop")
    assert isinstance(screen, ShopScreen)
    again = opened(place, screen, "decks")
    assert page(again).form.name.text() == "Front desk"
    save(place, again)
    assert kept(place).decks[0].formerly == ("VHS 1",)


def test_two_owners_do_not_overwrite_each_other(place: Place, sheet: PageSheet) -> None:
    at = page(sheet)
    at.form.name.selectAll()
    type_in(at.form.name, "Front desk")
    place.records.shop.run(shop_document.set_texts, [("work.people", "4")])
    save(place, page(sheet).kind)
    assert "changed the settings while you were at it" in place.told
    assert kept(place).decks[0].name == "VHS 1"


def test_the_last_change_is_taken_back_by_a_key(place: Place, sheet: PageSheet) -> None:
    page(sheet).form.in_service.setFocus()
    before = kept(place)
    page(sheet).form.name.selectAll()
    type_in(page(sheet).form.name, "Front desk")
    save(place, page(sheet).kind)
    again = next(iter(place.window.findChildren(PageSheet)))
    page(again).kind.setFocus()
    press(Qt.Key.Key_F7)
    place.settle()
    assert kept(place).decks == before.decks
    assert place.records.shop.ask(settings_versions.versions)[0].undoes is not None


def test_a_page_shown_and_left_alone_changes_nothing(place: Place, sheet: PageSheet) -> None:
    assert page(sheet).settings(kept(place)) == kept(place)
    assert page(sheet).page is SetupPage.DECKS


def test_a_deck_needs_a_name(place: Place, sheet: PageSheet) -> None:
    form = page(sheet).form
    form.name.selectAll()
    type_in(form.name, " ")
    with pytest.raises(WrongInput, match="deck 1, name"):
        page(sheet).settings(kept(place))
    assert form.name.hasFocus()
