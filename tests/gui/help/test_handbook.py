"""The handbook: a page a screen, whose keys and labels exist, the bench cards in it, and a search."""

from __future__ import annotations

import re

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication

from core.catalogue import bench_cards
from core.catalogue.formats import catalogue
from core.wording import message_files
from core.wording.messages import say
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.first_run.set_up_screen import SetUpScreen
from gui.help import handbook_pages, screen_commands
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import actions
from gui.toolkit.screen import Screen
from tests.support.screens import Place

KINDS: dict[str, type[Screen]] = {
    "counter": CounterScreen,
    "phone": PhoneScreen,
    "bench": BenchScreen,
    "pickup": PickupScreen,
    "shop": ShopScreen,
}
OURS = (*handbook_pages.OF_SCREENS, *handbook_pages.OTHERS)
BOLD = re.compile(r"\*\*(.+?)\*\*")
_KEYS = r"F\d{1,2}|Return|Esc|Tab|Space|Up|Down|Left|Right|Del|Alt|."
OF_FIELDS = {"Return", "Esc", "Tab", "Space", "Up", "Down", "Alt", "Alt+0", "Alt+7", "Alt+8", "Alt+9"}
"""Keys of fields and lists, which are no commands; the last three take a customer who is offered."""
SAVED_IN_CHAPTERS = {"F6", "F7", "F8"}
"""Keys of open chapters of Shop and of pages of the set-up (`gui.settings`)."""


def page(name: str) -> handbook_pages.Page:
    return next(each for each in handbook_pages.every() if each.name == name)


def is_key(words: str) -> bool:
    return bool(
        re.fullmatch(
            r"((Ctrl|Alt|Shift)\+)*(F\d{1,2}|Return|Esc|Tab|Space|Up|Down|Left|Right|Del|.|Alt)", words
        )
    )


def labels() -> set[str]:
    """Every sentence of the wording as it stands on the screen, without its blanks and access keys."""
    lines = [
        line.partition("=")[2]
        for place in message_files.PLACES
        for file in (message_files.FOLDER / "en" / place).glob("*.ftl")
        for line in file.read_text(encoding="utf-8").splitlines()
        if re.match(r"[\w-]+ *=", line)
    ]
    told = {re.sub(r"\{.*?\}|&", "", line).strip() for line in lines}
    return told | {words.rpartition("   ")[0].strip() for words in told}


@pytest.mark.parametrize("name", OURS)
def test_every_label_that_a_page_names_is_in_the_wording(name: str) -> None:
    named = {words for words in BOLD.findall(page(name).text) if not is_key(words)}
    assert named - labels() == set()


@pytest.mark.parametrize("name", KINDS)
def test_every_key_that_a_page_names_exists_on_its_screen(place: Place, name: str) -> None:
    screen = place.turn_to(KINDS[name])
    there = {each.keys for each in screen_commands.of_window(place.window, screen)} | OF_FIELDS
    there |= {actions.keys_of(button) for button in screen.findChildren(QAbstractButton)}
    there |= SAVED_IN_CHAPTERS if name == "shop" else set()
    named = {words for words in BOLD.findall(page(name).text) if is_key(words)}
    assert named - there == set()


@pytest.mark.parametrize("name", ["everywhere", "customer-side", "one-line"])
def test_every_key_that_the_other_pages_name_exists(place: Place, name: str) -> None:
    screen = place.turn_to(CounterScreen)
    there = {each.keys for each in screen_commands.of_window(place.window, screen)}
    there |= {sequence.toString() for action in place.window.actions() for sequence in action.shortcuts()}
    named = {words for words in BOLD.findall(page(name).text) if is_key(words)}
    assert named - there - OF_FIELDS - {"Ctrl+G"} == set()


def test_the_keys_of_the_set_up_page_exist(place: Place) -> None:
    screen = SetUpScreen(place.desk)
    place.window.add_screens(place.desk, "The Tape Table", {"set-up": screen}, first="set-up")
    there = {each.keys for each in screen_commands.of_window(place.window, screen)}
    named = {words for words in BOLD.findall(page("set-up").text) if is_key(words)}
    assert named - there == set()


@pytest.mark.parametrize("name", ["counter", "phone", "bench", "pickup"])
def test_the_page_of_a_screen_tells_every_key_of_its_own(place: Place, name: str) -> None:
    screen = place.turn_to(KINDS[name])
    own = {
        each.keys
        for each in screen_commands.of_window(place.window, screen)
        if each.is_here and each.keys.startswith(("F", "Ctrl+"))
    }
    told = {QKeySequence(words).toString() for words in BOLD.findall(page(name).text) if is_key(words)}
    assert own - told == set()


@pytest.mark.parametrize(("kind", "name"), [(CounterScreen, "counter"), (BenchScreen, "bench")])
def test_f1_opens_the_page_of_the_screen(place: Place, kind: type[Screen], name: str) -> None:
    place.turn_to(kind)
    QTest.keyClick(QApplication.focusWidget() or place.window, Qt.Key.Key_F1)
    handbook = place.window.help.handbook
    assert handbook.isVisible()
    assert handbook.text.toPlainText().startswith(page(name).title)


def test_the_bench_card_of_every_format_is_in_it_word_for_word(place: Place) -> None:
    place.turn_to(BenchScreen)
    place.window.help.open_handbook()
    handbook = place.window.help.handbook
    handbook.list.stand_on("bench-cards")
    shown = " ".join(handbook.text.toPlainText().split())
    for form in catalogue().formats:
        card = bench_cards.card(form.name)
        for sentence in (card.title, *card.opening, *card.plays, *card.cautions, *card.general):
            assert " ".join(sentence.split()) in shown, (form.name, sentence)


@pytest.mark.parametrize(
    ("typed", "where"),
    [("splcie", "bench"), ("high contrst", "everywhere"), ("signature", "counter"), ("dozen", "one-line")],
)
def test_a_misspelt_search_finds_the_passage(typed: str, where: str) -> None:
    found = handbook_pages.found(handbook_pages.every(), typed)
    assert where in {passage.page for passage in found[:6]}


def test_typing_in_the_handbook_shows_what_was_found_and_nothing_found_is_said(place: Place) -> None:
    place.turn_to(CounterScreen)
    place.window.help.open_handbook()
    handbook = place.window.help.handbook
    handbook.field.setText("dozen")
    assert handbook.text.toPlainText().startswith(page("one-line").title)
    handbook.field.setText("zeppelin")
    assert [item.title for item in handbook.list.pieces] == [say("commands", "handbook-nothing")]


def test_every_link_of_a_page_leads_to_a_page() -> None:
    names = {each.name for each in handbook_pages.every()}
    links = {link for each in OURS for link in re.findall(r"\]\((.+?)\.md\)", page(each).text)}
    assert links
    assert links - names == set()
