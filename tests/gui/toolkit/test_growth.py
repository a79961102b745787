"""Type, gaps and bounds grow with the window, and come back to what they were."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from gui.toolkit import colors, growth, sizes, style_sheet, theme
from gui.widgets.signature_pad import SignaturePad

PLAIN, LARGE = (1440, 800), (2160, 1200)
"""A window as it was drawn up, and one half as large again."""


@pytest.fixture(autouse=True)
def plain_again(qapp: QApplication) -> Iterator[None]:
    theme.apply(qapp)
    yield
    theme.grow(sizes.UNIT)
    theme.apply(qapp)


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    """Type of the style sheet, type of its own, a field, a paragraph of a fixed height, and a gap."""
    made = QWidget()
    qtbot.addWidget(made)
    column = QVBoxLayout(made)
    column.setSpacing(theme.UNIT)
    lead, own, fixed = QLabel("lead"), QLabel("own"), QLabel("fixed")
    lead.setProperty("role", "lead")
    own.setFont(theme.font(theme.LEAD))
    fixed.setObjectName("fixed")
    fixed.setFixedHeight(8 * theme.UNIT)
    for widget in (lead, own, QLineEdit(), fixed):
        column.addWidget(widget)
    made.show()
    QApplication.processEvents()
    return made


def _measures(window: QWidget) -> list[tuple[float, int, int]]:
    QApplication.processEvents()
    found = window.findChildren(QWidget)
    return [(each.font().pointSizeF(), each.minimumHeight(), each.maximumHeight()) for each in found]


@pytest.mark.parametrize(
    ("size", "unit"),
    [
        ((640, 400), 8),
        ((1366, 768), 8),
        ((1280, 1024), 8),
        ((1920, 1080), 10),
        ((1920, 1020), 10),
        ((1920, 500), 8),
        ((2560, 1440), 14),
        ((3840, 2160), 21),
        ((9000, 9000), 24),
    ],
)
def test_the_grid_belongs_to_the_size_of_the_window(size: tuple[int, int], unit: int) -> None:
    assert sizes.unit_for(*size) == unit


def test_all_that_is_laid_out_grows_together(window: QWidget) -> None:
    before = _measures(window)
    assert growth.grow_with(window, *LARGE)
    after = _measures(window)
    assert [size for size, *_ in after] == pytest.approx([1.5 * size for size, *_ in before])
    layout = window.layout()
    assert layout is not None
    assert layout.spacing() == 12
    assert after[3][1:] == (96, 96)
    assert after[2][1] > 1.3 * before[2][1]  # what the style sheet bounds


def test_what_comes_back_is_as_it_was(window: QWidget) -> None:
    before = _measures(window)
    for size in ((1620, 900), (1800, 1000), LARGE, (3840, 2160), PLAIN):
        growth.grow_with(window, *size)
    assert _measures(window) == before


def test_what_its_owner_set_meanwhile_holds(window: QWidget) -> None:
    growth.grow_with(window, *LARGE)
    fixed = window.findChild(QLabel, "fixed")
    assert isinstance(fixed, QLabel)
    fixed.setFixedHeight(10 * theme.UNIT)
    growth.grow_with(window, *PLAIN)
    assert fixed.maximumHeight() == 80


def test_a_window_of_the_same_measure_is_left_alone(window: QWidget) -> None:
    assert not growth.grow_with(window, 1500, 850)


def test_what_is_drawn_on_a_pad_grows_with_it(qtbot: QtBot) -> None:
    window = QWidget()
    qtbot.addWidget(window)
    column = QVBoxLayout(window)
    pad = SignaturePad()
    column.addWidget(pad)
    window.show()
    QTest.mousePress(pad, Qt.MouseButton.LeftButton, pos=QPoint(36, 12))
    QTest.mouseMove(pad, QPoint(180, 60))
    QTest.mouseRelease(pad, Qt.MouseButton.LeftButton, pos=QPoint(180, 60))
    before = pad.strokes()
    growth.grow_with(window, *LARGE)
    QApplication.processEvents()
    assert before
    assert pad.width() == 540
    assert pad.strokes() == before


def test_a_wider_ring_takes_the_room_of_the_padding_on_every_grid() -> None:
    for unit in range(sizes.UNIT, 25):
        sheet = style_sheet.style_sheet(colors.LIGHT, unit)
        paddings = [
            int(sheet.split(start, 1)[1].split("padding: ", 1)[1].split("px", 1)[0])
            for start in ("QPushButton {", "QPushButton:focus {")
        ]
        assert paddings[0] - paddings[1] == 1, unit
