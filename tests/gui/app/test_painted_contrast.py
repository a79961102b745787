"""Every pair that is painted can be read, and the keyboard can be seen: five screens, three looks."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QCheckBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from gui.bench.bench_screen import BenchScreen
from gui.counter.counter_screen import CounterScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import theme
from gui.toolkit.colors import Tokens
from gui.toolkit.screen import Screen
from tests.gui.app import painted_contrast
from tests.gui.filled_screens import with_something_on_it
from tests.support.screens import Place

KINDS = (CounterScreen, PhoneScreen, BenchScreen, PickupScreen, ShopScreen)
RINGED = (QAbstractButton, QLineEdit, QComboBox, QAbstractItemView)


def looks() -> Iterator[tuple[str, Tokens]]:
    """Each look, worn by the program; the light one again in the end."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    try:
        for name, tokens in theme.LOOKS.items():
            theme.apply(app, tokens)
            QApplication.processEvents()
            yield name, tokens
    finally:
        theme.apply(app)


@pytest.fixture(params=KINDS, ids=lambda kind: kind.name)
def screen(request: pytest.FixtureRequest, place: Place) -> Screen:
    """Each screen with something on it."""
    return with_something_on_it(place, request.param)


def test_all_that_is_written_is_read_and_the_keyboard_is_seen(place: Place, screen: Screen) -> None:
    faint, unseen = [], []
    for look, _ in looks():
        for area in screen.findChildren(QScrollArea):
            area.verticalScrollBar().setValue(0)
        faint += [f"{look}: {each}" for each in painted_contrast.faint(place.window)]
        unseen += [f"{look}: {each}" for each in _rings_unseen(place.window, screen)]
    assert faint == []
    assert unseen == []


def test_the_drawer_and_the_handbook_are_read_as_well(place: Place) -> None:
    place.turn_to(CounterScreen)
    faint = []
    place.window.help.open_drawer()
    place.window.help.open_handbook()
    for look, _ in looks():
        for shown in (place.window.help.drawer, place.window.help.handbook):
            faint += [f"{look}: {each}" for each in painted_contrast.faint(shown)]
    assert faint == []


def _rings_unseen(window: QWidget, screen: Screen) -> Iterator[str]:
    """One control of each making, where its ring is too little."""
    made: dict[tuple[str, str], QWidget] = {}
    for widget in screen.findChildren(QWidget):
        is_whole = widget.visibleRegion().boundingRect() == widget.rect() and widget.isEnabled()
        by_tab = widget.focusPolicy() & Qt.FocusPolicy.TabFocus and not isinstance(widget.parent(), QComboBox)
        if isinstance(widget, RINGED) and is_whole and by_tab:
            made.setdefault((type(widget).__name__, str(widget.property("role"))), widget)
    # what is measured is scrolled to the middle: the edges of a sheet fade
    outside = window.findChild(QAbstractButton, "find-command-button")
    for widget in made.values():
        for area in (each for each in screen.findChildren(QScrollArea) if each.isAncestorOf(widget)):
            bar, middle = area.verticalScrollBar(), area.viewport().height() // 2
            bar.setValue(bar.value() + widget.mapTo(area, widget.rect().center()).y() - middle)
        share = painted_contrast.ring(widget, outside)
        is_whole = widget.visibleRegion().boundingRect() == widget.rect()
        if is_whole and share < 0.45:  # a line of 1 px is half of one of 2
            yield f"{type(widget).__name__} {widget.objectName()} {share:.2f}"


# --- the check itself --------------------------------------------------------------------


@pytest.fixture
def board(qapp: QApplication) -> Iterator[QVBoxLayout]:
    theme.apply(qapp)
    window = QWidget()
    window.setProperty("role", "ground")
    window.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
    column = QVBoxLayout(window)
    window.resize(300, 200)
    window.show()
    yield column
    window.close()


@pytest.mark.parametrize(("ink", "is_faint"), [("#767676", False), ("#8A8A8A", True)])
def test_a_faint_text_is_found(board: QVBoxLayout, ink: str, is_faint: bool) -> None:
    # on white: 4.54:1 and 3.45:1
    label = QLabel("words to be read")
    label.setStyleSheet(f"background: #FFFFFF; color: {ink}")
    board.addWidget(label)
    QApplication.processEvents()
    window = label.window()
    assert bool([*painted_contrast.faint(window)]) is is_faint


def test_a_faint_hint_in_an_empty_field_is_found(board: QVBoxLayout) -> None:
    field = QLineEdit()
    field.setPlaceholderText("what belongs here")
    board.addWidget(field)
    QApplication.processEvents()
    assert [*painted_contrast.faint(field.window())] == []
    field.setStyleSheet("placeholder-text-color: #9A9A9A")
    QApplication.processEvents()
    assert len([*painted_contrast.faint(field.window())]) == 1


@pytest.mark.parametrize(
    ("sheet", "is_seen"), [("", True), ("QCheckBox:focus { border: 2px solid #DCD1BE }", False)]
)
def test_a_ring_that_cannot_be_seen_is_found(board: QVBoxLayout, sheet: str, is_seen: bool) -> None:
    box, other = QCheckBox("Rush"), QPushButton("Other")
    box.setStyleSheet(sheet)
    board.addWidget(box)
    board.addWidget(other)
    box.window().activateWindow()
    QApplication.processEvents()
    assert (painted_contrast.ring(box, other) >= 0.45) is is_seen
