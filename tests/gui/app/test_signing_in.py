"""Signing in by name and PIN, and screens that cover themselves: by keys, on a real shop."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialog, QMenu, QToolButton

from core.model.own_shop.settings_records import Permission, Person
from core.services.own_shop import people, settings_versions
from core.services.proving import system_users
from core.store import current_settings
from gui.app.signing_in import SigningIn
from gui.counter.counter_screen import CounterScreen
from gui.customer_side.customer_window import CustomerSide
from gui.widgets.tray import Tray
from tests.support.booked import events
from tests.support.screens import Place, press, press_text

OWNER = Person("Ada", may=frozenset(each.value for each in Permission))
CLERK = Person("Kim")


def enter(place: Place, *staff: Person, minutes: int = 0) -> None:
    """Put people into the records as the window would."""
    settings = replace(place.records.shop.ask(current_settings.read), staff=staff, lock_minutes=minutes)
    place.records.shop.who = place.desk.who
    place.records.shop.run(settings_versions.change, settings, needs=None)
    place.work.changed.emit(frozenset({"shop"}))
    place.settle()


@pytest.fixture
def signing(place: Place) -> SigningIn:
    """Kim stands at the counter; nobody is entered yet."""
    place.turn_to(CounterScreen)
    return SigningIn(place.window, place.desk, place.records.shop.ask(current_settings.read))


def sign_in(place: Place, name: str, pin: str = "") -> None:
    """By keys alone: down to the name, Return, the PIN, Return."""
    names = place.window.findChild(Tray, "sign-in-names")
    assert names is not None
    names.stand_on_first()
    while names.current != name:
        QTest.keyClick(names, Qt.Key.Key_Down)
    QTest.keyClick(names, Qt.Key.Key_Return)
    if pin:
        press_text(pin)
        press(Qt.Key.Key_Return)
    place.settle()


def test_where_nobody_is_entered_nothing_changes(place: Place, signing: SigningIn) -> None:
    press(Qt.Key.Key_I, Qt.KeyboardModifier.ControlModifier)
    place.settle()
    assert "Nobody is entered yet" in place.told
    assert not place.window.is_covered
    signing.lock()
    assert not place.window.is_covered


def test_somebody_else_signs_in_by_keys_and_acts_from_then_on(place: Place, signing: SigningIn) -> None:
    enter(place, replace(OWNER, pin=people.hashed("271828")), CLERK)
    assert not place.window.is_covered, "Kim is one of them and has no PIN"
    press(Qt.Key.Key_I, Qt.KeyboardModifier.ControlModifier)
    sign_in(place, "Ada", "271828")
    assert not place.window.is_covered
    assert place.desk.who == "Ada"
    button = place.window.findChild(QToolButton, "identity")
    assert button is not None
    assert button.accessibleName().endswith("· Ada")
    assert "— Ada" in place.window.windowTitle()
    place.work.run(people.set_pin, "Ada", "314159")
    place.settle()
    assert events(place.records.shop, "settings")[-1].by == "Ada"
    assert events(place.records.shop, "signed-in")[-1].by == "Ada"


def test_the_button_signs_in_as_well_and_escape_goes_back(place: Place, signing: SigningIn) -> None:
    enter(place, OWNER, CLERK)
    button = place.window.findChild(QToolButton, "identity")
    assert button is not None
    button.click()
    assert place.window.is_covered
    press(Qt.Key.Key_Escape)
    assert not place.window.is_covered
    assert place.desk.who == "Kim"


def test_a_wrong_pin_is_told_and_the_right_one_then_taken(place: Place, signing: SigningIn) -> None:
    enter(place, replace(OWNER, pin=people.hashed("271828")), CLERK)
    press(Qt.Key.Key_I, Qt.KeyboardModifier.ControlModifier)
    sign_in(place, "Ada", "0000")
    assert place.window.is_covered
    assert place.desk.who == "Kim"
    assert "That is not the PIN of Ada." in signing.page.findChild(type(signing.page._told)).text()
    assert signing.page.pin.text() == ""
    assert signing.page.pin.hasFocus()
    press_text("271828")
    press(Qt.Key.Key_Return)
    place.settle()
    assert place.desk.who == "Ada"


def test_whoever_is_none_of_the_people_signs_in_first(place: Place, signing: SigningIn) -> None:
    enter(place, OWNER)
    assert signing.is_locked
    press(Qt.Key.Key_Escape)
    assert place.window.is_covered, "there is no way around it"
    sign_in(place, "Ada")
    assert place.desk.who == "Ada"
    assert not signing.is_locked


def test_locked_screens_show_nothing_and_take_no_keys_and_the_customer_side_stays(
    place: Place, signing: SigningIn
) -> None:
    side = CustomerSide(place.window)
    place.window.wants_customer_side.connect(side.turn)
    press(Qt.Key.Key_F9)
    assert side.isVisible()
    enter(place, OWNER, CLERK)
    dialog = QDialog(place.window)
    dialog.open()
    screen = place.window.screen_named("counter")
    signing.lock()
    assert side.isVisible()
    assert not screen.isVisible()
    assert not dialog.isVisible()
    for moment in place.window.moments.values():
        assert not moment.isEnabled()
    place.window.go("counter")
    assert not screen.isVisible()
    sign_in(place, "Kim")
    assert screen.isVisible()
    assert dialog.isVisible()
    dialog.close()
    side.close()


@pytest.mark.qt_log_ignore("grabbing the keyboard", extend=True)  # offscreen, a menu cannot
def test_a_list_that_hangs_open_is_gone_from_locked_screens(place: Place, signing: SigningIn) -> None:
    """A list of customers or a menu would else stay in front of the names and PINs."""
    enter(place, OWNER, CLERK)
    menu = QMenu(place.window)
    menu.addAction("Ada Fenwick")
    menu.popup(place.window.mapToGlobal(place.window.rect().center()))
    assert menu.isVisible()
    signing.lock()
    assert not menu.isVisible()


def test_the_customer_side_stays_as_it_is_when_the_time_is_over(place: Place, signing: SigningIn) -> None:
    """By the timer itself, with a box on the counter: the customer goes on reading."""
    side = CustomerSide(place.window)
    place.window.wants_customer_side.connect(side.turn)
    press(Qt.Key.Key_F9)
    enter(place, OWNER, CLERK, minutes=1)
    shown = side.words
    signing._idle.timeout.emit()
    place.settle()
    assert signing.is_locked
    assert side.isVisible()
    assert side.words == shown
    sign_in(place, "Kim")
    assert side.isVisible()
    side.close()


def test_the_screens_lock_after_the_owners_minutes_without_a_touch(place: Place, signing: SigningIn) -> None:
    enter(place, OWNER, CLERK, minutes=7)
    wait = signing._idle
    assert (wait.isActive(), wait.isSingleShot(), wait.interval()) == (True, True, 7 * 60_000)
    wait.stop()
    press(Qt.Key.Key_Down)
    assert wait.isActive(), "a key begins the wait anew"
    wait.timeout.emit()
    assert signing.is_locked
    sign_in(place, "Kim")
    assert not signing.is_locked


def test_without_minutes_the_screens_never_lock_themselves(place: Place, signing: SigningIn) -> None:
    enter(place, OWNER, CLERK, minutes=7)
    enter(place, OWNER, CLERK, minutes=0)
    press(Qt.Key.Key_Down)
    assert not signing._idle.isActive()


def test_a_pin_is_asked_again_after_the_lock(place: Place, signing: SigningIn) -> None:
    enter(place, replace(OWNER, pin=people.hashed("271828")), CLERK)
    press(Qt.Key.Key_I, Qt.KeyboardModifier.ControlModifier)
    sign_in(place, "Ada", "271828")
    signing.lock()
    assert signing.is_locked
    place.work.changed.emit(frozenset({"shop"}))
    place.settle()
    assert signing.is_locked, "a change of the settings opens nothing"
    sign_in(place, "Ada", "271828")
    assert not signing.is_locked


def test_another_shop_is_not_locked_by_the_one_before(place: Place, signing: SigningIn) -> None:
    enter(place, OWNER, CLERK)
    signing.lock()
    signing.deleteLater()
    place.window.show_alone(None)
    assert not place.window.is_covered
    assert all(moment.isEnabled() for moment in place.window.moments.values())
    place.turn_to(CounterScreen)
    assert place.window.screen_named("counter").isVisible()


def at_the_start(place: Place, who: str = "counter") -> SigningIn:
    """A window that was just opened under a name."""
    place.desk.act_as(who)
    place.turn_to(CounterScreen)
    made = SigningIn(place.window, place.desk, place.records.shop.ask(current_settings.read))
    place.settle()
    return made


def guard(place: Place, *staff: Person) -> None:
    settings = place.records.shop.ask(current_settings.read)
    owner = replace(OWNER, pin=people.hashed("271828"))
    place.records.shop.run(settings_versions.change, replace(settings, staff=(owner, *staff)), needs=None)


def test_whose_computer_user_this_is_is_signed_in_at_the_start_and_not_after_a_lock(place: Place) -> None:
    user = system_users.current().text
    guard(place, replace(CLERK, pin=people.hashed("31415"), system_users=(user,)))
    signing = at_the_start(place)
    assert place.desk.who == "Kim"
    assert not place.window.is_covered
    assert events(place.records.shop, "signed-in")[-1].by == "Kim"
    signing.lock()
    sign_in(place, "Kim")
    assert place.window.is_covered, "whoever is at the keys now types the PIN"


def test_a_name_typed_at_the_start_is_not_proven_by_the_computer_of_somebody_else(place: Place) -> None:
    guard(place, replace(CLERK, system_users=("kim/1@elsewhere",)))
    signing = at_the_start(place, "Kim")
    assert signing.is_locked
    sign_in(place, "Kim")
    assert signing.is_locked
    assert (
        "Kim has no PIN, and this computer user is not Kim."
        in signing.page.findChild(type(signing.page._told)).text()
    )
