"""The Customer side: one customer's slip in large type, and not a word that is not theirs."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QLineEdit, QScrollBar, QWidget

from core.catalogue import formats
from core.papers.booking import signing_sheet
from gui.customer_side.customer_window import SCALE, CustomerSide, second_screen
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import Columns
from gui.widgets.not_for_reuse_strip import NotForReuseStrip
from gui.widgets.twenty_dots import PromiseDots
from tests.support import invented_job
from tests.support.booked import line
from tests.support.counting import ALT, Clerk, clerk_at, held_up
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


def words_on(side: QWidget) -> str:
    return "\n".join(label.text() for label in side.findChildren(QLabel) if label.isVisible())


def test_it_greets_while_the_tray_is_empty(side: CustomerSide) -> None:
    assert "Good to see you" in words_on(side)
    assert side.slip.price_words == ""


def test_it_follows_the_slip_key_by_key(side: CustomerSide, clerk: Clerk) -> None:
    clerk.count(count="2", format="vh", marking="t120")
    assert clerk.price == side.slip.price_words
    clerk.wait_for_the_day()
    assert clerk.day == side.slip.day_words
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
        assert side.slip.day_words == before
        assert "19 times" not in words_on(side)
    assert clerk.day != before
    assert clerk.day == side.slip.day_words
    assert "Working out the day" not in words_on(side)


def test_it_shows_the_number_once_the_box_is_booked(side: CustomerSide, clerk: Clerk) -> None:
    clerk.count(format="vh")
    clerk.name_the_customer("Ada Fenwick")
    clerk.book()
    assert clerk.counter.job is not None
    assert clerk.counter.job.number in words_on(side)


def test_it_says_what_cannot_be_restored_and_wears_the_band(side: CustomerSide, clerk: Clerk) -> None:
    band = side.findChild(NotForReuseStrip)
    assert isinstance(band, NotForReuseStrip)
    assert not band.isVisible()
    clerk.count(format="vh", findings="sn")
    clerk.look()
    assert band.isVisible()
    assert "Not for reuse" in band.accessibleName()
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
    assert {drawn.format for drawn in side.tapes.shown} == known
    assert side.tapes.arrangement() is not None


def test_the_tapes_are_drawn_with_what_they_are_and_which_come_back_not_for_reuse(
    side: CustomerSide, clerk: Clerk
) -> None:
    clerk.count(count="6", format="vh", marking="t120")
    clerk.count(format="hi8", findings="sn")
    clerk.count(format="betamax", findings="mould")
    clerk.look()
    drawn = side.tapes.shown
    assert [(each.format, each.count, each.not_for_reuse) for each in drawn] == [
        ("vhs", 6, False),
        ("hi8", 1, True),
        ("betamax", 1, False),
    ]
    assert drawn[0].words == "6 × VHS T-120"
    assert drawn[0].length.startswith("each plays ")
    assert drawn[2].length == say("counter", "aside_cannot")
    assert all(each.words in side.tapes.accessibleName() for each in drawn)


def test_the_tray_gives_way_to_what_must_be_told(side: CustomerSide, clerk: Clerk, place: Place) -> None:
    side.resize(1280, 800)
    clerk.count(format="vh")
    place.settle()
    roomy = side.tapes.height()
    for findings in ("sn", "scratched", "mould", "crushed"):
        clerk.count(format="vh", findings=findings)
    place.settle()
    assert side.tapes.height() < roomy
    assert side.findChild(Columns).verticalScrollBar().maximum() == 0


def test_where_the_columns_fold_the_tapes_are_still_there(side: CustomerSide, place: Place) -> None:
    side.resize(640, 400)
    place.settle()
    columns = side.findChild(Columns)
    assert isinstance(columns, Columns)
    assert columns.is_folded
    assert side.tapes.arrangement() is not None


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
    assert all(
        each.focusPolicy() is Qt.FocusPolicy.NoFocus for each in shown if not isinstance(each, QScrollBar)
    )


@pytest.mark.parametrize("size", [(1280, 800), (1366, 768)])
def test_what_is_signed_is_not_cut_on_a_small_screen(
    place: Place, qapp: QApplication, size: tuple[int, int]
) -> None:
    theme.apply(qapp)
    side = CustomerSide(place.window)
    quote = invented_job.quote()
    side.show_front(invented_job.FRONT)
    side.ask_to_sign(signing_sheet.of_quote(quote, quote.warnings, invented_job.FRONT, "Kim"))
    side.resize(*size)
    side.show()
    qapp.processEvents()
    pad, clear = side.signing.pad, side.signing.clear_button
    for part in (pad, clear):
        assert side.rect().contains(part.mapTo(side, part.rect().bottomRight()))
    assert side.signing.columns.verticalScrollBar().maximum() == 0
    bar = side.signing.area.verticalScrollBar()
    assert bar.maximum() > 0, "twelve tapes and the terms are more than a page"
    press_on(side, Qt.Key.Key_PageDown)
    assert bar.value() > 0


def press_on(side: CustomerSide, key: Qt.Key) -> None:
    side.setFocus()
    QTest.keyClick(side, key)


def test_its_type_is_larger_than_the_counters(side: CustomerSide) -> None:
    day = side.findChild(QLabel, "promised-day")
    assert isinstance(day, QLabel)
    assert SCALE > 1
    assert day.font().pointSizeF() == pytest.approx(theme.GREAT * SCALE)


def test_escape_and_f9_turn_it_back(side: CustomerSide) -> None:
    for key in (Qt.Key.Key_Escape, Qt.Key.Key_F9):
        side.show()
        side.activateWindow()
        QTest.keyClick(side, key)
        assert side.isHidden(), key


def test_turning_shows_it_full_and_turning_again_hides_it(side: CustomerSide) -> None:
    side.hide()
    side.turn()
    assert side.isFullScreen()
    side.turn()
    assert side.isHidden()


def test_a_second_screen_is_the_one_our_window_is_not_on(qapp: QApplication) -> None:
    only = qapp.primaryScreen()
    other = object()
    assert second_screen([only], only) is None
    assert second_screen([only, other], only) is other  # type: ignore[list-item,comparison-overlap]


def test_what_was_quoted_while_it_was_turned_away_is_there_when_it_is_turned(
    side: CustomerSide, clerk: Clerk
) -> None:
    side.hide()
    clerk.count(format="vh")
    side.show()
    assert clerk.price == side.slip.price_words


def test_the_dots_are_twenty_and_spoken(side: CustomerSide, clerk: Clerk) -> None:
    clerk.count(count="3", format="vh", marking="t120")
    clerk.wait_for_the_day()
    dots = side.findChild(PromiseDots)
    assert isinstance(dots, PromiseDots)
    assert sum(column.count for column in dots.shown) == 20
    assert "Twenty dots" in dots.accessibleDescription()


def test_everything_fits_at_the_usual_size(side: CustomerSide, clerk: Clerk, place: Place) -> None:
    side.resize(1280, 800)
    clerk.count(count="6", format="vh", marking="t120", findings="snapped")
    press(Qt.Key.Key_H, ALT)
    place.settle()
    for label in side.findChildren(QLabel):
        if label.isVisible() and label.text():
            corner = label.mapTo(side, label.rect().bottomRight())
            assert side.rect().contains(corner), f"{label.text()[:30]} reaches to {corner}"


@pytest.mark.parametrize("size", [(1280, 800), (1366, 768)])
def test_nothing_is_cut_in_a_practice_shop_on_a_small_screen(
    place: Place, qapp: QApplication, size: tuple[int, int]
) -> None:
    theme.apply(qapp)
    side = CustomerSide(place.window)
    side.show_front(replace(invented_job.FRONT, practice=True))
    side.show_job(invented_job.job())
    side.resize(*size)
    side.show()
    qapp.processEvents()
    assert side.practice.isVisible()
    assert side.findChildren(Columns)[0].verticalScrollBar().maximum() == 0
