"""Days off and outages planned by keys on the Shop screen, and taken back."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from core.model.own_shop.settings_records import Outage
from core.services import closed_days, event_counts, promises
from core.store import current_settings
from core.wording.messages import say
from gui.shop.downtime_form import DowntimeForm
from gui.shop.shop_screen import ShopScreen
from gui.toolkit.text import short_day
from tests.support.booked import line
from tests.support.screens import Place, press, type_in, written

TUESDAY = date(2026, 3, 3)


@pytest.fixture
def screen(place: Place) -> ShopScreen:
    place.records.book(line(count=3), name="Ada Fenwick")
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("planned")
    return shop


def form(screen: ShopScreen) -> DowntimeForm:
    return next(iter(screen.page.findChildren(DowntimeForm)))


def plan(place: Place, screen: ShopScreen, what: str, first: str, last: str, why: str) -> None:
    """Everything by keys: the field, its text, the next field."""
    here = form(screen)
    here.what.setFocus()
    for _ in range(here.what.findText(what) - here.what.currentIndex()):
        press(Qt.Key.Key_Down)
    for text in (first, last, why):
        press(Qt.Key.Key_Tab)
        field = QApplication.focusWidget()
        assert field is not None
        type_in(field, text)
    press(Qt.Key.Key_F6)
    place.settle()


def test_a_holiday_is_planned_and_every_date_is_looked_at_anew(place: Place, screen: ShopScreen) -> None:
    plan(place, screen, "The whole shop", "2026-03-03", "2026-03-13", "a wedding")
    assert [each.words for each in place.records.shop.ask(event_counts.days_off)] == ["a wedding"]
    (piece,) = form(screen).tray.pieces
    assert piece.title == "Closed from Tuesday, March 3 to Friday, March 13"
    assert (piece.small, piece.place) == ("a wedding", "planned")
    assert "Tuesday, March 3: a wedding" in written(screen.page).replace("Tue, Mar 3", "Tuesday, March 3")
    promised = next(each for each in screen.chapters.pieces if each.key == "promises")
    assert promised.place == "1 to call"
    assert place.records.shop.ask(event_counts.shut_days) == ()


def test_a_deck_is_planned_out_and_taken_back(place: Place, screen: ShopScreen) -> None:
    plan(place, screen, "VHS 2", "2026-03-05", "", "new belts")
    day = date(2026, 3, 5)
    assert place.records.shop.ask(current_settings.read).outages == (Outage("VHS 2", day, day),)
    assert form(screen).tray.pieces[0].title == "VHS 2 is out of service on Thursday, March 5"
    press(Qt.Key.Key_F7)
    place.settle()
    assert place.records.shop.ask(current_settings.read).outages == ()
    assert "Nothing is planned." in written(screen.page)


def _meant(text: str) -> str:
    """A day as it was typed, or as it is offered: ``Mon, Mar 9``."""
    try:
        return short_day(date.fromisoformat(text))
    except ValueError:
        return text


@pytest.mark.parametrize(
    ("first", "last", "why", "told"),
    [
        ("someday", "", "so", "First day"),
        ("", "", "so", "a day is needed"),
        ("2026-03-09", "2026-03-05", "so", "not before the first"),
        ("2026-03-09", "", "", "say why the shop is closed"),
    ],
)
def test_what_cannot_be_planned_is_said_and_stays_as_typed(
    place: Place, screen: ShopScreen, first: str, last: str, why: str, told: str
) -> None:
    plan(place, screen, "The whole shop", first, last, why)
    assert told in place.told
    here = form(screen)
    assert [_meant(field.text()) for field in (here.first, here.last)] == [_meant(first), _meant(last)]
    assert here.why.text() == why
    assert place.records.shop.ask(current_settings.read).closed_days == frozenset()


def test_a_day_shut_unplanned_is_taken_back_where_it_is_seen(place: Place, screen: ShopScreen) -> None:
    before = place.records.shop.ask(promises.under_review)[0].chance
    place.records.shop.run(closed_days.stayed_shut, TUESDAY, "a burst pipe")
    screen.refresh()
    place.settle()
    (piece,) = form(screen).tray.pieces
    assert (piece.title, piece.place) == ("Closed on Tuesday, March 3", say("plans", "unplanned"))
    form(screen).tray.setFocus()
    press(Qt.Key.Key_F7)
    place.settle()
    assert place.records.shop.ask(event_counts.shut_days) == ()
    assert place.records.shop.ask(promises.under_review)[0].chance == before


def test_the_keyboard_stays_in_the_form_after_a_step(place: Place, screen: ShopScreen) -> None:
    plan(place, screen, "VHS 2", "2026-03-05", "", "new belts")
    field = QApplication.focusWidget()
    assert field is not None
    assert field.objectName() == "plan-why"
    assert field.window() is place.window


def test_what_is_over_is_not_listed_any_more(place: Place, screen: ShopScreen) -> None:
    plan(place, screen, "VHS 2", "2026-03-05", "", "new belts")
    place.records.clock.go_on(days=4)
    screen.refresh()
    place.settle()
    assert form(screen).tray.pieces == ()
    assert place.records.clock().date() > TUESDAY + timedelta(days=3)
