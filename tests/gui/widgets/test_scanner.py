"""A scanner is heard wherever the keyboard is, and leaves no digits behind."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QComboBox,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)
from pytestqt.qtbot import QtBot

from gui.widgets.scanner import ScanWatch

CODE = "0000180022"


class Room(QWidget):
    """A field, a button, and what was scanned; the clock goes on by ``pause`` at every look."""

    def __init__(self) -> None:
        super().__init__()
        self.field, self.button, self.text = QLineEdit(), QPushButton("Press"), QPlainTextEdit()
        self.number, self.box, self.list = QSpinBox(), QComboBox(), QListWidget()
        self.number.setMaximum(10**9)
        self.box.addItems(["not named", "0 decks", "2 decks"])
        self.list.addItems(["VHS", "0 tapes", "2 tapes"])
        column = QVBoxLayout(self)
        for widget in (self.field, self.button, self.text, self.number, self.box, self.list):
            column.addWidget(widget)
        self.heard: list[str] = []
        self.returned = 0
        self.pause, self._now = 0.008, 0.0
        self.watch = ScanWatch(self, self._clock)
        self.watch.scanned.connect(self.heard.append)
        self.field.returnPressed.connect(self._count)

    def _clock(self) -> float:
        self._now += self.pause
        return self._now

    def rest(self, seconds: float = 1.0) -> None:
        """Nobody types."""
        self._now += seconds

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


def scan(room: Room, widget: QWidget, text: str = CODE) -> None:
    """After a pause of the hand the code and Return at once."""
    room.rest()
    QTest.keyClicks(widget, text)
    QTest.keyClick(widget, Qt.Key.Key_Return)


def type_by_hand(room: Room, widget: QWidget, text: str) -> None:
    for sign in text:
        room.rest(0.15)
        QTest.keyClicks(widget, sign)


def test_a_scan_into_a_field_is_told_and_the_field_is_as_it_was(room: Room) -> None:
    type_by_hand(room, room.field, "smells of smoke")
    room.field.setCursorPosition(6)
    scan(room, room.field)
    assert room.heard == [CODE]
    assert room.field.text() == "smells of smoke"
    assert room.field.cursorPosition() == 6
    assert room.returned == 0


def test_undo_of_the_field_takes_back_what_the_hand_typed(room: Room) -> None:
    type_by_hand(room, room.field, "smells of smoke")
    scan(room, room.field)
    room.field.undo()
    assert room.field.text() == "", "one step, as if nothing had been scanned"


@pytest.mark.parametrize("is_modified", [False, True])
def test_a_field_is_as_much_modified_as_before(room: Room, is_modified: bool) -> None:
    room.field.setText("Ada")
    room.field.setModified(is_modified)
    scan(room, room.field)
    assert (room.field.text(), room.field.isModified()) == ("Ada", is_modified)


def test_what_was_selected_is_there_and_selected_again(room: Room) -> None:
    room.field.setText("Ada Fenwick")
    room.field.setSelection(4, 7)
    scan(room, room.field)
    assert (room.field.text(), room.field.selectedText()) == ("Ada Fenwick", "Fenwick")


def test_a_text_of_several_lines_is_as_it_was_with_its_undo(room: Room) -> None:
    room.text.setFocus()
    type_by_hand(room, room.text, "smells")
    scan(room, room.text)
    assert (room.heard, room.text.toPlainText()) == ([CODE], "smells")
    assert room.text.textCursor().position() == 6
    room.text.undo()
    assert room.text.toPlainText() == ""


def test_a_figure_a_list_and_a_choice_stay_where_they_stood(room: Room) -> None:
    room.number.setValue(5)
    room.list.setCurrentRow(0)
    for widget in (room.number, room.box, room.list):
        widget.setFocus()
        scan(room, widget)
    assert room.heard == [CODE] * 3
    assert (room.number.value(), room.box.currentIndex(), room.list.currentRow()) == (5, 0, 0)


def test_a_code_with_the_prefix_of_the_shop_is_heard_however_slowly_it_comes(room: Room) -> None:
    room.watch.prefix = "~"
    room.field.setText("note")
    room.pause = 0.08
    scan(room, room.field, "~" + CODE)
    assert (room.heard, room.field.text()) == ([CODE], "note")
    scan(room, room.field, "~000018")
    assert room.heard == [CODE, "000018"], "the number on a claim slip"
    room.watch.prefix = ""
    scan(room, room.field, "~000018")
    assert len(room.heard) == 2


def test_a_longer_prefix_may_hold_digits(room: Room) -> None:
    room.watch.prefix = "]C1"
    scan(room, room.field, "]C1" + CODE)
    assert (room.heard, room.field.text()) == ([CODE], "")


def test_a_scan_over_a_button_is_told_and_presses_nothing(room: Room, qtbot: QtBot) -> None:
    room.button.setFocus()
    with qtbot.assertNotEmitted(room.button.clicked):
        scan(room, room.button)
    assert room.heard == [CODE]


def test_a_hand_is_too_slow_to_be_a_scanner(room: Room) -> None:
    room.pause = 0.08
    scan(room, room.field)
    assert room.heard == []
    assert room.field.text() == CODE
    assert room.returned == 1


@pytest.mark.parametrize("text", ["000018", "00001800221", "00001800a2"])
def test_what_is_no_tape_code_is_left_where_it_was_typed(room: Room, text: str) -> None:
    scan(room, room.field, text)
    assert room.heard == []
    assert room.field.text() == text


def test_nothing_is_heard_once_the_screen_is_away(room: Room) -> None:
    room.watch.end()
    scan(room, room.field)
    assert room.heard == []


def test_two_scans_in_a_row_are_two(room: Room) -> None:
    scan(room, room.field)
    scan(room, room.field, "0000180014")
    assert room.heard == [CODE, "0000180014"]
