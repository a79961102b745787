"""Counting a box on the Counter with keys alone."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from threading import Event

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton

from gui.counter.counter_screen import CounterScreen
from tests.support.patience import PATIENCE_S
from tests.support.screens import Place, press, press_text

ORDER = ("count", "format", "marking", "recorded_as", "speed", "tv", "findings", "label")
CONTROL = Qt.KeyboardModifier.ControlModifier
ALT = Qt.KeyboardModifier.AltModifier


@dataclass
class Clerk:
    """Whoever presses the keys, and what they see."""

    place: Place
    counter: CounterScreen

    def count(self, **cells: str) -> None:
        """One row from its first cell on; Return after every cell, then Down to the next row."""
        last = max(ORDER.index(name) for name in cells)
        for name in ORDER[: last + 1]:
            press_text(cells.get(name, ""))
            if name != ORDER[last]:
                press(Qt.Key.Key_Return)
        self.go_to_next_row()

    def go_to_next_row(self) -> None:
        """Return through the cells that stay empty, into the row below."""
        table = self.counter.parts.table
        row = table.currentIndex().row()
        for _ in ORDER:
            if table.currentIndex().row() == row:
                press(Qt.Key.Key_Return)
        assert table.currentIndex().row() == row + 1

    def name_the_customer(self, name: str, phone: str = "") -> None:
        """Alt+N leads to the field; Return goes on from field to field."""
        press(Qt.Key.Key_N, ALT)
        press_text(name)
        press(Qt.Key.Key_Return)
        press_text(phone)

    def book(self) -> None:
        press(Qt.Key.Key_Return, CONTROL)
        self.place.settle()
        self.place.settle()

    def say_and_tick(self) -> None:
        """Alt+T: the customer was told."""
        press(Qt.Key.Key_T, ALT)

    def look(self) -> None:
        """The slip is written right after the echo of the key."""
        while not self.counter.slip_is_written:
            QApplication.processEvents()

    @property
    def price(self) -> str:
        self.look()
        return self.counter.parts.slip.price_words

    @property
    def day(self) -> str:
        """The promised day, once it is that of these tapes."""
        self.wait_for_the_day()
        return self.counter.parts.slip.day_words

    def wait_for_the_day(self) -> None:
        """Until the day of these tapes was worked out beside the window."""
        self.place.qtbot.waitUntil(lambda: self.counter.has_its_day)
        self.look()

    @property
    def cell_texts(self) -> list[list[str]]:
        """The rows as they stand in the tray."""
        rows = self.counter.parts.rows
        return [[column.show(row) for column in rows.columns[:8]] for row in rows.rows]

    def field(self, name: str) -> QLineEdit:
        found = self.counter.findChild(QLineEdit, name)
        assert isinstance(found, QLineEdit)
        return found

    def button(self, name: str) -> QPushButton:
        found = self.counter.findChild(QPushButton, name)
        assert isinstance(found, QPushButton)
        return found


@contextmanager
def held_up(clerk: Clerk, place: Place) -> Iterator[None]:
    """Whatever is worked out beside the window takes as long as this lasts."""
    go_on, began = Event(), Event()

    def wait() -> None:
        began.set()
        go_on.wait(timeout=PATIENCE_S)

    place.work.compute_soon(wait, then=_nothing)
    began.wait(timeout=PATIENCE_S)
    try:
        yield
    finally:
        go_on.set()
        clerk.wait_for_the_day()


def _nothing(_: object) -> None:
    """Nobody waits for it."""


def clerk_at(place: Place) -> Clerk:
    """A clerk at the Counter of this window, the keyboard in the tray."""
    return Clerk(place, place.turn_to(CounterScreen))
