"""The shelf of donor parts for one kind of cassette: what lies on it, and what is put there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import Signal, Slot
from PySide6.QtWidgets import QComboBox, QDialog, QLineEdit, QPushButton, QVBoxLayout, QWidget

from core.catalogue import formats
from core.model.errors import WrongInput
from core.model.names import DonorPart, FormatName
from core.model.repair_records import Donor
from core.model.spoken_names import spoken
from gui.toolkit import theme
from gui.toolkit.text import say, sentence_case
from gui.widgets.figure_field import FigureField
from gui.widgets.layouts import empty, labelled, stacked, words


@dataclass(frozen=True, slots=True)
class DonorDelivery:
    """Parts to be put on the shelf."""

    format: FormatName
    part: DonorPart
    count: int
    came_from: str


class DonorStockDialog(QDialog):
    """A small window over the bench; it stays open for the next kind of part."""

    wanted = Signal(object)
    """A `DonorDelivery` to be put on the shelf."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("donor-shelf-window")
        self._format = FormatName("vhs")
        self._lines = QWidget()
        self._column = stacked(self._lines, 2)
        self.part = QComboBox()
        self.part.setObjectName("shelf-part")
        for part in DonorPart:
            self.part.addItem(sentence_case(spoken(part)), part)
        self.count = FigureField("shelf-count", say("repair", "add_count"))
        self.came_from = QLineEdit()
        self.came_from.setObjectName("shelf-came-from")
        self.trouble = words("", "attention")
        self.save = QPushButton(say("repair", "add_save"))
        self.save.setObjectName("shelf-save")
        self.save.setProperty("role", "main")
        self._lay_out()
        self.save.clicked.connect(self._put)

    def begin(self, name: FormatName, stock: Sequence[Donor]) -> None:
        """Open on the parts for one kind of cassette."""
        self._format = name
        self.count.clear()
        self.came_from.clear()
        self.know(stock)
        self.open()
        self.part.setFocus()

    def know(self, stock: Sequence[Donor]) -> None:
        """What lies on the whole shelf now; parts for other cassettes are left out."""
        title = say("repair", "shelf_title", format=formats.catalogue().format(self._format).words)
        self.setWindowTitle(title)
        self._title.setText(title)
        self.trouble.hide()
        empty(self._column)
        fitting = [each for each in stock if each.format == self._format]
        for each in fitting:
            key = "shelf_line_from" if each.came_from else "shelf_line"
            self._column.addWidget(
                words(say("repair", key, count=each.count, part=spoken(each.part), where=each.came_from))
            )
        if not fitting:
            name = formats.catalogue().format(self._format).words
            self._column.addWidget(words(say("repair", "shelf_none", format=name)))
        self.count.clear()

    def complain(self, sentence: str) -> None:
        """Why nothing was put on the shelf."""
        self.trouble.setText(sentence)
        self.trouble.show()

    @Slot()
    def _put(self) -> None:
        try:
            count = self.count.figure_needed()
        except WrongInput as wrong:
            self.complain(wrong.sentence)
            return
        part: DonorPart = self.part.currentData()
        if count != int(count):
            self.complain(
                WrongInput(say("repair", "add_count"), count, say("repair", "whole_number")).sentence
            )
            return
        self.wanted.emit(DonorDelivery(self._format, part, int(count), self.came_from.text().strip()))

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(*4 * (2 * theme.UNIT,))
        column.setSpacing(theme.UNIT)
        self._title = words("", "heading")
        column.addWidget(self._title)
        column.addWidget(self._lines)
        for field, key in ((self.part, "add_part"), (self.count, "add_count"), (self.came_from, "add_from")):
            column.addWidget(labelled(field, say("repair", key)))
        column.addWidget(self.trouble)
        self.trouble.hide()
        column.addWidget(self.save)
        close = QPushButton(say("repair", "close"))
        close.setAutoDefault(False)
        close.clicked.connect(self.close)
        column.addWidget(close)
        self.setMinimumWidth(44 * theme.UNIT)
