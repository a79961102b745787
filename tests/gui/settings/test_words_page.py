"""A sentence is found by part of it, worded anew by keys, seen on paper; cautions can only be added."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from core.model.own_shop.settings_records import ShopFront
from core.store import current_settings
from core.wording import messages
from gui.settings.words_page import WordsPage
from gui.shop.shop_screen import ShopScreen
from gui.toolkit.text import say
from tests.support.pdf import words
from tests.support.screens import Place, press, type_in, written

BRING = "paper/slip-bring"
OWN = "Bring this slip and a smile."


@pytest.fixture
def page(place: Place) -> WordsPage:
    place.records.book()
    shop = place.turn_to(ShopScreen)
    shop.chapters.stand_on("words")
    place.settle()
    found = next(iter(shop.page.findChildren(WordsPage)))
    found.focus_first()
    return found


def _front(place: Place) -> ShopFront:
    return place.records.shop.ask(current_settings.read).front


def _find(page: WordsPage, typed: str) -> None:
    page.search.clear()
    type_in(page.search, typed)


def test_a_sentence_is_found_by_part_of_it_and_both_are_seen(page: WordsPage) -> None:
    assert say("settings", "words-none-yet") in written(page)
    _find(page, "slip photo")
    assert page.current is not None
    assert page.current.place == BRING
    assert page.built_in.text() == say("paper", "slip-bring")
    page.text.setPlainText(OWN)
    assert page.built_in.text() == say("paper", "slip-bring")
    _find(page, "a smile")
    assert page.current.place == BRING
    _find(page, "no such sentence anywhere")
    assert page.current is None
    assert not page.text.isEnabled()


def test_it_is_worded_anew_by_keys_and_listed_as_ones_own(place: Place, page: WordsPage) -> None:
    _find(page, "slip photo")
    press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Tab)
    assert page.text.hasFocus()
    type_in(page.text, OWN)
    press(Qt.Key.Key_F6)
    place.settle()
    assert _front(place).words == ((BRING, OWN),)
    anew = next(iter(place.window.findChildren(WordsPage)))
    assert [piece.key for piece in anew.found.pieces] == [BRING]


def test_down_in_the_search_travels_what_was_found(page: WordsPage) -> None:
    _find(page, "claim slip")
    first = page.current
    press(Qt.Key.Key_Down)
    assert page.search.hasFocus()
    assert page.current != first


def test_an_empty_text_takes_the_built_in_sentence_back(place: Place, page: WordsPage) -> None:
    _find(page, "slip photo")
    page.text.setPlainText(OWN)
    assert page.own == {BRING: OWN}
    page.text.setPlainText("  ")
    assert page.own == {}
    page.text.setPlainText(say("paper", "slip-bring"))
    assert page.own == {}


def test_a_missing_blank_is_said_at_the_field_and_nothing_is_kept(place: Place, page: WordsPage) -> None:
    _find(page, "read us the order number")
    assert page.current is not None
    assert "{ $phone }" in page.blanks.text()
    page.text.setPlainText("Ring us.")
    _find(page, "slip photo")
    press(Qt.Key.Key_F6)
    place.settle()
    assert "{ $phone }" in place.told
    assert page.current.place == "paper/slip-ask"
    assert page.text.hasFocus()
    assert page.text.property("wrong")
    assert _front(place).words == ()


@pytest.mark.parametrize(
    "typed", ["local rules go first", "breathing protection", "rights under local consumer"]
)
def test_cautions_and_rights_are_not_found(page: WordsPage, typed: str) -> None:
    _find(page, typed)
    assert page.current is None


def test_cautions_of_ones_own_are_added(place: Place, page: WordsPage) -> None:
    page.cautions.setPlainText("Tapes left for a year are given away.\n\nNo smoking near the tapes.\n")
    press(Qt.Key.Key_F6)
    place.settle()
    assert _front(place).extra_cautions == (
        "Tapes left for a year are given away.",
        "No smoking near the tapes.",
    )


def test_a_caution_too_many_is_said_at_its_field(place: Place, page: WordsPage) -> None:
    page.cautions.setPlainText("a\nb\nc\nd")
    press(Qt.Key.Key_F6)
    place.settle()
    assert say("settings", "words-cautions") in place.told
    assert page.cautions.hasFocus()
    assert _front(place).extra_cautions == ()


def test_it_is_seen_on_the_real_paper_before_it_is_saved(place: Place, page: WordsPage) -> None:
    _find(page, "slip photo")
    page.text.setPlainText(OWN)
    press(Qt.Key.Key_F8)
    place.settle()
    (file,) = place.shown_files
    assert OWN in words(file.read_bytes())
    assert _front(place).words == ()
    _find(page, "how the price adds up")
    page.text.setPlainText("What it comes to")
    press(Qt.Key.Key_F8)
    place.settle()
    assert "What it comes to" in words(place.shown_files[-1].read_bytes())
    assert messages.current().own is None


def test_only_a_sentence_of_quote_or_slip_is_offered_on_paper(place: Place, page: WordsPage) -> None:
    preview = place.window.findChild(QPushButton, "words-preview")
    _find(page, "slip photo")
    assert preview.isEnabled()
    _find(page, "files of order")
    assert not preview.isEnabled()
