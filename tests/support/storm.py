"""Twenty thousand everyday Qt calls, and how far the counts of None, True and False drift meanwhile.

Run by `tests/test_pin.py` in a process of its own, because a version that fails aborts.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer, Signal
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit

ROUNDS = 2_000
SINGLES = {"None": None, "True": True, "False": False}


class Bell(QObject):
    """Rings with a truth."""

    rung = Signal(bool)


def operations() -> list[Callable[[], object]]:
    """Ten calls as a screen makes them; those that return nothing return the None in question."""
    bell, label, edit, choice, timer = Bell(), QLabel(), QLineEdit(), QComboBox(), QTimer()
    choice.addItem("VHS")
    bell.rung.connect(edit.setEnabled)
    return [
        lambda: bell.rung.emit(True),
        lambda: bell.rung.emit(False),
        lambda: label.setText("T-120"),
        lambda: label.setEnabled(True),
        lambda: label.parent(),
        lambda: label.isVisible(),
        lambda: edit.setText("T-120"),
        lambda: edit.isEnabled(),
        lambda: choice.itemData(0),
        lambda: timer.isActive(),
    ]


def main() -> None:
    """Print the drift of each as JSON, e.g. ``{"None": 3, "True": 0, "False": 0}``."""
    application = QApplication([])
    calls = operations()
    before = {name: sys.getrefcount(single) for name, single in SINGLES.items()}
    for _ in range(ROUNDS):
        for call in calls:
            call()
    drift = {name: sys.getrefcount(single) - before[name] for name, single in SINGLES.items()}
    print(json.dumps({"operations": ROUNDS * len(calls), "drift": drift}), flush=True)
    del calls
    application.quit()


if __name__ == "__main__":
    main()
