"""Nothing is cut off on the two small screens in use at counters, in English; the check is checked as well.

The pseudo-language goes the same way in ``test_walked_in_pseudo``.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QPushButton, QWidget

from gui.widgets.tray import Tray, TrayItem
from tests.support import clipping, shown_texts, walked
from tests.support.demonstration import AFTERNOON, copied

_LONG = "a sentence that needs more than its sixty pixels"


def test_nothing_is_cut_off_on_a_small_screen(
    qapp: QApplication, demonstration: Path, tmp_path: Path
) -> None:
    way = walked.walk("en", copied(demonstration, tmp_path / "demo").shop, AFTERNOON)
    assert {each: stop.name for stop in way for each in stop.cut} == {}


# --- the check itself --------------------------------------------------------------------


def _label(window: QWidget) -> QWidget:
    return QLabel(_LONG, window)


def _paragraph(window: QWidget) -> QWidget:
    label = QLabel(_LONG, window)
    label.setWordWrap(True)
    return label


def _button(window: QWidget) -> QWidget:
    return QPushButton(_LONG, window)


def _hint(window: QWidget) -> QWidget:
    field = QLineEdit(window)
    field.setPlaceholderText(_LONG)
    return field


def _choice(window: QWidget) -> QWidget:
    box = QComboBox(window)
    box.addItem(_LONG)
    return box


class _Painted(QWidget):
    """Paints its text, shortened if so asked."""

    def __init__(self, window: QWidget, shorten: bool) -> None:
        super().__init__(window)
        self._shorten = shorten

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        room = QRectF(self.rect())
        metrics = QFontMetricsF(self.font())
        shown = metrics.elidedText(_LONG, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, int(Qt.AlignmentFlag.AlignVCenter), shown if self._shorten else _LONG)
        painter.end()


PLANTED: dict[str, Callable[[QWidget], QWidget]] = {
    "label": _label,
    "paragraph": _paragraph,
    "button": _button,
    "placeholder": _hint,
    "choice": _choice,
    "painted": lambda window: _Painted(window, shorten=False),
    "shortened": lambda window: _Painted(window, shorten=True),
}


def _cut(window: QWidget) -> list[str]:
    window.show()
    QApplication.processEvents()
    with shown_texts.watched_painting() as painting:
        window.grab()
    found = list(clipping.cut(window, painting))
    window.close()
    return found


@pytest.mark.parametrize("plant", PLANTED.values(), ids=PLANTED)
def test_a_text_that_is_cut_off_is_found(qapp: QApplication, plant: Callable[[QWidget], QWidget]) -> None:
    window = QWidget()
    window.resize(400, 200)
    plant(window).setFixedSize(60, 24)
    assert len(_cut(window)) == 1


@pytest.mark.parametrize("plant", PLANTED.values(), ids=PLANTED)
def test_a_text_that_has_its_room_is_not(qapp: QApplication, plant: Callable[[QWidget], QWidget]) -> None:
    window = QWidget()
    window.resize(800, 200)
    plant(window).setFixedSize(700, 60)
    assert _cut(window) == []


def test_a_label_that_reaches_out_of_its_frame_is_found(qapp: QApplication) -> None:
    window = QWidget()
    window.resize(400, 200)
    frame = QWidget(window)
    frame.setFixedSize(60, 24)
    label = QLabel(_LONG, frame)
    label.adjustSize()
    assert [each.split(" reaches")[0] for each in _cut(window)] == [f"QLabel “{_LONG}”"]


def test_a_row_of_a_tray_may_be_shortened_since_its_tip_tells_all(qapp: QApplication) -> None:
    tray = Tray("tapes", "Tapes")
    tray.lay([TrayItem("1", _LONG)])
    tray.resize(120, 200)
    assert _cut(tray) == []
