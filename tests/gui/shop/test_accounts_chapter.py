"""Shop, Money and day close: counted and closed by keys, what was taken, the journal as a file."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from core.services import payments
from core.services.accounts import drawer
from core.wording.messages import say
from gui.shop.accounts.accounts_chapter import AccountsChapter
from gui.shop.accounts.accounts_sheet import AccountsSheet
from gui.shop.shop_screen import ShopScreen
from tests.core.services.accounts import journal_books
from tests.support.screens import Place, press, press_text


def opened(place: Place) -> AccountsSheet:
    return sheet_of(place, place.turn_to(ShopScreen))


def sheet_of(place: Place, screen: ShopScreen) -> AccountsSheet:
    assert screen.chapters.stand_on("accounts")
    place.settle()
    sheet = screen.page.findChild(AccountsSheet)
    assert isinstance(sheet, AccountsSheet)
    return sheet


def words_on(sheet: AccountsSheet) -> str:
    return " ".join(label.text() for label in sheet.findChildren(QLabel))


def test_the_day_is_counted_and_closed_by_keys(place: Place) -> None:
    records = place.records
    records.shop.run(drawer.count_float, 10_000)
    records.shop.run(payments.take, records.book().number, 4_200, kind="deposit", method="cash")
    sheet = opened(place)
    assert "$142.00" in sheet.drawer.expected.text()
    assert "Cash: $42.00 in 1 payment" in words_on(sheet)
    sheet.drawer.counted.setFocus()
    press_text("141.50")
    assert "$0.50 short" in sheet.drawer.difference.text()
    press(Qt.Key.Key_F8)
    place.settle()
    assert records.shop.ask(drawer.now).expected_minor == 14_200, "not without a word why"
    assert sheet.drawer.counted.text() == "141.50", "what was typed stays"
    sheet.drawer.note.setFocus()
    press_text("a coin under the bench")
    sheet.drawer.taken_out.setFocus()
    press_text("41.50")
    press(Qt.Key.Key_F8)
    place.settle()
    now = records.shop.ask(drawer.now)
    assert now.last is not None
    assert (now.last.closes, now.last.difference_minor, now.expected_minor) == (True, -50, 10_000)
    assert sheet.drawer.counted.text() == ""


def test_an_amount_that_is_none_is_named_and_nothing_is_counted(place: Place) -> None:
    sheet = opened(place)
    assert sheet.drawer.expected.text() == say("accounts", "never-counted")
    sheet.drawer.counted.setFocus()
    press(Qt.Key.Key_F6)
    place.settle()
    assert place.records.shop.ask(drawer.now).last is None


def test_the_journal_on_show_is_written_to_a_file(place: Place, tmp_path: Path) -> None:
    records = place.records
    records.shop.run(payments.take, records.book().number, 900, method="card")
    screen = place.turn_to(ShopScreen)
    sheet = sheet_of(place, screen)
    chapter = screen.chapter("accounts")
    assert isinstance(chapter, AccountsChapter)
    chapter.write_journal(str(tmp_path / "journal.csv"))
    place.settle()
    books = journal_books.read((tmp_path / "journal.csv").read_text())
    assert books.accounts == {"card": 900, "customers": -900}
    assert sheet.isVisible()
