"""Screens of the window on a real shop file, with everything they hand out kept for the test."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from core.services.records_door import Shop
from gui.app.main_window import Window
from gui.counter.counter_screen import CounterScreen
from gui.toolkit import theme
from gui.toolkit.screen import Screen
from gui.toolkit.screen_context import Desk as GuiDesk
from gui.toolkit.workers import Work
from tests.support.booked import Clock
from tests.support.booked import Desk as Records

S = TypeVar("S", bound=Screen)


@dataclass
class Place:
    """A window at a counter; ``records`` is the same shop seen without a window."""

    window: Window
    work: Work
    desk: GuiDesk
    records: Records
    qtbot: QtBot
    shown_files: list[Path]
    bugs: list[BaseException] = field(default_factory=list)
    others: list[Window] = field(default_factory=list)
    """Further windows on the same shop, held for the test."""
    key_time: float = 0.0
    """Seconds on the clock that tells a scanner from a hand; it stands while keys come."""

    def turn_to(self, kind: type[S]) -> S:
        """The one screen of this window, in front."""
        screen = kind(self.desk)
        self.window.scans.watch._clock = lambda: self.key_time
        name = kind.name.lower()
        self.window.add_screens(self.desk, "The Tape Table", {name: screen})
        self.window.go(name)
        self.window.show()
        self.window.activateWindow()
        self.qtbot.waitExposed(self.window)
        self.settle()
        return screen

    def settle(self) -> None:
        """Until nothing is under way any more."""
        self.qtbot.waitUntil(self._is_at_rest)
        QApplication.processEvents()
        self.qtbot.waitUntil(self._is_at_rest)
        assert not self.bugs

    def _is_at_rest(self) -> bool:
        """A day that waits for the keys to pause is under way, too."""
        return self.work.is_idle and all(each.has_its_day for each in self.window.findChildren(CounterScreen))

    @property
    def told(self) -> str:
        """What stands in the banner."""
        return self.window.banner.accessibleName() if self.window.banner.sentence else ""


def type_in(widget: QWidget, text: str, *, enter: bool = False) -> None:
    """Keys into the widget, with Return at the end if asked."""
    QTest.keyClicks(widget, text)
    if enter:
        QTest.keyClick(widget, Qt.Key.Key_Return)


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """One key, wherever the keyboard is."""
    target = QApplication.focusWidget()
    assert target is not None, "nobody has the keyboard"
    QTest.keyClick(target, key, modifier)


def press_text(text: str) -> None:
    """Keys, wherever the keyboard is."""
    for sign in text:
        target = QApplication.focusWidget()
        assert target is not None, "nobody has the keyboard"
        QTest.keyClicks(target, sign)


def scan(place: Place, code: str) -> None:
    """A wedge scanner: after a pause of the hand the code and Return at once, wherever the keyboard is."""
    place.key_time += 1.0
    press_text(code)
    press(Qt.Key.Key_Return)
    place.settle()


def written(widget: QWidget) -> str:
    """Every word on a widget."""
    return " ".join(label.text() for label in widget.findChildren(QLabel) if label.isVisibleTo(widget))


@pytest.fixture
def place(qtbot: QtBot, file_desk: Records, tmp_path: Path) -> Iterator[Place]:
    """A window on a new shop."""
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    theme.apply(app)
    window = Window()
    qtbot.addWidget(window)
    clock: Clock = file_desk.clock
    work = Work(lambda: Shop.open(file_desk.where, clock=clock, who="Kim"), window)
    shown: list[Path] = []
    desk = GuiDesk(work, clock, "Kim", tmp_path / "papers", shown.append)
    opened = Place(window, work, desk, file_desk, qtbot, shown)
    work.broke.connect(opened.bugs.append)
    work.open()
    opened.settle()
    yield opened
    window.closing.ask_nothing()
    window.close()
