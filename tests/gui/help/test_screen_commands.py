"""Find any command: all that a screen has stands in the drawer, misspelt words find it, Return does it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication

from core.wording.messages import say
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.help import screen_commands
from gui.help.card_drawer import CardDrawer
from gui.help.likeness import likeness
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import actions
from gui.toolkit.screen import Screen
from tests.gui.filled_screens import with_something_on_it
from tests.support.screens import Place

KINDS = (CounterScreen, PhoneScreen, BenchScreen, PickupScreen, ShopScreen)


@pytest.fixture(params=KINDS, ids=lambda kind: kind.name)
def screen(request: pytest.FixtureRequest, place: Place) -> Screen:
    """Each screen with something on it."""
    return with_something_on_it(place, request.param)


def drawer(place: Place) -> CardDrawer:
    """The drawer, pulled out by its key."""
    QTest.keyClick(place.window, Qt.Key.Key_K, Qt.KeyboardModifier.ControlModifier)
    assert place.window.help.drawer.isVisible()
    return place.window.help.drawer


def native(keys: str) -> str:
    return QKeySequence(keys).toString(QKeySequence.SequenceFormat.NativeText)


def test_every_action_and_button_with_a_key_stands_in_the_drawer(place: Place, screen: Screen) -> None:
    told = {each.keys for each in screen_commands.of_window(place.window, screen)}
    of_actions = {action.shortcut().toString() for action in (*screen.actions(), *place.window.actions())}
    of_buttons = {
        actions.keys_of(button) for button in screen.findChildren(QAbstractButton) if button.isVisible()
    }
    wanted = {native(keys) for keys in of_actions | of_buttons if keys}
    assert len(wanted) > 12
    assert wanted - told == set()


def test_every_key_of_the_list_of_actions_stands_in_the_drawer_of_the_counter(place: Place) -> None:
    counter = place.turn_to(CounterScreen)
    told = {each.keys for each in screen_commands.of_window(place.window, counter)}
    named = [each for each in vars(actions).values() if isinstance(each, actions.Key)]
    wanted = {native(key.keys) for key in (*named, *actions.MOMENTS)}
    assert wanted - told == {native(actions.WAY_OUT.keys)}  # of the banner, while it has something to say


def test_each_command_stands_there_once(place: Place, screen: Screen) -> None:
    words = [each.words for each in screen_commands.of_window(place.window, screen)]
    keys = [each.keys for each in screen_commands.of_window(place.window, screen) if each.keys]
    assert sorted(set(words)) == sorted(words)
    assert sorted(set(keys)) == sorted(keys)


def test_what_cannot_be_done_now_says_why(place: Place) -> None:
    bench = place.turn_to(BenchScreen)
    splice = next(each for each in screen_commands.of_window(place.window, bench) if each.keys == "F7")
    assert splice.why_not == say("commands", "no-tape-in-hand")
    shown = drawer(place)
    QTest.keyClicks(shown.field, "splice")
    QTest.keyClick(shown.field, Qt.Key.Key_Return)
    assert splice.why_not in shown.foot.text()
    assert shown.isVisible()


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("repaet row", "repeat-row"),
        ("undu", "undo"),
        ("colrs", "look"),
        ("custmer screen", "customer-side"),
        ("F9", "customer-side"),
        ("delete", "remove-row"),
        ("new", "new-box"),
        ("hlep", "help"),
    ],
)
def test_misspelt_words_and_other_words_find_the_command(place: Place, typed: str, words: str) -> None:
    counter = place.turn_to(CounterScreen)
    found = screen_commands.found(screen_commands.of_window(place.window, counter), typed)
    assert found[0].words == say("window", words)


def test_words_that_have_nothing_to_do_with_it_find_nothing(place: Place) -> None:
    counter = place.turn_to(CounterScreen)
    assert screen_commands.found(screen_commands.of_window(place.window, counter), "zeppelin") == ()
    assert likeness("book zeppelin", ["Book the order"]) == 0.0


def test_return_does_it_with_the_keyboard_back_where_it_was(place: Place) -> None:
    counter = place.turn_to(CounterScreen)
    before = QApplication.focusWidget()
    shown = drawer(place)
    QTest.keyClicks(shown.field, "all in one")
    QTest.keyClick(shown.field, Qt.Key.Key_Return)
    place.settle()
    assert shown.isHidden()
    assert counter.parts.line.hasFocus()
    shown.open(counter)
    QTest.keyClick(shown.field, Qt.Key.Key_Escape)
    assert counter.parts.line.hasFocus()
    assert before is not None


def test_a_click_on_a_card_does_it_as_well(place: Place) -> None:
    counter = place.turn_to(CounterScreen)
    QTest.mouseClick(
        place.window.findChild(QAbstractButton, "find-command-button"), Qt.MouseButton.LeftButton
    )
    shown = place.window.help.drawer
    QTest.keyClicks(shown.field, "all in one")
    index = shown.cards.currentIndex()
    at = shown.cards.visualRect(index).center()
    QTest.mouseClick(shown.cards.viewport(), Qt.MouseButton.LeftButton, pos=at)
    place.settle()
    assert counter.parts.line.hasFocus()


def test_no_key_does_anything_behind_the_open_drawer_but_a_card_s_own(place: Place) -> None:
    counter = place.turn_to(CounterScreen)
    shown = drawer(place)
    QTest.keyClick(shown.field, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert counter.job is None
    assert shown.isVisible()
    QTest.keyClick(shown.field, Qt.Key.Key_K, Qt.KeyboardModifier.ControlModifier)
    place.settle()
    assert shown.isHidden()


def test_the_chapters_of_the_shop_are_found_by_name(place: Place) -> None:
    shop = place.turn_to(ShopScreen)
    found = screen_commands.found(screen_commands.of_window(place.window, shop), "privcy")
    found[0].do()
    assert shop.chapters.current == "privacy"


def test_the_cards_are_heard(place: Place) -> None:
    place.turn_to(BenchScreen)
    cards = drawer(place).cards
    spoken = [cards.model().index(n, 0).data(Qt.ItemDataRole.AccessibleTextRole) for n in range(60)]
    assert any(each and "F9" in each and say("window", "customer-side") in each for each in spoken)
