"""Every screen of the walkthrough on every screen and scale that a counter may have, in every look.

A walk is made for each room there is: 3840 × 2160 at 200 % is the room of 1920 × 1080, drawn twice as finely.
"""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable, Iterator
from datetime import datetime
from fnmatch import fnmatch
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QPoint, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication, QWidget

from core.services import invented_shop
from gui.app.main_window import Window
from gui.app.walkthrough_first_run import Stop
from gui.toolkit import theme

SCREENS = ((1366, 768), (1280, 800), (1920, 1080), (3840, 2160))
"""Pixels of the screens in use at counters."""
SCALES = (100, 150, 200)
"""Percent that a system enlarges by."""
_THUMB = QSize(300, 190)
_NAMES_WIDE, _AIR = 260, 6
_ROUNDS = 3
"""What was laid out may ask to be laid out again."""


Way = Callable[[Path, datetime, tuple[int, int]], Iterator[Stop]]
"""The stops of a walk through the shop in a file, at a moment, in a window of this size."""


class Setting(NamedTuple):
    """A screen and its scale."""

    wide: int
    high: int
    percent: int

    @property
    def room(self) -> tuple[int, int]:
        """Device-independent pixels of a window that fills it."""
        return round(100 * self.wide / self.percent), round(100 * self.high / self.percent)

    @property
    def name(self) -> str:
        return f"{self.wide}x{self.high}@{self.percent}"


SETTINGS = tuple(Setting(*screen, scale) for screen in SCREENS for scale in SCALES)


class Matrix:
    """Pictures of what a pattern names, and for each look a sheet with all of them beside each other."""

    def __init__(self, way: Way, folder: Path, now: datetime, language: str, only: str = "*") -> None:
        self._way = way
        self._folder = folder
        self._now = now
        self._language = language
        self._only = only

    def pictures(self) -> Iterator[Path]:
        """Every picture as it is taken; a sheet after each look."""
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        with tempfile.TemporaryDirectory() as place:
            made = Path(place) / "made"
            invented_shop.make(made, self._now, self._language)
            for look, tokens in theme.LOOKS.items():
                name, sheet = look.replace(" ", "-"), _Sheet()
                for number, room in enumerate(dict.fromkeys(each.room for each in SETTINGS)):
                    theme.apply(app, tokens)
                    own = shutil.copytree(made, Path(place) / f"{name}-{number}")
                    yield from self._walk(name, own / invented_shop.FILE, room, sheet)
                    shutil.rmtree(own)
                yield sheet.save(self._folder / f"index-{name}.png")

    def _walk(self, look: str, shop: Path, room: tuple[int, int], sheet: _Sheet) -> Iterator[Path]:
        settings = [each for each in SETTINGS if each.room == room]
        for stop in self._way(shop, self._now, room):
            if not fnmatch(stop.name, self._only):
                continue
            if isinstance(stop.widget, Window):
                stop.widget.grow()
            for _ in range(_ROUNDS):
                QApplication.processEvents()
            for setting in settings:
                picture = _picture(stop.widget, setting)
                path = self._folder / f"{stop.name}-{look}-{setting.name}.png"
                picture.save(str(path))
                sheet.add(stop.name, setting, picture)
                yield path


class _Sheet:
    """One row for each stop, one column for each setting."""

    def __init__(self) -> None:
        self._rows: dict[str, dict[Setting, QImage]] = {}

    def add(self, stop: str, setting: Setting, picture: QImage) -> None:
        keep, smooth = Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        small = picture.scaled(_THUMB, keep, smooth)
        small.setDevicePixelRatio(1.0)
        self._rows.setdefault(stop, {})[setting] = small

    def save(self, path: Path) -> Path:
        wide, high = _THUMB.width() + _AIR, _THUMB.height() + _AIR
        size = QSize(_NAMES_WIDE + len(SETTINGS) * wide, (len(self._rows) + 1) * high)
        whole = QImage(size, QImage.Format.Format_RGB32)
        whole.fill(QColor(theme.LIGHT.ground))
        painter = QPainter(whole)
        painter.setFont(theme.font(theme.BODY))
        for column, setting in enumerate(SETTINGS):
            painter.drawText(_NAMES_WIDE + column * wide, high - 2 * _AIR, setting.name)
        for row, (stop, pictures) in enumerate(self._rows.items(), 1):
            painter.drawText(_AIR, row * high + high // 2, stop)
            for column, setting in enumerate(SETTINGS):
                if setting in pictures:
                    painter.drawImage(QPoint(_NAMES_WIDE + column * wide, row * high), pictures[setting])
        painter.end()
        whole.save(str(path))
        return path


def _picture(widget: QWidget, setting: Setting) -> QImage:
    """The widget as the screen would show it; a smaller window of its own keeps its share of the screen."""
    fineness = setting.percent / 100
    size = QSize(round(widget.width() * fineness), round(widget.height() * fineness))
    picture = QImage(size, QImage.Format.Format_RGB32)
    picture.setDevicePixelRatio(fineness)
    picture.fill(QColor(theme.current_tokens().ground))
    widget.render(picture)
    return picture
