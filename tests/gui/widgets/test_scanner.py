"""A scanner is heard wherever the keyboard is, and leaves no digits behind."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from gui.widgets.scanner import ScanWatch

CODE = "0000180022"


class Room(QWidget):
    """A field, a button, and what was scanned; the clock goes on by ``pause`` at every look."""

    def __init__(self) -> None:
        super().__init__()
        self.field, self.button = QLineEdit(), QPushButton("Press")
        column = QVBoxLayout(self)
        column.addWidget(self.field)
        column.addWidget(self.button)
        self.heard: list[str] = []
        self.returned = 0
        self.pause, self._now = 0.008, 0.0
        self.watch = ScanWatch(self, self._clock)
        self.watch.scanned.connect(self.heard.append)
        self.field.returnPressed.connect(self._count)

    def _clock(self) -> float:
        self._now += self.pause
        return self._now

    def _count(self) -> None:
        self.returned += 1


@pytest.fixture
def room(qtbot: QtBot) -> Iterator[Room]:
    made = Room()
    qtbot.addWidget(made)
    made.show()
    made.activateWindow()
    qtbot.waitExposed(made)
    made.watch.begin()
    made.field.setFocus()
    yield made
    made.watch.end()


def scan(widget: QWidget, text: str = CODE) -> None:
    QTest.keyClicks(widget, text)
    QTest.keyClick(widget, Qt.Key.Key_Return)


def test_a_scan_into_a_field_is_told_and_the_field_is_as_it_was(room: Room) -> None:
    room.field.setText("smells of smoke")
    scan(room.field)
    assert room.heard == [CODE]
    assert room.field.text() == "smells of smoke"
    assert room.returned == 0


def test_a_scan_over_a_button_is_told_and_presses_nothing(room: Room, qtbot: QtBot) -> None:
    room.button.setFocus()
    with qtbot.assertNotEmitted(room.button.clicked):
        scan(room.button)
    assert room.heard == [CODE]


def test_a_hand_is_too_slow_to_be_a_scanner(room: Room) -> None:
    room.pause = 0.08
    scan(room.field)
    assert room.heard == []
    assert room.field.text() == CODE
    assert room.returned == 1


@pytest.mark.parametrize("text", ["000018", "00001800221", "00001800a2"])
def test_what_is_no_tape_code_is_left_where_it_was_typed(room: Room, text: str) -> None:
    scan(room.field, text)
    assert room.heard == []
    assert room.field.text() == text


def test_nothing_is_heard_once_the_screen_is_away(room: Room) -> None:
    room.watch.end()
    scan(room.field)
    assert room.heard == []


def test_two_scans_in_a_row_are_two(room: Room) -> None:
    scan(room.field)
    scan(room.field, "0000180014")
    assert room.heard == [CODE, "0000180014"]
