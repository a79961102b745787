"""Columns side by side, or one below the other where the room is narrow."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QRect
from PySide6.QtWidgets import QApplication, QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from gui.widgets.layouts import Columns


class Wide(QWidget):
    """Two columns, the second a long form whose last field is far below."""

    def __init__(self) -> None:
        super().__init__()
        self.columns = Columns(fold_below=600)
        self.form = QWidget()
        rows = QVBoxLayout(self.form)
        self.fields = [QLineEdit() for _ in range(40)]
        for field in self.fields:
            field.setMinimumHeight(30)
            rows.addWidget(field)
        self.paper = QWidget()
        self.paper.setFixedWidth(200)
        self.paper.setMinimumHeight(300)
        self.columns.add(self.paper, 0)
        self.columns.add(self.form, 1)
        QVBoxLayout(self).addWidget(self.columns)


@pytest.fixture
def wide(qtbot: QtBot) -> Wide:
    made = Wide()
    qtbot.addWidget(made)
    made.resize(400, 400)
    made.show()
    made.activateWindow()
    qtbot.waitExposed(made)
    return made


def in_sight(wide: Wide, field: QWidget) -> bool:
    seen = wide.columns.viewport().rect()
    place = QRect(field.mapTo(wide.columns.viewport(), field.rect().topLeft()), field.size())
    return seen.contains(place)


def test_a_field_given_the_keyboard_by_the_program_is_in_sight(wide: Wide) -> None:
    for field in (wide.fields[-1], wide.fields[0]):
        assert not in_sight(wide, field)
        field.setFocus()
        QApplication.processEvents()
        assert in_sight(wide, field)


def test_so_is_a_field_that_was_made_in_the_same_moment_and_has_no_place_yet(wide: Wide) -> None:
    made = QLineEdit()
    made.setMinimumHeight(30)
    layout = wide.form.layout()
    assert layout is not None
    layout.addWidget(made)
    made.show()
    made.setFocus()
    for _ in range(3):
        QApplication.processEvents()
    assert in_sight(wide, made)


def test_a_field_that_has_the_keyboard_already_is_brought_back_after_scrolling_away(wide: Wide) -> None:
    wide.fields[-1].setFocus()
    wide.columns.verticalScrollBar().setValue(0)
    assert not in_sight(wide, wide.fields[-1])
    wide.columns.bring(wide.fields[-1])
    assert in_sight(wide, wide.fields[-1])


def test_the_field_stays_in_sight_when_the_window_becomes_narrow(wide: Wide) -> None:
    wide.resize(900, 1800)
    QApplication.processEvents()
    wide.fields[-1].setFocus()
    wide.resize(400, 400)
    for _ in range(3):
        QApplication.processEvents()
    assert wide.columns.is_folded
    assert in_sight(wide, wide.fields[-1])


def test_a_slip_of_fixed_width_stands_in_the_middle_when_folded(wide: Wide) -> None:
    assert wide.columns.is_folded
    left = wide.paper.mapTo(wide.columns.viewport(), wide.paper.rect().topLeft()).x()
    right = wide.columns.viewport().width() - left - wide.paper.width()
    assert left > 20
    assert abs(left - right) < 20
    wide.resize(900, 400)
    QApplication.processEvents()
    assert not wide.columns.is_folded
    assert wide.paper.x() == 0
