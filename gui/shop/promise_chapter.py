"""The promises under review: whom to call first and why, and what would help, on a key."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal, Slot
from PySide6.QtWidgets import QPushButton, QWidget

from core.services.shop_overview import ShopView
from gui.shop import chapters
from gui.toolkit.text import say
from gui.widgets.improvement_lines import HelpLines
from gui.widgets.layouts import give_key, stacked


class Promises(QWidget):
    """Every open promise under the way out."""

    help_wanted = Signal()

    def __init__(self, view: ShopView) -> None:
        super().__init__()
        self.ask = QPushButton(say("shop", "help_button"))
        self.ask.setObjectName("shop-help")
        give_key(self.ask, "F6")
        self.ask.clicked.connect(self._ask)
        self.help = HelpLines("shop-help-lines")
        column = stacked(self)
        column.addWidget(self.ask, 0, Qt.AlignmentFlag.AlignLeft)
        self.ask.setVisible(bool(view.promises))  # only now: without a place it would open as a window
        column.addWidget(self.help)
        column.addWidget(chapters.promises(view))

    @Slot()
    def _ask(self) -> None:
        self.help.wait()
        self.help_wanted.emit()
