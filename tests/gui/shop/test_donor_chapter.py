"""The shelf of donor parts as its owner sees it: by keys alone, with a reason for every correction."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from core.model.names import DonorPart, Finding, FormatName
from core.services import donors, repair_attempts
from core.wording.locale_figures import tape_code
from core.wording.messages import say
from gui.shop.donor_stock_page import DonorStockPage
from gui.shop.shop_screen import ShopScreen
from tests.support.booked import line
from tests.support.screens import Place, press, press_text

VHS = FormatName("vhs")
LOT = "a flea-market T-120"


def opened(place: Place) -> DonorStockPage:
    """The chapter on a shop of which it was chosen."""
    screen = place.turn_to(ShopScreen)
    assert screen.chapters.stand_on("donors")
    place.settle()
    return chapter(place)


def chapter(place: Place) -> DonorStockPage:
    """The chapter that is open now."""
    found = place.window.findChildren(DonorStockPage)
    assert found
    return found[-1]


def words_on(page: DonorStockPage) -> str:
    return " ".join(label.text() for label in page.findChildren(QLabel) if label.isVisibleTo(page))


@pytest.fixture
def stocked(place: Place) -> str:
    """A shop with two lots, of which one shell went into a tape; the tape's code."""
    shop = place.records.shop
    code = place.records.book(line(findings=[Finding.SHELL_BROKEN])).tapes[0].code
    shop.run(donors.add, VHS, DonorPart.SHELL, 4, came_from=LOT)
    shop.run(donors.add, FormatName("hi8"), DonorPart.SCREWS, 10)
    shop.run(repair_attempts.record, code, "shell-swap", succeeded=True, part=DonorPart.SHELL)
    return code


def test_every_place_says_what_lies_there_where_from_and_which_tape_had_a_part(
    place: Place, stocked: str
) -> None:
    page = opened(place)

    rows = [piece.spoken for piece in page.tray.pieces]
    assert rows[0].startswith(
        f"Hi8 screws. {say('donors', 'count', count=10)}. {say('donors', 'from_nobody')}"
    )
    assert rows[1] == f"VHS shell. 3 left. from {LOT} · used in {tape_code(stocked)}"
    assert "1 × VHS shell taken off the shelf" in words_on(page)


def test_a_count_is_put_right_by_keys_with_its_reason(place: Place, stocked: str) -> None:
    page = opened(place)
    page.tray.setFocus()
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Return)
    assert QApplication.focusWidget() is page.really
    press_text("2")
    press(Qt.Key.Key_Tab)
    press_text("one was cracked")
    press(Qt.Key.Key_Return)
    place.settle()

    assert place.records.shop.ask(donors.fitting, VHS)[DonorPart.SHELL] == 2
    assert say("donors", "is_right", count=2, format="VHS", part="shell") in place.told
    assert "2 on the shelf, not 3: one was cracked" in words_on(chapter(place))
    assert chapter(place).tray.pieces[1].place == "2 left"


def test_without_a_reason_nothing_is_put_right_and_the_sentence_says_so(place: Place, stocked: str) -> None:
    page = opened(place)
    page.really.setText("1")
    page.really.setFocus()
    press(Qt.Key.Key_F6)
    place.settle()

    assert "why the count is corrected" in place.told
    assert place.records.shop.ask(donors.fitting, FormatName("hi8"))[DonorPart.SCREWS] == 10


@pytest.mark.parametrize("typed", ["", "two", "1.5"])
def test_what_is_no_count_is_named_and_marked(place: Place, stocked: str, typed: str) -> None:
    page = opened(place)
    page.really.setText(typed)
    page.because.setText("counted")
    page.because.setFocus()
    press(Qt.Key.Key_Return)
    place.settle()

    assert say("donors", "really") in place.told
    assert QApplication.focusWidget() is page.really
    assert len(place.records.shop.ask(donors.shelf).lately) == 3


def test_more_is_put_on_the_shelf_here_as_well(place: Place) -> None:
    page = opened(place)
    assert say("donors", "nothing") in words_on(page)
    page.format.setFocus()
    page.format.setCurrentIndex(page.format.findData("minidv"))
    page.part.setCurrentIndex(page.part.findData(DonorPart.REEL))
    page.how_many.setText("6")
    page.came_from.setText("worn DVM60s")
    press(Qt.Key.Key_F7)
    place.settle()

    (here,) = place.records.shop.ask(donors.stock)
    assert (here.format, here.part, here.count, here.came_from) == (
        "minidv",
        DonorPart.REEL,
        6,
        "worn DVM60s",
    )
    assert chapter(place).tray.pieces[0].place == "6 left"


def test_every_field_has_a_name_and_a_label_that_can_be_seen(place: Place, stocked: str) -> None:
    page = opened(place)
    buddies = {label.buddy() for label in page.findChildren(QLabel) if label.buddy() and label.text()}

    for field in (page.really, page.because, page.format, page.part, page.how_many, page.came_from):
        assert field.accessibleName()
        assert field in buddies
