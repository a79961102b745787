"""The signature pad: strokes as shares of the pad, taken back by key, honest when nobody drew."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QPointingDevice, QTabletEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from gui.widgets.signature_pad import HIGH, WIDE, SignaturePad


@pytest.fixture
def pad(qtbot: QtBot) -> SignaturePad:
    made = SignaturePad()
    qtbot.addWidget(made)
    made.show()
    return made


def draw(pad: SignaturePad, points: Sequence[tuple[int, int]]) -> None:
    start, *rest = (QPoint(x, y) for x, y in points)
    QTest.mousePress(pad, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, start)
    for point in rest:
        QTest.mouseMove(pad, point)
    end = (rest or [start])[-1]
    QTest.mouseRelease(pad, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, end)


def pen(pad: SignaturePad, kind: QTabletEvent.Type, x: float, y: float) -> None:
    at = QPointF(x, y)
    tip = Qt.MouseButton.LeftButton
    held = Qt.MouseButton.NoButton if kind is QTabletEvent.Type.TabletRelease else tip
    event = QTabletEvent(
        kind,
        QPointingDevice.primaryPointingDevice(),
        at,
        at,
        1.0,
        0,
        0,
        0,
        0,
        0,
        Qt.KeyboardModifier.NoModifier,
        tip,
        held,
    )
    QApplication.sendEvent(pad, event)


def test_a_new_pad_is_empty_and_says_so(pad: SignaturePad) -> None:
    assert pad.is_empty
    assert pad.strokes() == ()
    assert pad.accessibleName() == "Signature: empty"


def test_strokes_are_shares_of_the_pad(pad: SignaturePad) -> None:
    draw(pad, [(WIDE // 4, HIGH // 4), (WIDE // 2, HIGH // 2)])
    (stroke,) = pad.strokes()
    assert stroke[0] == (0.25, 0.25)
    assert stroke[-1] == (0.5, 0.5)


def test_a_pen_draws_between_the_pixels(pad: SignaturePad) -> None:
    pen(pad, QTabletEvent.Type.TabletPress, 36.25, 12.5)
    pen(pad, QTabletEvent.Type.TabletMove, 72.5, 30.25)
    pen(pad, QTabletEvent.Type.TabletRelease, 72.5, 30.25)
    (stroke,) = pad.strokes()
    assert stroke == (
        (round(36.25 / WIDE, 4), round(12.5 / HIGH, 4)),
        (round(72.5 / WIDE, 4), round(30.25 / HIGH, 4)),
    )


def test_a_stroke_that_leaves_the_pad_stays_within_it(pad: SignaturePad) -> None:
    draw(pad, [(10, 10), (WIDE + 400, -300)])
    assert all(0 <= x <= 1 and 0 <= y <= 1 for stroke in pad.strokes() for x, y in stroke)


def test_moving_without_pressing_draws_nothing(pad: SignaturePad) -> None:
    QTest.mouseMove(pad, QPoint(40, 40))
    QTest.mouseMove(pad, QPoint(90, 60))
    assert pad.is_empty


def test_the_signature_carries_name_strokes_and_shape(pad: SignaturePad) -> None:
    draw(pad, [(20, 40), (60, 60)])
    signature = pad.signature("Ada Fenwick")
    assert signature.name == "Ada Fenwick"
    assert signature.strokes == pad.strokes()
    assert signature.aspect == pytest.approx(WIDE / HIGH)


def test_delete_takes_the_last_stroke_away(pad: SignaturePad) -> None:
    draw(pad, [(20, 40), (60, 60)])
    draw(pad, [(80, 40), (90, 60)])
    assert pad.accessibleName() == "Signature: signed, 2 strokes"
    pad.setFocus()
    QTest.keyClick(pad, Qt.Key.Key_Delete)
    assert len(pad.strokes()) == 1


def test_every_change_is_told(pad: SignaturePad, qtbot: QtBot) -> None:
    with qtbot.waitSignal(pad.changed):
        draw(pad, [(20, 40), (60, 60)])
    with qtbot.waitSignal(pad.changed):
        pad.clear()


def test_the_ink_is_seen_where_the_pen_went(pad: SignaturePad) -> None:
    def ink_at(x: int, y: int) -> int:
        return QColor(pad.grab().toImage().pixel(x, y)).lightness()

    before = ink_at(100, 40)
    draw(pad, [(60, 40), (140, 40)])
    assert ink_at(100, 40) < before - 100
