"""Start: paint the window first, then open the shop behind it."""

from __future__ import annotations

import argparse
import gc
import logging
import sys
import time
from collections.abc import Callable, Sequence
from datetime import UTC, datetime

from PySide6.QtCore import QObject, QTimer, Slot
from PySide6.QtWidgets import QApplication

from core.wording.messages import say
from gui.app.main_window import Window
from gui.toolkit import program_icon, theme

_STARTED = time.perf_counter()


def main(argv: Sequence[str] | None = None) -> int:
    """Open the window on a shop. Returns the exit code of the program."""
    asked = _arguments(argv)
    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    app.setApplicationName("Tapewright")
