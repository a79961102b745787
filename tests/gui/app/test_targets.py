"""Whatever can be clicked is large enough to be hit, on every screen (WCAG 2.2, 2.5.8: 24 by 24)."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QShortcut
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QLineEdit,
    QScrollBar,
    QTabBar,
    QWidget,
)

from core.model.job_records import Job
from core.model.stations import Station
from core.services import jobs, tapes
from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import actions
from gui.toolkit.screen import Screen
from tests.support import beginnings
from tests.support.booked import Desk, line
from tests.support.screens import Place, press, press_text

LEAST, BAR = 24, 14
CLICKED = (QAbstractButton, QComboBox, QLineEdit, QAbstractSpinBox)


def _begin(records: Desk) -> None:
    for tape in records.book(line("vhs"), line("hi8", marking="P6-120")).tapes:
        records.bring_to(tape, Station.READY)


begun_file = beginnings.begun_file(_begin)


@pytest.fixture
def job(place: Place) -> Job:
    (only,) = place.records.shop.ask(jobs.open_jobs)
    return only


def small(window: QWidget) -> list[str]:
    """The clickable widgets on show that are hard to hit, each with its size."""
    found = []
    for widget in window.findChildren(QWidget):
        if not widget.isVisible() or not is_whole(widget):
            continue
        size, name = widget.size(), f"{type(widget).__name__} {widget.objectName()!r}"
        if isinstance(widget, QScrollBar):
            if min(size.width(), size.height()) < BAR:
                found.append(f"{name} {_of(size)}")
        elif isinstance(widget, CLICKED) and min(size.width(), size.height()) < LEAST:
            found.append(f"{name} {getattr(widget, 'text', str)()!r} {_of(size)}")
        elif isinstance(widget, QAbstractItemView):
            found += low_rows(widget)
    return found


def is_whole(widget: QWidget) -> bool:
    """Not a part of another that is clicked: the line of a list, or the arrows of a row of tabs."""
    parts = (QComboBox, QAbstractSpinBox, QTabBar, QAbstractItemView)
    parent = widget.parentWidget()
    while parent is not None:
        if isinstance(parent, parts) and not isinstance(widget, QScrollBar):
            return False
        parent = parent.parentWidget()
    return True


def low_rows(view: QAbstractItemView) -> list[str]:
    rows = range(min(view.model().rowCount(), 12))
    high = [view.visualRect(view.model().index(row, 0)).height() for row in rows]
    return [f"row of {view.objectName()!r} {each}" for each in high if 0 < each < LEAST]


def _of(size: QSize) -> str:
    return f"{size.width()} x {size.height()}"


def begin(place: Place, screen: Screen, job: Job) -> None:
    """As full as a screen gets in a few keys."""
    if isinstance(screen, CounterScreen):
        press_text("3")
        screen.parts.table.commit()
        screen.draft.write(0, "format", "VHS")
    elif isinstance(screen, PhoneScreen):
        screen.box.setText(job.number)
    elif isinstance(screen, BenchScreen | PickupScreen):
        screen.hear_scan(job.tapes[0].code)
    place.settle()
    place.settle()


@pytest.mark.parametrize("kind", [CounterScreen, PhoneScreen, BenchScreen, PickupScreen, ShopScreen])
def test_whatever_can_be_clicked_is_large_enough(place: Place, job: Job, kind: type[Screen]) -> None:
    screen = place.turn_to(kind)
    place.window.resize(1366, 768)
    begin(place, screen, job)
    assert small(place.window) == []


def test_a_small_button_and_a_thin_bar_are_found(place: Place, job: Job) -> None:
    screen = place.turn_to(PickupScreen)
    begin(place, screen, job)
    screen.parts.slip.signer.setFixedHeight(20)
    assert any("20" in each for each in small(place.window))


def test_in_the_chapters_of_shop_too(place: Place) -> None:
    screen = place.turn_to(ShopScreen)
    place.window.resize(1366, 768)
    names = [piece.key for piece in screen.chapters.pieces if piece.key]
    assert len(names) > 15
    found = {}
    for name in names:
        screen.chapters.stand_on(name)
        place.settle()
        found[name] = small(place.window)
    assert {name: each for name, each in found.items() if each} == {}


def test_a_button_that_has_a_key_tells_it(place: Place, job: Job) -> None:
    """On it, or as its tool tip."""
    screen = place.turn_to(PickupScreen)
    begin(place, screen, job)
    keyed = [
        each for each in place.window.findChildren(QShortcut) if isinstance(each.parent(), QAbstractButton)
    ]
    assert len(keyed) > 5
    for shortcut in keyed:
        button, keys = shortcut.parent(), shortcut.key().toString()
        assert isinstance(button, QAbstractButton)
        told = f"{button.text()} {button.toolTip()}"
        assert not keys or keys.lower() in told.lower(), (button.objectName(), keys, told)


@pytest.mark.qt_log_ignore("grabbing the keyboard", extend=True)  # offscreen, an open list cannot
def test_f4_opens_the_list_that_has_the_keyboard_and_no_screen(place: Place, job: Job) -> None:
    place.records.shop.run(tapes.move, job.tapes[0].code, Station.BEING_CHECKED)
    place.records.shop.run(tapes.move, job.tapes[0].code, Station.CLEARED_TO_PLAY)
    screen = place.turn_to(BenchScreen)
    screen.hear_scan(job.tapes[0].code)
    place.settle()
    deck = screen.side.moves.deck
    deck.setFocus()
    pickup = actions.action(actions.Key("pickup", "F4"), screen)
    with place.qtbot.assertNotEmitted(pickup.triggered):
        press(Qt.Key.Key_F4)
    assert deck.view().isVisible()
    deck.hidePopup()
