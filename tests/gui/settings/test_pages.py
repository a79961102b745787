"""The pages show settings and give them back, read what people type, and name what does not fit."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from pytestqt.qtbot import QtBot

from core.model.errors import WrongInput
from core.model.own_shop.settings_records import Printing, ShopSettings
from core.services.own_shop import shop_settings
from core.services.own_shop.readiness import Readiness
from core.services.own_shop.shop_document import SettingsView
from gui.settings.fields_page import FieldsPage
from gui.settings.front_page import FrontPage
from gui.settings.hours_page import HoursPage
from gui.settings.papers_page import PapersPage

TODAY = date(2026, 12, 1)
NEW = shop_settings.new_shop()
OWN = replace(
    NEW,
    front=replace(NEW.front, name="The Second Reel", address=("1 Elm Street",), phone="(303) 555-0100"),
    closed_days=frozenset({date(2026, 1, 2), date(2026, 12, 24), date(2027, 8, 2)}),
)
RICH = replace(
    OWN,
    front=replace(
        OWN.front,
        country="CA",
        currency="CAD",
        timezone="America/Toronto",
        language="en-CA",
        paper="a4",
        accent="plum",
        greeting="Hello",
        printing=Printing(
            quote="yes",
            labels="no",
            claim_slip_on="roll",
            roll_width_mm=72.5,
            label_stock="single",
            label_width_mm=62.5,
        ),
    ),
    holiday_country="CA",
    holiday_region="QC",
    past_closing_minutes=0,
    confidence=0.93,
)


def page(kind: type[FieldsPage], settings: ShopSettings, qtbot: QtBot) -> FieldsPage:
    made = kind()
    qtbot.addWidget(made)
    made.show_settings(SettingsView(settings, 1, {}, 1, True, Readiness((), ()), TODAY))
    return made


@pytest.mark.parametrize("kind", [FrontPage, HoursPage, PapersPage])
@pytest.mark.parametrize("settings", [OWN, RICH], ids=["plain", "rich"])
def test_a_page_gives_back_what_it_was_shown(
    kind: type[FieldsPage], settings: ShopSettings, qtbot: QtBot
) -> None:
    assert page(kind, settings, qtbot).settings(settings) == settings


def test_a_new_shop_waits_for_its_name_and_says_so(qtbot: QtBot) -> None:
    front = page(FrontPage, NEW, qtbot)
    assert isinstance(front, FrontPage)
    assert [front.texts[key].text() for key in ("name", "phone")] == ["", ""]
    assert front.address.lines == ()
    with pytest.raises(WrongInput, match="Name of the shop: nothing was entered; one line of text"):
        front.settings(NEW)
    assert front.texts["name"].property("wrong")


def test_own_closed_days_are_typed_one_on_a_line_and_past_ones_stay(qtbot: QtBot) -> None:
    hours = page(HoursPage, OWN, qtbot)
    assert isinstance(hours, HoursPage)
    assert hours.closed.toPlainText() == "Thu, Dec 24\n2027-08-02"
    hours.closed.setPlainText("Dec 24\n2026-12-31")
    found = hours.settings(OWN).closed_days
    assert found == {date(2026, 1, 2), date(2026, 12, 24), date(2026, 12, 31)}
    hours.closed.setPlainText("someday")
    with pytest.raises(WrongInput, match="Your own closed days, one on each line: found 'someday'"):
        hours.settings(OWN)


def test_holidays_follow_country_and_region(qtbot: QtBot) -> None:
    hours = page(HoursPage, RICH, qtbot)
    assert isinstance(hours, HoursPage)
    assert hours.region.text() == "Quebec (QC)"
    assert "Christmas Day" in hours.coming.text()
    hours.country.setText("Germany")
    hours.country.settled.emit("Germany")
    assert hours.region.text() == "The whole country"
    found = hours.settings(RICH)
    assert (found.holiday_country, found.holiday_region) == ("DE", None)
    hours.country.clear()
    assert hours.settings(RICH).holiday_country is None


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("ten", "Minutes a tape may play on after closing: found 'ten'; a whole number from 0 to 1440"),
        ("1.5", "found '1.5'"),
        ("2000", "Minutes a tape may play on after closing: found 2000"),
        ("", "Minutes a tape may play on after closing: nothing was entered"),
    ],
)
def test_minutes_past_closing_are_whole_and_at_most_a_day(typed: str, told: str, qtbot: QtBot) -> None:
    hours = page(HoursPage, OWN, qtbot)
    assert isinstance(hours, HoursPage)
    hours.past_closing.setText(typed)
    with pytest.raises(WrongInput) as refused:
        hours.settings(OWN)
    assert told in refused.value.sentence


@pytest.mark.parametrize(
    ("key", "typed", "told"),
    [
        ("label_rows", "9", "Labels down: found 9; labels that fit are accepted"),
        ("label_rows", "many", "Labels down: found 'many'; a whole number"),
        ("label_width_mm", "10", "Label width, mm: found 10.0; at least 45 mm"),
        ("label_left_mm", "-3", "Left margin, mm: found '-3'; a length in millimeters"),
    ],
)
def test_labels_that_cannot_be_are_told_at_their_field(key: str, typed: str, told: str, qtbot: QtBot) -> None:
    papers = page(PapersPage, replace(OWN, front=replace(OWN.front, paper="a4")), qtbot)
    assert isinstance(papers, PapersPage)
    papers.stock.setCurrentIndex(papers.stock.findData("sheet"))
    papers.measures[key].setText(typed)
    with pytest.raises(WrongInput) as refused:
        papers.settings(replace(OWN, front=replace(OWN.front, paper="a4")))
    assert told in refused.value.sentence
    assert papers.measures[key].property("wrong")


def test_what_the_scanner_types_first_is_set_on_the_page_of_labels(qtbot: QtBot) -> None:
    papers = page(PapersPage, OWN, qtbot)
    assert isinstance(papers, PapersPage)
    papers.prefix.setText("~")
    assert papers.settings(OWN).scanner_prefix == "~"
    papers.prefix.setText("1~")  # a digit could not be told from a code
    with pytest.raises(WrongInput) as told:
        papers.settings(OWN)
    assert "digit" in told.value.sentence
    assert papers.prefix.property("wrong")
