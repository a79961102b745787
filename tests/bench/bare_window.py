"""The floor: the smallest window PySide6 can show; says when it was painted, then waits or quits."""

from __future__ import annotations

import sys

from PySide6.QtCore import QTimer
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QApplication, QLabel, QMainWindow


class Bare(QMainWindow):
    """A window with one label."""

    def __init__(self) -> None:
        super().__init__()
        self.resize(1280, 800)
        self.setCentralWidget(QLabel("Opening the shop …"))

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        print("first-paint", flush=True)
        if "--stay" not in sys.argv:
            QTimer.singleShot(0, self.close)


if __name__ == "__main__":
    application = QApplication(sys.argv)
    window = Bare()
    window.show()
    sys.exit(application.exec())
