"""What a screen reader is given, read through Qt's accessible interfaces and announcements.

The desktop's own bus is asked in ``tests/flows/test_screen_reader.py``, for less: it takes seconds a step.
"""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent, QAccessibleInterface
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QWidget

from core.model.errors import Refused
from core.wording.locale_figures import day, tape_code
from core.wording.messages import say
from gui.app import banner, walkthrough_records
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import actions
from gui.toolkit.text import money_range
from tests.support.booked import line
from tests.support.screens import Place, press, press_text


def heard(widget: QWidget) -> list[str]:
    """All names and values on show below ``widget``."""
    return [*_heard(QAccessible.queryAccessibleInterface(widget))]


def _heard(thing: QAccessibleInterface) -> Iterator[str]:
    for n in range(thing.childCount()):
        child = thing.child(n)
        if child is None or child.state().invisible:
            continue
        yield child.text(QAccessible.Text.Name)
        yield child.text(QAccessible.Text.Value)
        yield from _heard(child)


@pytest.fixture
def aloud(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is announced meanwhile."""
    said: list[str] = []

    def update(event: QAccessibleAnnouncementEvent) -> None:
        said.append(event.message())

    monkeypatch.setattr(banner.QAccessible, "updateAccessibility", update)
    return said


def test_the_counter_reads_price_day_and_question(place: Place) -> None:
    counter = place.turn_to(CounterScreen)
    counter.draft.begin(walkthrough_records.box(place.desk.clock()))
    place.settle()
    quote = counter.quote
    assert quote is not None
    assert quote.promise.day is not None
    all_of_it = "\n".join(heard(place.window))
    assert money_range(quote.price.gross, quote.price.currency) in all_of_it
    assert day(quote.promise.day) in all_of_it
    assert quote.questions[0].text in all_of_it


def test_a_refusal_is_read_out_and_stands_in_the_window(place: Place, aloud: list[str]) -> None:
    place.turn_to(CounterScreen)
    place.window.banner.refuse(Refused("The tape is not marked yet."))
    told = say(
        "window", "banner_read", word=say("window", "not_possible"), sentence="The tape is not marked yet."
    )
    assert aloud == [told]
    assert told in heard(place.window)


def test_each_button_of_the_bench_says_what_it_does_to_which_tape(place: Place) -> None:
    job = place.records.book(line(count=2))
    bench = place.turn_to(BenchScreen)
    for tape in job.tapes:
        bench.take(tape.code)
        place.settle()
        named = [button for button in bench.side.findChildren(QAbstractButton) if button.isVisible()]
        spoken = [actions.plain(button.accessibleName()) for button in named if button.property("named")]
        assert len(spoken) > 3
        assert all(tape_code(tape.code) in name for name in spoken)
    assert bench.side.splice_button.accessibleName() == say(
        "commands", "does-splice", does="Record a splice", target=f"tape {tape_code(tape.code)}"
    )


@pytest.mark.parametrize("kind", [PhoneScreen, PickupScreen])
def test_each_button_of_an_order_says_which_order(
    place: Place, kind: type[PhoneScreen | PickupScreen]
) -> None:
    job = place.records.book(line(count=2))
    screen = place.turn_to(kind)
    press_text(job.tapes[0].code)
    press(Qt.Key.Key_Return)
    place.settle()
    place.settle()
    named = [button for button in screen.findChildren(QAbstractButton) if button.property("named")]
    assert len(named) > 2
    assert all(str(job.number) in button.accessibleName() for button in named)
    for button in named:  # WCAG 2.2, 2.5.3: who speaks the words on a button presses it
        words = actions.plain(button.text(), actions.keys_of(button))
        assert words.casefold() in button.accessibleName().casefold()


@pytest.mark.parametrize("kind", [CounterScreen, PhoneScreen, BenchScreen, PickupScreen, ShopScreen])
def test_every_control_is_reached_by_keys_and_every_command_by_the_mouse(
    place: Place, kind: type[CounterScreen | PhoneScreen | BenchScreen | PickupScreen | ShopScreen]
) -> None:
    screen = place.turn_to(kind)
    controls = [each for each in place.window.findChildren(QAbstractButton) if _is_control(each)]
    assert len(controls) > 4
    by_tab = Qt.FocusPolicy.TabFocus
    lost = [each for each in controls if not each.focusPolicy() & by_tab and not actions.keys_of(each)]
    keys_of_screen = {actions.plain(action.text()) for action in screen.actions()}
    lost = [each for each in lost if actions.told_on(each) not in keys_of_screen]
    assert [each.objectName() or each.text() for each in lost] == []
    find = place.window.findChild(QAbstractButton, "find-command-button")
    assert find.isVisible()
    QTest.mouseClick(find, Qt.MouseButton.LeftButton)
    assert place.window.help.drawer.isVisible()


def _is_control(button: QAbstractButton) -> bool:
    return button.isVisible() and bool(button.text() or button.accessibleName())
