"""The hands of the walkthrough: keys into whatever has the keyboard, and patience until an answer comes."""

from __future__ import annotations

import time
from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

PATIENCE_S = 60.0


def press(text: str) -> None:
    """Presses the keys of ``text``, a carriage return as Return, wherever the keyboard is."""
    for letter in text:
        field = QApplication.focusWidget()
        if field is None:
            continue
        if letter == "\r":
            QTest.keyClick(field, Qt.Key.Key_Return)
        else:
            QTest.keyClicks(field, letter)


def wait_until(is_so: Callable[[], bool]) -> None:
    """Lets the program work until ``is_so``; TimeoutError when it takes longer than `PATIENCE_S`."""
    deadline = time.monotonic() + PATIENCE_S
    while not is_so():
        if time.monotonic() > deadline:
            raise TimeoutError(PATIENCE_S)
        QApplication.processEvents()
        time.sleep(0.005)
