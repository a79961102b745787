"""The page of the outside partners by keys: entered, put first, gone again; their words reach the quote."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from core.model.own_shop.settings_records import Partner
from gui.settings.partners_page import PartnersPage
from gui.shop.page_sheet import PageSheet
from gui.shop.shop_screen import ShopScreen
from tests.gui.settings.opened_sheets import kept, opened
from tests.support.booked import line, quoted
from tests.support.screens import Place, press, press_text, type_in


@pytest.fixture
def sheet(place: Place) -> PageSheet:
    return opened(place, place.turn_to(ShopScreen), "partners")


def page(sheet: PageSheet) -> PartnersPage:
    assert isinstance(sheet.page, PartnersPage)
    return sheet.page


def add(sheet: PageSheet, name: str, price: str, formats: tuple[str, ...]) -> None:
    """One more partner; the keyboard goes on to the price."""
    page(sheet).new_name.setFocus()
    type_in(page(sheet).new_name, name, enter=True)
    assert page(sheet).form.price.hasFocus()
    press_text(price)
    for each in formats:
        page(sheet).form.formats.boxes[each].setFocus()
        press(Qt.Key.Key_Space)


def save(place: Place) -> PageSheet:
    press(Qt.Key.Key_F6)
    place.settle()
    place.settle()
    return next(iter(place.window.findChildren(PageSheet)))


def test_a_partner_is_entered_by_keys_and_named_in_the_next_quote(place: Place, sheet: PageSheet) -> None:
    add(sheet, "Elm Street Film Lab", "from $40 a tape", ("betamax",))
    place.qtbot.waitUntil(lambda: "New partner Elm Street Film Lab: Betamax" in sheet.touched.text())
    save(place)
    assert kept(place).partners == (
        Partner("Elm Street Film Lab", frozenset({"betamax"}), "from $40 a tape", 14),
    )
    told = (
        quoted(place.records.shop, line(format="betamax", marking="L-500", speed=None))
        .tapes[0]
        .verdict.elsewhere
    )
    assert told is not None
    assert (told.partner, told.price, told.days) == ("Elm Street Film Lab", "from $40 a tape", 14)


def test_the_one_further_up_is_named_and_one_is_removed(place: Place, sheet: PageSheet) -> None:
    add(sheet, "First", "$40", ("betamax",))
    add(sheet, "Second", "$30", ("betamax",))
    assert page(sheet).form.raise_it.isEnabled()
    page(sheet).form.raise_it.click()
    assert not page(sheet).form.raise_it.isEnabled()
    again = save(place)
    assert [each.name for each in kept(place).partners] == ["Second", "First"]
    page(again).tray.setFocus()
    press(Qt.Key.Key_Delete)
    save(place)
    assert [each.name for each in kept(place).partners] == ["First"]


@pytest.mark.parametrize(
    ("formats", "days", "sentence", "field"),
    [
        ((), "14", "Partner Lab, copies: nothing was entered", "partner-formats-"),
        (
            ("betamax",),
            "a week",
            "Partner Lab, days: found 'a week'; a whole number from 1 to 365",
            "partner-days",
        ),
        (("betamax",), "400", "Partner Lab, days: found 400; a whole number from 1 to 365", "partner-days"),
    ],
)
def test_what_does_not_fit_is_told_by_the_name_and_nothing_is_kept(
    place: Place, sheet: PageSheet, formats: tuple[str, ...], days: str, sentence: str, field: str
) -> None:
    add(sheet, "Lab", "$40", formats)
    page(sheet).form.days.selectAll()
    type_in(page(sheet).form.days, days)
    save(place)
    assert sentence in place.told
    assert place.window.focusWidget().objectName().startswith(field)
    assert kept(place).partners == ()
