"""The two answers to the look at a repaired tape; there only while a look is due."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from core.model.tape_records import TapeRecord
from gui.toolkit.text import say
from gui.widgets.button_row import key_button
from gui.widgets.layouts import stacked, words


class AfterRepairPanel(QWidget):
    """It may go on, or has to be done again."""

    good = Signal()
    bad = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._good = key_button("good-after-repair", "Alt+G", say("repair", "look_good"), "action")
        self._bad = key_button("bad-after-repair", "Alt+X", say("repair", "look_bad"), "action")
        self._good.clicked.connect(self.good)
        self._bad.clicked.connect(self.bad)
        column = stacked(self)
        column.addWidget(words(say("repair", "look_due"), "attention"))
        column.addWidget(self._good)
        column.addWidget(self._bad)

    def offer(self, tape: TapeRecord) -> None:
        """Be there when this tape is to be looked over."""
        self.setVisible(tape.look_due)
