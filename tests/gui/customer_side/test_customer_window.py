"""The Customer side: one customer's slip in large type, and not a word that is not theirs."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit, QWidget

from core.catalogue import formats
from gui.customer_side.customer_window import CustomerSide
from gui.toolkit.text import money, say
from gui.widgets.twenty_dots import PromiseDots
from tests.support import invented_job
from tests.support.booked import line
from tests.support.counting import Clerk, clerk_at, held_up
from tests.support.screens import Place, press, press_text


@pytest.fixture
def clerk(place: Place) -> Clerk:
    return clerk_at(place)


@pytest.fixture
def side(clerk: Clerk, place: Place) -> CustomerSide:
    shown = CustomerSide(place.window)
    clerk.counter.quote_changed.connect(shown.show_quote)
    clerk.counter.job_booked.connect(shown.show_job)
    place.window.wants_customer_side.connect(shown.turn)
    shown.show()
    place.window.activateWindow()
    place.settle()
    return shown


def words_on(side: CustomerSide) -> str:
    return side.words


def test_it_greets_while_the_tray_is_empty(side: CustomerSide) -> None:
    assert "Good to see you" in words_on(side)
    assert side.page is side.greeting


def test_it_follows_the_slip_key_by_key(side: CustomerSide, clerk: Clerk) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    clerk.wait_for_the_day()
    quote = clerk.counter.quote
    assert quote is not None
    assert side.slip.price_words == money(quote.price.due.likely, "USD")
    assert clerk.day == side.quoting.stub.day_words
    assert "Your 2 tapes" in words_on(side)


def test_a_day_that_is_still_worked_out_is_not_promised_to_the_customer(
    side: CustomerSide, clerk: Clerk, place: Place
) -> None:
    clerk.count(count="3", format="vh", marking="t120")
    before = clerk.day
    press_text("40")
    press(Qt.Key.Key_Return)
    with held_up(clerk, place):
        press_text("hi8")
        place.qtbot.waitUntil(lambda: "Working out the day" in words_on(side))
        assert side.quoting.stub.day_words == before
        assert "19 times" not in words_on(side)
    assert clerk.day != before
    assert clerk.day == side.quoting.stub.day_words
    assert "Working out the day" not in words_on(side)


def test_it_shows_the_number_once_the_box_is_booked(side: CustomerSide, clerk: Clerk) -> None:
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    assert clerk.counter.job is not None
    assert clerk.counter.job.number in words_on(side)


def test_it_says_what_cannot_be_restored_and_wears_the_band(side: CustomerSide, clerk: Clerk) -> None:
    clerk.count(format="vh")
    clerk.look()
    assert not any(block.band for block in side.quoting.told.blocks)
    clerk.count(format="vh", findings="sn")
    clerk.look()
    assert any(block.band for block in side.quoting.told.blocks)
    assert say("customer", "band_words") in words_on(side)
    assert "1 × VHS" in words_on(side)


def test_it_shows_neither_other_customers_nor_the_reasons_of_the_shop(
    side: CustomerSide, clerk: Clerk, place: Place
) -> None:
    place.records.book(line(count=30), name="Zelda Quince")
    place.work.changed.emit(frozenset({"jobs"}))
    place.settle()
    clerk.count(count="6", format="vh", marking="t120")
    clerk.wait_for_the_day()
    quote = clerk.counter.quote
    assert quote is not None
    assert quote.promise.held_by
    shown = words_on(side) + side.slip.accessibleDescription()
    assert "Quince" not in shown
    assert not any(reason in shown for reason in quote.promise.held_by)


def test_it_greets_with_every_kind_of_cassette_the_shop_takes(side: CustomerSide) -> None:
    known = {each.name for each in formats.catalogue().formats if each.has_own_system}
    drawn = [each.format for page in side.greeting.tapes.pages for each in page.drawn]
    assert set(drawn) == known


def test_the_tapes_are_drawn_with_what_they_are_and_which_come_back_not_for_reuse(
    side: CustomerSide, clerk: Clerk
) -> None:
    clerk.count(count="6", format="vh", marking="t120")
    clerk.count(format="hi8", findings="sn")
    clerk.count(format="betamax", findings="mould")
    clerk.look()
    drawn = side.quoting.tapes.shown
    assert [(each.format, each.count, each.not_for_reuse) for each in drawn] == [
        ("vhs", 6, False),
        ("hi8", 1, True),
        ("betamax", 1, False),
    ]
    assert drawn[0].words == "6 × VHS T-120"
    assert drawn[0].length.startswith("each plays ")
    assert drawn[2].length == say("counter", "aside_cannot")
    assert all(each.words in side.quoting.tapes.accessibleName() for each in drawn)


def test_equal_tapes_of_several_rows_lie_together(side: CustomerSide, clerk: Clerk) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    clerk.count(format="hi8")
    clerk.count(count="3", format="vh", marking="t120")
    clerk.look()
    assert [(each.format, each.count) for each in side.quoting.tapes.shown] == [("vhs", 5), ("hi8", 1)]


def test_the_tray_gives_way_to_what_must_be_told(side: CustomerSide, clerk: Clerk, place: Place) -> None:
    side.resize(1280, 800)
    clerk.count(format="vh")
    place.settle()
    roomy = side.quoting.tapes.height()
    for findings in ("sn", "scratched", "mould", "crushed"):
        clerk.count(format="vh", findings=findings)
    place.settle()
    assert side.quoting.tapes.height() < roomy


def test_once_it_is_booked_the_phone_number_of_the_shop_is_there(side: CustomerSide, clerk: Clerk) -> None:
    side.show_front(invented_job.FRONT)
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    assert invented_job.FRONT.phone not in words_on(side).replace("\u00a0", " ")
    clerk.book()
    assert invented_job.FRONT.phone in words_on(side).replace("\u00a0", " ")


def test_nothing_on_it_can_be_changed(side: CustomerSide) -> None:
    assert side.findChildren(QLineEdit) == []
    assert not any(button.isVisible() for button in side.findChildren(QAbstractButton))


def test_while_somebody_signs_there_is_a_pad_and_nothing_takes_the_keyboard(
    side: CustomerSide, clerk: Clerk, place: Place
) -> None:
    clerk.counter.booking.signing.wanted.connect(side.ask_to_sign)
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    clerk.wait_for_the_day()
    clerk.counter.booking.have_signed()
    place.settle()
    assert side.signing.pad.isVisible()
    shown = [each for each in side.findChildren(QWidget) if each.isVisible()]
    assert [each.objectName() for each in shown if isinstance(each, QAbstractButton)] == ["signing-clear"]
    assert all(each.focusPolicy() is Qt.FocusPolicy.NoFocus for each in shown)


def test_on_the_only_screen_the_keyboard_stays_and_escape_turns_it_back(
    side: CustomerSide, place: Place
) -> None:
    """It covers the window of the shop, and yet the keys go on there."""
    side.hide()
    place.window.activateWindow()
    held = QApplication.focusWidget()
    assert held is not None
    press(Qt.Key.Key_F9)
    assert side.isVisible()
    assert side.windowFlags() & Qt.WindowType.WindowDoesNotAcceptFocus
    assert side.testAttribute(Qt.WidgetAttribute.WA_ShowWithoutActivating)
    assert QApplication.activeWindow() is place.window
    assert QApplication.focusWidget() is held
    press(Qt.Key.Key_Escape)
    assert side.isHidden()
    assert QApplication.focusWidget() is held


def test_f9_turns_it_back_too(side: CustomerSide, place: Place) -> None:
    assert side.isVisible()
    press(Qt.Key.Key_F9)
    assert side.isHidden()


def test_turning_shows_it_full_and_turning_again_hides_it(side: CustomerSide) -> None:
    side.hide()
    side.turn()
    assert side.isFullScreen()
    side.turn()
    assert side.isHidden()


def test_what_was_quoted_while_it_was_turned_away_is_there_when_it_is_turned(
    side: CustomerSide, clerk: Clerk
) -> None:
    side.hide()
    clerk.count(format="vh")
    clerk.look()
    side.show()
    quote = clerk.counter.quote
    assert quote is not None
    assert side.slip.price_words == money(quote.price.due.likely, "USD")


def test_the_dots_are_twenty_and_spoken(side: CustomerSide, clerk: Clerk) -> None:
    clerk.count(count="3", format="vh", marking="t120")
    clerk.wait_for_the_day()
    dots = side.findChild(PromiseDots)
    assert isinstance(dots, PromiseDots)
    assert sum(column.count for column in dots.shown) == 20
    assert "Twenty dots" in dots.accessibleDescription()


def test_it_idles_on_the_shops_own_greeting_and_hours(side: CustomerSide) -> None:
    """Its own for the Customer side, else that of its papers."""
    front = replace(invented_job.FRONT, greeting="On paper", welcome="Come in")
    side.show_front(front)
    side.show_hours((("Monday–Friday", "9 to 5"),), (date(2026, 3, 17),))
    for words in (front.name, "Come in", "Monday–Friday 9 to 5", "Tuesday, March 17"):
        assert words in words_on(side)
    side.show_front(replace(front, welcome=""))
    assert "On paper" in words_on(side)
