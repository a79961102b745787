"""What the shop reckons with: stated by keys, beside what it has counted."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from core.model.own_shop.settings_records import Expected
from core.model.stations import Station
from core.services import closed_days, decks
from core.store import current_settings
from gui.shop.expectation_form import ExpectationForm
from gui.shop.shop_screen import ShopScreen
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.screens import Place, press, type_in, written


def _begin(records: Desk) -> None:
    job = records.book(line(count=3), name="Ada Fenwick")
    records.bring_to(job.tapes[0], Station.BEING_CHECKED, minutes=120.0)
    records.shop.run(decks.broke_down, "VHS 1", "eats tapes")


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def screen(place: Place) -> ShopScreen:
    place.records.clock.go_on(days=1)
    place.records.shop.run(decks.back_in_service, "VHS 1", "new belt")
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("expected")
    return shop


def form(screen: ShopScreen) -> ExpectationForm:
    return next(iter(screen.page.findChildren(ExpectationForm)))


def test_each_figure_stands_beside_what_was_counted(screen: ShopScreen) -> None:
    fields = form(screen).fields
    assert [field.text() for field in fields.values()] == ["400", "72", "1", "4", "0.5"]
    told = written(screen.page)
    assert "1 breakdown in 2 hours of play. We expect one in 201 hours" in told
    assert "1 deck has come back. We expect about 48 hours each time." in told
    assert "0 rush orders in 0 weeks. We start counting after 4 weeks." in told
    assert "Closed on 0 of 1 opening day. We expect 0.5 in 100." in told


def test_a_figure_is_changed_by_keys_and_kept(place: Place, screen: ShopScreen) -> None:
    field = form(screen).fields["rush_boxes_a_week"]
    field.setFocus()
    field.selectAll()
    type_in(field, "2.5", enter=True)
    assert form(screen).fields["tapes_in_a_rush_box"].hasFocus()
    press(Qt.Key.Key_F6)
    place.settle()
    assert place.records.shop.ask(current_settings.read).expected == Expected(400.0, 72.0, 2.5, 4.0, 0.005)
    assert form(screen).fields["rush_boxes_a_week"].text() == "2.5"
    assert form(screen).fields["tapes_in_a_rush_box"].hasFocus()


def test_return_in_the_last_figure_keeps_them(place: Place, screen: ShopScreen) -> None:
    field = form(screen).fields["unplanned_closures"]
    field.setFocus()
    field.selectAll()
    type_in(field, "2", enter=True)
    place.settle()
    assert place.records.shop.ask(current_settings.read).expected.unplanned_closures == 0.02


@pytest.mark.parametrize(
    ("name", "typed", "told"),
    [
        ("hours_to_repair", "soon", "Hours until a deck is back"),
        ("hours_to_repair", "0", "hours until a deck is back"),
        ("tapes_in_a_rush_box", "0", "a rush order has at least one tape"),
        ("unplanned_closures", "70", "unplanned_closures"),
        ("rush_boxes_a_week", "", "Rush orders a week"),
    ],
)
def test_what_cannot_be_is_said_and_stays_as_typed(
    place: Place, screen: ShopScreen, name: str, typed: str, told: str
) -> None:
    before = place.records.shop.ask(current_settings.read)
    form(screen).fields[name].setText(typed)
    form(screen).keep.click()
    place.settle()
    assert told in place.told
    assert form(screen).fields[name].text() == typed
    assert place.records.shop.ask(current_settings.read) == before


def test_days_shut_unplanned_are_told(place: Place, screen: ShopScreen) -> None:
    place.records.shop.run(closed_days.stayed_shut, place.records.clock().date(), "flu")
    screen.refresh()
    place.settle()
    assert "Closed on 1 of " in written(screen.page)
