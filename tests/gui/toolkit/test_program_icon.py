"""The window's icon is the drawing, in every size."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from gui.toolkit import program_icon


@pytest.mark.parametrize("size", program_icon.SIZES)
def test_every_picture_is_what_the_drawing_shows(size: int, qtbot: QtBot) -> None:
    """Drawn anew here: a picture of an older drawing differs. An eighth is left to other Qt's."""
    kept = QImage(str(program_icon.picture(size))).convertToFormat(QImage.Format.Format_ARGB32)
    anew = program_icon.drawn(size)
    assert kept.size() == anew.size() == QSize(size, size)
    points = [(x, y) for x in range(0, size, max(1, size // 32)) for y in range(0, size, max(1, size // 32))]
    apart = [
        max(
            abs(a - b)
            for a, b in zip(kept.pixelColor(*p).getRgb(), anew.pixelColor(*p).getRgb(), strict=True)
        )
        for p in points
    ]
    assert max(apart) <= 32


def test_it_stands_out_on_a_light_and_on_a_dark_ground(qtbot: QtBot) -> None:
    """Its dark shell has a light edge, its light slip a dark one."""
    picture = program_icon.drawn(256)
    seen = {
        picture.pixelColor(x, y).lightness()
        for x in range(256)
        for y in range(256)
        if picture.pixelColor(x, y).alpha() == 255
    }
    assert min(seen) < 60
    assert max(seen) > 230


def test_the_icon_holds_every_size(qtbot: QtBot) -> None:
    sizes = {size.width() for size in program_icon.icon().availableSizes()}
    assert sizes == set(program_icon.SIZES)
