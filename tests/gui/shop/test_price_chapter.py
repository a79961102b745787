"""Prices are changed by keys: typed, seen beforehand, kept from a day on, taken back."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QPushButton, QRadioButton

from core.pricing import price_csv
from core.services import jobs
from core.services.own_shop import price_books, shop_document
from core.services.records_door import Shop
from core.store import current_prices
from core.wording.messages import say
from gui.settings.price_page import PricePage
from gui.shop.prices.prices_chapter import PriceChapter
from gui.shop.shop_screen import ShopScreen
from tests.support.booked import line
from tests.support.screens import Place, press, press_text, type_in, written

TODAY = date(2026, 3, 3)


@pytest.fixture
def chapter(place: Place) -> PriceChapter:
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("prices")
    place.settle()
    found = shop.chapter("prices")
    assert isinstance(found, PriceChapter)
    return found


def page_of(chapter: PriceChapter) -> PricePage:
    assert chapter.page is not None
    return chapter.page


def put_price(place: Place, chapter: PriceChapter, row: int, text: str) -> None:
    table = page_of(chapter).table
    table.stand_on(row, "price")
    press_text(text)
    press(Qt.Key.Key_Return)
    place.settle()


def vhs(place: Place, on: date = TODAY) -> int:
    return int(place.records.shop.ask(current_prices.in_force, on).capture["vhs"].minor)  # type: ignore[index]


def test_a_price_is_typed_seen_and_kept_and_an_old_order_keeps_its_own(place: Place) -> None:
    job = place.records.book(line(count=3))
    price = place.records.shop.ask(jobs.reprice, job.number)
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("prices")
    place.settle()
    chapter = shop.chapter("prices")
    assert isinstance(chapter, PriceChapter)
    place.records.clock.go_on(minutes=5)
    put_price(place, chapter, 0, "7.50")
    assert chapter.panel is not None
    assert "$" in written(chapter.panel)
    assert " → " in chapter.panel.orders.pieces[0].small
    assert vhs(place) == 600
    press(Qt.Key.Key_F6)
    place.settle()
    assert vhs(place) == 750
    assert place.records.shop.ask(jobs.reprice, job.number) == price
    assert page_of(chapter).table.lines[0].shown("price") == "7.50"
    assert "Copying VHS, price: 6.00 → 7.50" in written(shop.page)
    assert "Kim" in written(shop.page)
    assert written(chapter.panel).count("as before") == len(chapter.panel.fields)


def test_prices_hold_from_a_later_day(place: Place, chapter: PriceChapter) -> None:
    page = page_of(chapter)
    put_price(place, chapter, 0, "7.50")
    page.day.setFocus()
    page.day.selectAll()
    type_in(page.day, (TODAY + timedelta(days=9)).isoformat(), enter=True)
    press(Qt.Key.Key_F6)
    place.settle()
    assert (vhs(place), vhs(place, TODAY + timedelta(days=9))) == (600, 750)


def test_what_is_no_amount_is_told_at_its_cell_and_nothing_is_kept(
    place: Place, chapter: PriceChapter
) -> None:
    put_price(place, chapter, 0, "93,15")
    page = page_of(chapter)
    assert "found '93,15'; an amount like 9.50 is accepted" in written(page)
    page.remark.setFocus()
    press(Qt.Key.Key_F6)
    place.settle()
    assert "an amount like 9.50 is accepted" in place.told
    assert QApplication.focusWidget() is page.table
    assert page.table.currentIndex().row() == 0
    assert vhs(place) == 600
    assert chapter.panel is not None
    assert say("settings", "prices-preview-wait") in written(chapter.panel)


def test_all_prices_are_changed_at_once_and_started_over(place: Place, chapter: PriceChapter) -> None:
    page = page_of(chapter)
    page.percent.setFocus()
    type_in(page.percent, "4")
    page.step.selectAll()
    type_in(page.step, "0.50", enter=True)
    assert [line.shown("price") for line in page.table.lines[:3]] == ["6.00", "7.50", "14.50"]
    page.percent.setFocus()
    type_in(page.percent, "-101", enter=True)
    assert "found '-101'; a percentage above -100" in written(page)
    assert page.percent.hasFocus()
    page.again.click()
    assert [line.shown("price") for line in page.table.lines[:3]] == ["6.00", "7.00", "14.00"]
    press(Qt.Key.Key_F6)
    place.settle()
    assert vhs(place) == 600


def test_the_newest_prices_are_taken_back(place: Place, chapter: PriceChapter) -> None:
    put_price(place, chapter, 0, "7.50")
    press(Qt.Key.Key_F6)
    place.settle()
    assert vhs(place) == 750
    chapter.history.take_back.click()
    place.settle()
    assert vhs(place) == 600
    assert page_of(chapter).table.lines[0].shown("price") == "6.00"


def test_nobody_changes_prices_without_the_right(place: Place, chapter: PriceChapter) -> None:
    owner = '{may = ["settings", "prices"]}'
    place.records.shop.run(shop_document.set_texts, [("person.Ada", owner), ("person.Kim", "{}")])
    put_price(place, chapter, 0, "7.50")
    press(Qt.Key.Key_F6)
    place.settle()
    assert "Kim may not change prices. Ada can; sign in as Ada." in place.told
    assert vhs(place) == 600
    assert page_of(chapter).table.lines[0].shown("price") == "7.50"


def test_somebody_elses_prices_are_not_overwritten(place: Place, chapter: PriceChapter) -> None:
    put_price(place, chapter, 0, "7.50")
    place.records.shop.run(shop_document.set_texts, [("prices.capture.vhs.price", "9.00")])
    press(Qt.Key.Key_F6)
    place.settle()
    assert "while you were at it" in place.told
    assert vhs(place) == 900


def elsewhere(place: Place, path: str, price: str) -> None:
    """Robin enters prices at another counter; this window has not heard of it."""
    with Shop.open(place.records.where, clock=place.records.clock, who="Robin") as other:
        other.run(shop_document.set_texts, [(f"prices.capture.{path}", price)])


def pick(chapter: PriceChapter, name: str) -> None:
    button = chapter.conflict.findChild(QRadioButton, f"conflict-{name}")
    assert button is not None
    button.click()


def test_both_prices_are_shown_and_the_one_that_is_picked_is_saved(
    place: Place, chapter: PriceChapter
) -> None:
    put_price(place, chapter, 0, "7.50")
    put_price(place, chapter, 1, "8.25")
    elsewhere(place, "vhs.price", "9.00")
    press(Qt.Key.Key_F6)
    place.settle()
    told = written(chapter.conflict)
    assert "Copying VHS, price: 6.00 → 9.00" in told
    assert "Copying VHS, price: 6.00 → 7.50" in told
    assert "Robin" in told
    assert not chapter.conflict.save.isEnabled(), "nobody picked yet"
    assert page_of(chapter).table.lines[0].shown("price") == "7.50"
    pick(chapter, "capture-vhs-price-yours")
    chapter.conflict.save.click()
    place.settle()
    assert vhs(place) == 750
    assert [line.shown("price") for line in page_of(chapter).table.lines[:2]] == ["7.50", "8.25"]
    assert not chapter.conflict.isVisible()


def test_typed_prices_stay_when_the_page_is_built_anew_over_another_book(
    place: Place, chapter: PriceChapter
) -> None:
    """The window hears of the other till's book, and shows the chapter again. Seen red: they were dropped."""
    put_price(place, chapter, 0, "7.50")
    put_price(place, chapter, 1, "8.25")
    elsewhere(place, "vhs.price", "9.00")
    chapter.outdated.emit()
    place.settle()
    assert [line.shown("price") for line in page_of(chapter).table.lines[:2]] == ["7.50", "8.25"]
    page_of(chapter).table.setFocus()
    press(Qt.Key.Key_F6)
    place.settle()
    assert vhs(place) == 900
    chapter.outdated.emit()
    place.settle()
    assert chapter.conflict.isVisible()
    pick(chapter, "capture-vhs-price-theirs")
    chapter.conflict.save.click()
    place.settle()
    assert vhs(place) == 900
    assert [line.shown("price") for line in page_of(chapter).table.lines[:2]] == ["9.00", "8.25"]


def test_a_third_till_is_told_as_well_and_nothing_typed_is_lost(place: Place, chapter: PriceChapter) -> None:
    put_price(place, chapter, 0, "7.50")
    elsewhere(place, "vhs.price", "9.00")
    press(Qt.Key.Key_F6)
    place.settle()
    pick(chapter, "capture-vhs-price-yours")
    elsewhere(place, "vhs.price", "9.50")
    chapter.conflict.save.click()
    place.settle()
    assert vhs(place) == 950
    assert "9.00 → 9.50" in written(chapter.conflict)
    chapter.conflict.leave.click()
    assert page_of(chapter).table.lines[0].shown("price") == "7.50"


def test_whoever_starts_over_has_typed_nothing(place: Place, chapter: PriceChapter) -> None:
    put_price(place, chapter, 0, "7.50")
    page_of(chapter).again.click()
    elsewhere(place, "vhs.price", "9.00")
    chapter.outdated.emit()
    place.settle()
    assert page_of(chapter).table.lines[0].shown("price") == "9.00"


def test_what_was_typed_stays_while_another_chapter_is_open(place: Place, chapter: PriceChapter) -> None:
    put_price(place, chapter, 0, "7.50")
    shop = chapter.parent()
    assert isinstance(shop, ShopScreen)
    shop.chapters.stand_on("kept")
    shop.chapters.stand_on("prices")
    place.settle()
    assert page_of(chapter).table.lines[0].shown("price") == "7.50"
    assert vhs(place) == 600


def test_a_box_of_the_owners_choosing_is_compared(place: Place, chapter: PriceChapter) -> None:
    assert chapter.panel is not None
    field = chapter.panel.fields[0]
    field.setFocus()
    field.selectAll()
    type_in(field, "2 MiniDV")
    place.settle()
    before = written(chapter.panel)
    type_in(field, "x")
    place.settle()
    assert "tapes with commas between them are accepted" in written(chapter.panel)
    assert before.split("$")[1] in written(chapter.panel)


def test_example_prices_become_the_shops_own_by_a_tick(place: Place, chapter: PriceChapter) -> None:
    example = dict(place.records.shop.ask(price_books.document_in_force, TODAY)) | {"invented": True}
    place.records.shop.run(price_books.enter, example)
    chapter.outdated.emit()
    place.settle()
    page = page_of(chapter)
    assert page.mine.isVisible()
    page.mine.click()
    press(Qt.Key.Key_F6)
    place.settle()
    assert place.records.shop.ask(current_prices.is_confirmed, TODAY)


def test_prices_go_out_as_csv_and_come_in_again(place: Place, chapter: PriceChapter, tmp_path: Path) -> None:
    file = tmp_path / "prices.csv"
    chapter.write_csv(str(file))
    place.settle()
    file.write_text(
        file.read_bytes().decode().replace("VHS,per-period,6.00", "VHS,per-period,8.00"), newline=""
    )
    chapter.read_csv(str(file))
    place.settle()
    assert page_of(chapter).table.lines[0].shown("price") == "8.00"
    assert vhs(place) == 600
    press(Qt.Key.Key_F6)
    place.settle()
    assert vhs(place) == 800
    file.write_text("nothing", encoding="utf-8")
    chapter.read_csv(str(file))
    place.settle()
    assert "prices.csv, row 1: found 'nothing'" in place.told
    assert price_csv.written(place.records.shop.ask(price_books.document_in_force, TODAY))


def test_every_button_and_field_has_a_name(chapter: PriceChapter) -> None:
    page = page_of(chapter)
    assert all(button.text() for button in page.findChildren(QPushButton))
    for field in (page.day, page.percent, page.step, page.remark, page.table):
        assert field.accessibleName()


def test_the_keyboard_leaves_the_table_at_both_ends(place: Place, chapter: PriceChapter) -> None:
    page = page_of(chapter)
    page.table.stand_on(len(page.table.lines) - 1, "number")
    press(Qt.Key.Key_Tab)
    assert page.remark.hasFocus()
    page.table.stand_on(0, "way")
    press(Qt.Key.Key_Backtab)
    assert page.raise_all.hasFocus()
