"""The page on what people bring: a format added by keys, its machine checked, retired, removed."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QScrollArea

from core.catalogue.formats import catalogue
from core.model.names import FormatName
from core.services.own_shop import settings_versions
from gui.counter import accepted_words
from gui.settings.formats_page import FormatsPage
from gui.shop.page_sheet import PageSheet
from gui.shop.shop_screen import ShopScreen
from tests.gui.settings.opened_sheets import kept, opened, save
from tests.support.screens import Place, press, type_in, written


@pytest.fixture
def sheet(place: Place) -> PageSheet:
    return opened(place, place.turn_to(ShopScreen), "formats")


def page(sheet: PageSheet) -> FormatsPage:
    assert isinstance(sheet.page, FormatsPage)
    return sheet.page


def add(sheet: PageSheet, like: str, words: str) -> FormatsPage:
    at = page(sheet)
    at.like.setFocus()
    QTest.keyClicks(at.like, like)
    at.add.click()
    assert at.form.name.hasFocus()
    type_in(at.form.name, words)
    return at


def test_a_format_is_added_like_another_and_known_at_once(place: Place, sheet: PageSheet) -> None:
    at = add(sheet, "slides", "Glass plates")
    at.form.figure.setFocus()
    at.form.figure.selectAll()
    type_in(at.form.figure, "90")
    at.form.usual.selectAll()
    type_in(at.form.usual, "12, 24")
    at.form.machines.boxes["VHS 1"].click()
    save(place, page(sheet).like)

    (form,) = kept(place).formats
    assert (form.name, form.words) == ("glass-plates", "Glass plates")
    assert "glass-plates" in kept(place).decks[0].plays
    marking = catalogue().format("glass-plates").marking("12")
    assert marking is not None
    assert marking.minutes == pytest.approx(18)
    assert "Glass plates" in [choice.words for choice in accepted_words.formats_offered()]
    assert "formats" in kept(place).confirmed


def test_what_is_wrong_is_said_at_its_field(place: Place, sheet: PageSheet) -> None:
    at = add(sheet, "Super", "Sound film")
    at.form.figure.selectAll()
    type_in(at.form.figure, "many")
    save(place, page(sheet).like)

    assert kept(place).formats == ()
    assert "frames_per_foot" in written(place.window)
    assert at.form.figure.hasFocus()


def test_a_name_that_is_taken_is_refused(place: Place, sheet: PageSheet) -> None:
    add(sheet, "VHS", "minidv")
    save(place, page(sheet).like)

    assert kept(place).formats == ()
    assert "no other format" in written(place.window)


def test_a_retired_format_is_not_offered_and_keeps_its_words(place: Place, sheet: PageSheet) -> None:
    add(sheet, "VHS", "Wide VHS")
    save(place, page(sheet).like)
    again = page(opened(place, place.turn_to(ShopScreen), "formats"))
    again.form.retired.click()
    press(Qt.Key.Key_F6)
    place.settle()
    place.settle()

    assert "Wide VHS" not in [choice.words for choice in accepted_words.formats_offered()]
    assert catalogue().format("wide-vhs").words == "Wide VHS"


def test_removing_takes_it_from_the_machines_and_undo_brings_it_back(place: Place, sheet: PageSheet) -> None:
    at = add(sheet, "prints", "Postcards")
    at.form.machines.boxes["VHS 1"].click()
    save(place, page(sheet).like)
    again = page(opened(place, place.turn_to(ShopScreen), "formats"))
    again.form.remove.click()
    press(Qt.Key.Key_F6)
    place.settle()
    place.settle()
    assert kept(place).formats == ()
    assert "postcards" not in kept(place).decks[0].plays

    place.records.shop.run(settings_versions.undo)
    assert [form.words for form in kept(place).formats] == ["Postcards"]
    assert FormatName("postcards") in kept(place).decks[0].plays


def test_it_fits_a_window_of_640_pixels(place: Place, sheet: PageSheet) -> None:
    """1280 × 800 at 200 %."""
    add(sheet, "Super", "Sound film")
    place.window.resize(640, 400)
    place.settle()

    area = sheet.parentWidget()
    while area is not None and not isinstance(area, QScrollArea):
        area = area.parentWidget()
    assert isinstance(area, QScrollArea)
    assert sheet.mapTo(area, sheet.rect().topRight()).x() <= area.viewport().width()
