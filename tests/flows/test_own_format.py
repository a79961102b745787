"""An owner adds something people bring, by keys and without a restart: every room works with it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from core.catalogue.formats import catalogue
from core.model.names import TapeCode
from core.model.stations import Station
from core.services.own_shop import shop_document
from core.store import current_settings
from gui.settings.formats_page import FormatsPage
from gui.settings.price_page import PricePage
from gui.shop.chapter import EVERY_KIND
from gui.shop.shop_screen import ShopScreen
from tests.flows.test_counter_to_receipt import (
    ALT,
    Clerk,
    check_off_copies,
    clerk,
    find_at_pickup,
    hand_back,
    log_folder,
    type_box,
)
from tests.support.pdf import words as words_of_paper
from tests.support.screens import press, press_text

__all__ = ["clerk", "log_folder"]

NAME, KEY = "Sound film", "sound-film"
FEET, FRAMES, RATE_PRICE = 100, 72, "0.50"


def open_chapter(clerk: Clerk, name: str) -> ShopScreen:
    """Down the list of chapters until this one is on show."""
    clerk.go(Qt.Key.Key_F5)
    screen = clerk.window.screen_on_show()
    assert isinstance(screen, ShopScreen)
    screen.chapters.setFocus()
    press(Qt.Key.Key_Home)
    for _ in screen.chapters.pieces:
        if screen.chapters.current != name:
            press(Qt.Key.Key_Down)
    clerk.settle()
    assert screen.chapters.current == name
    return screen


def add_format(clerk: Clerk) -> None:
    """One like Super 8, done by a deck of the shop; F6 keeps it."""
    screen = open_chapter(clerk, "formats")
    (page,) = screen.page.findChildren(FormatsPage)
    page.like.setFocus()
    press_text("Super")
    press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Space)
    press_text(NAME)
    page.form.machines.boxes["VHS 1"].setFocus()
    press(Qt.Key.Key_Space)
    press(Qt.Key.Key_F6)
    clerk.settle()
    clerk.settle()


def price_it(clerk: Clerk) -> None:
    """Its row is in the table at once; the price by the foot is entered by the other door."""
    screen = open_chapter(clerk, "prices")
    (page,) = screen.page.findChildren(PricePage)
    assert NAME in [line.row.words for line in page.table.lines]
    rate = f'{{way = "per-unit", price = "{RATE_PRICE}"}}'
    clerk.shop.desk.work.run(shop_document.set_texts, [(f"prices.capture.{KEY}", rate)], changes=EVERY_KIND)
    clerk.settle()


def book_it(clerk: Clerk) -> list[TapeCode]:
    clerk.to_counter()
    type_box(clerk, ("2", "sound", f"{FEET} ft", "", "18 fps", "", "", "Lake"))
    clerk.settle()
    clerk.move_on()
    assert not clerk.told.startswith("Not possible"), clerk.told
    return [tape.code for tape in clerk.job().tapes]


def work_through(clerk: Clerk, codes: list[TapeCode]) -> None:
    clerk.go(Qt.Key.Key_F3)
    for code in codes:
        clerk.scan(code)
        clerk.move_on()
        press(Qt.Key.Key_C, ALT)
        clerk.settle()
        assert clerk.station(code) is Station.CLEARED_TO_PLAY
        clerk.scan(code)
        clerk.move_on()
        assert clerk.station(code) is Station.PLAYING
        clerk.scan(code)
        press_text("6.5")
        clerk.move_on()
        clerk.move_on()
        assert clerk.station(code) is Station.READY


def test_from_the_page_to_the_receipt_without_a_restart(clerk: Clerk) -> None:
    add_format(clerk)
    assert [form.name for form in clerk.books.ask(current_settings.read).formats] == [KEY]
    assert catalogue().format(KEY).words == NAME
    price_it(clerk)

    codes = book_it(clerk)
    job = clerk.job()
    (charge,) = [each for each in job.quote.price.charges if each.code == f"capture-{KEY}"]
    assert charge.amount.likely == 2 * FEET * 50
    assert job.tapes[0].minutes.likely == pytest.approx(FEET * FRAMES / 18 / 60, rel=0.02)
    assert job.promise.day is not None

    work_through(clerk, codes)
    screen = find_at_pickup(clerk)
    for code in codes:
        clerk.scan(code)
    press(Qt.Key.Key_S, ALT)
    check_off_copies(clerk, screen)
    hand_back(clerk)
    assert not clerk.told.startswith("Not possible"), clerk.told
    assert all(tape.station is Station.HANDED_BACK for tape in clerk.job().tapes)
    receipt = next(path for path in clerk.opened if path.name.startswith("receipt"))
    assert NAME in words_of_paper(receipt.read_bytes())
