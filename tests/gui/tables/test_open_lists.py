"""A list opens as whoever sits there tries to open it, and shows what may be chosen."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, QRectF, Qt
from PySide6.QtGui import QPainter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QScrollBar, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from gui.counter import accepted_words, tape_table
from gui.tables.choices import CellChoice
from gui.tables.column_specs import Column
from gui.tables.keyboard_navigation import KeyboardTable
from gui.tables.rows_model import RowsModel
from gui.tables.suggestion_list import MOST_OFFERED, SuggestionList
from gui.tables.type_ahead import TypeAhead
from gui.toolkit import actions, theme
from tests.support.screens import press, press_text

DRAWN: list[str] = []
NAMES = [f"Format {number}" for number in range(12)]


def _draw(painter: QPainter, place: QRectF) -> None:
    assert place.width() > 20
    DRAWN.append("drawn")


FORMATS = tuple(CellChoice(name, draw=_draw) for name in NAMES)
COLUMNS = (
    Column("count", "Count", lambda row: row[0], 60, edited=True),
    Column("format", "Format", lambda row: row[1], 160, edited=True, choices=lambda row: FORMATS),
)


@pytest.fixture
def table(qtbot: QtBot, qapp: QApplication) -> Iterator[KeyboardTable]:
    theme.apply(qapp)
    rows = RowsModel(COLUMNS)
    rows.show([("1", "Format 3"), ("2", "")])
    window, made = QWidget(), KeyboardTable(rows)
    qtbot.addWidget(window)
    QVBoxLayout(window).addWidget(made)
    window.resize(500, 400)
    window.show()
    window.activateWindow()
    qtbot.waitExposed(window)
    made.setFocus()
    made.put_cursor(0, 1)
    yield made
    window.close()


def offered(table: KeyboardTable) -> list[str]:
    editor = table.cells.editor
    return [one.words for one in editor.offered] if isinstance(editor, TypeAhead) else []


def shown(table: KeyboardTable) -> SuggestionList:
    return next(one for one in table.window().findChildren(SuggestionList) if one.isVisible())


@pytest.mark.parametrize(
    ("key", "held"),
    [(Qt.Key.Key_F4, Qt.KeyboardModifier.NoModifier), (Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier)],
)
def test_a_key_opens_the_list_of_a_cell(table: KeyboardTable, key: Qt.Key, held: Qt.KeyboardModifier) -> None:
    press(key, held)
    assert offered(table) == NAMES
    press(Qt.Key.Key_Escape)
    assert offered(table) == []
    assert table.cells.editor is not None
    assert table.cells.editor.text() == "Format 3"


def test_a_click_opens_the_list_of_a_cell(table: KeyboardTable) -> None:
    here = table.visualRect(table.rows.index(1, 1)).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=here)
    assert offered(table) == NAMES
    plain = table.visualRect(table.rows.index(0, 0)).center()
    QTest.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=plain)
    assert not table.is_editing, "a cell without a list is stood on, as ever"


def test_the_key_that_opens_lists_is_that_of_the_screen_where_there_is_no_list(
    table: KeyboardTable, qtbot: QtBot
) -> None:
    made = actions.action(actions.Key("pickup", "F4"), table)
    with qtbot.assertNotEmitted(made.triggered):
        press(Qt.Key.Key_F4)
        press(Qt.Key.Key_F4)
    press(Qt.Key.Key_Return)
    table.put_cursor(0, 0)
    with qtbot.waitSignal(made.triggered, timeout=1000):
        press(Qt.Key.Key_F4)


def test_down_moves_in_an_open_list_and_to_the_next_row_in_a_closed_one(table: KeyboardTable) -> None:
    press(Qt.Key.Key_F4)
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Down)
    assert table.cells.editor is not None
    assert table.cells.editor.text() == NAMES[1]
    press(Qt.Key.Key_Escape)
    press(Qt.Key.Key_Down)
    assert (table.currentIndex().row(), table.is_editing) == (1, False)


def test_what_may_be_chosen_is_drawn_beside_its_words(table: KeyboardTable) -> None:
    DRAWN.clear()
    press(Qt.Key.Key_F4)
    shown(table).grab()
    assert len(DRAWN) == MOST_OFFERED


def test_every_shell_of_the_formats_is_drawn() -> None:
    assert all(one.draw is not None for one in accepted_words.formats_offered())
    assert next(each for each in tape_table.columns() if each.name == "format").choices is not None


def test_a_long_list_has_a_bar_that_can_be_hit_and_scrolls_by_wheel(table: KeyboardTable) -> None:
    press(Qt.Key.Key_F4)
    bar = shown(table).findChild(QScrollBar)
    assert isinstance(bar, QScrollBar)
    assert bar.isVisible()
    assert bar.width() >= 14
    bar.setValue(bar.maximum())
    QTest.mouseClick(shown(table), Qt.MouseButton.LeftButton, pos=QPoint(60, 20))
    assert table.cells.editor is not None
    assert table.cells.editor.text() == NAMES[bar.maximum()]


def test_the_choice_under_the_pointer_looks_it(table: KeyboardTable) -> None:
    press_text("f")
    before = shown(table).grab().toImage()
    fourth = shown(table).height() * 7 // 16
    QTest.mouseMove(shown(table), QPoint(80, fourth))
    after = shown(table).grab().toImage()
    spot = QPoint(shown(table).width() - 40, fourth - 6)
    assert before.pixelColor(spot) != after.pixelColor(spot)
    assert before.pixelColor(spot.x(), 9) == after.pixelColor(spot.x(), 9), "what Return takes stays lit"
