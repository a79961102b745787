"""What holds for Phone, Bench, Pickup and Shop alike: names, sizes, keys, narrow rooms, every light."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit, QWidget

from gui.bench.bench_screen import BenchScreen
from gui.phone.phone_screen import PhoneScreen
from gui.pickup.pickup_screen import PickupScreen
from gui.shop.shop_screen import ShopScreen
from gui.toolkit import theme
from gui.toolkit.screen import Screen
from gui.widgets.layouts import Columns
from gui.widgets.signature_pad import SignaturePad
from gui.widgets.tray import Tray
from tests.gui.filled_screens import with_something_on_it
from tests.support.screens import Place

KINDS = (PhoneScreen, BenchScreen, PickupScreen, ShopScreen)
LEAST = 24
"""Pixels of a target (WCAG 2.2, 2.5.8)."""


@pytest.fixture(params=KINDS, ids=lambda kind: kind.name)
def screen(request: pytest.FixtureRequest, place: Place) -> Screen:
    """Each screen with something on it."""
    return with_something_on_it(place, request.param)


def within_reach(screen: Screen) -> list[QWidget]:
    """Widgets that can have the keyboard and are on show."""
    kinds = (QAbstractButton, QLineEdit, QComboBox, Tray, SignaturePad)
    return [
        widget
        for widget in screen.findChildren(QWidget)
        if isinstance(widget, kinds) and widget.isVisible() and widget.focusPolicy() != Qt.FocusPolicy.NoFocus
    ]


def test_everything_within_reach_has_a_name_and_can_be_hit(screen: Screen) -> None:
    reached = within_reach(screen)
    assert reached
    for widget in reached:
        name = widget.accessibleName() or (widget.text() if isinstance(widget, QAbstractButton) else "")
        assert name, f"{widget.objectName()} has no accessible name"
        assert widget.height() >= LEAST, f"{name} is {widget.height()} px high"


def test_every_field_stands_under_a_visible_label(screen: Screen) -> None:
    labelled = {label.buddy() for label in screen.findChildren(QLabel) if label.buddy() and label.text()}
    for field in screen.findChildren(QLineEdit):
        if field.isVisible() and not isinstance(field.parent(), QComboBox):
            assert field in labelled, f"{field.objectName()} has no label"


def test_tab_reaches_everything(place: Place, screen: Screen) -> None:
    by_tab = Qt.FocusPolicy.TabFocus
    reachable = {widget for widget in within_reach(screen) if widget.focusPolicy() & by_tab}
    wanted = {widget for widget in reachable if not _is_reached_by_arrows(widget)}
    reached = set()
    for _ in range(80):
        focus = QApplication.focusWidget()
        if focus is not None:
            reached.add(focus)
        place.window.focusNextPrevChild(True)
    missing = {widget.objectName() or widget.accessibleName() for widget in wanted - reached}
    assert not missing


def _is_reached_by_arrows(widget: QWidget) -> bool:
    """Of buttons that exclude each other Tab reaches the checked one, arrows the rest (as ARIA has tabs)."""
    if not isinstance(widget, QAbstractButton):
        return False
    group = widget.group()
    return group is not None and group.exclusive() and not widget.isChecked()


def test_nothing_is_clipped_at_the_usual_size(place: Place, screen: Screen) -> None:
    place.window.resize(1280, 800)
    place.settle()
    for label in screen.findChildren(QLabel):
        if label.isVisible() and label.text() and not label.wordWrap():
            assert label.width() >= label.sizeHint().width(), f"“{label.text()}” is clipped"
    for columns in screen.findChildren(Columns):
        assert columns.horizontalScrollBar().maximum() == 0


def test_in_a_narrow_room_the_hints_in_empty_fields_are_whole(place: Place, screen: Screen) -> None:
    place.window.setMinimumSize(0, 0)
    place.window.resize(640, 400)
    place.settle()
    fields = [field for field in screen.findChildren(QLineEdit) if field.isVisible()]
    for field in fields:
        room = field.width() - 2 * theme.UNIT
        assert field.fontMetrics().horizontalAdvance(field.placeholderText()) <= room, field.placeholderText()


def test_in_a_narrow_room_columns_fold_and_the_keyboard_stays_in_sight(place: Place, screen: Screen) -> None:
    """640 × 400 logical pixels: a screen of 1280 × 800 at 200 %."""
    place.window.setMinimumSize(0, 0)
    place.window.resize(640, 400)
    place.settle()
    (columns,) = [each for each in screen.findChildren(Columns) if each.isVisible()]
    assert columns.is_folded
    for _ in range(40):
        place.window.focusNextPrevChild(True)
        focus = QApplication.focusWidget()
        if focus is None or not columns.isAncestorOf(focus):
            continue
        top = focus.mapTo(columns.viewport(), QPoint(0, 0)).y()
        bottom = top + min(focus.height(), LEAST)
        in_sight = top < columns.viewport().height() and bottom > 0
        assert in_sight, f"{focus.objectName()} is out of sight"


@pytest.mark.parametrize("look", theme.LOOKS)
def test_every_light_can_be_worn(place: Place, screen: Screen, look: str) -> None:
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    theme.apply(app, theme.LOOKS[look])
    place.settle()
    image = place.window.grab().toImage()
    colours = {image.pixel(x, y) for x in range(0, image.width(), 3) for y in range(0, image.height(), 7)}
    theme.apply(app)
    assert len(colours) > 20
