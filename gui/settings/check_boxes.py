"""Boxes to check in rows, as many across as the room allows."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from PySide6.QtCore import QEvent, QSize, Signal, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QCheckBox, QSizePolicy, QWidget

from gui.toolkit import theme


class CheckBoxes(QWidget):
    """Any number of some values."""

    changed = Signal()
    """Somebody checked or unchecked one."""

    def __init__(self, name: str, offers: Mapping[str, str]) -> None:
        """``offers``: value and words of each box; boxes are called ``name-value``."""
        super().__init__()
        self.setObjectName(name)
        self.boxes: dict[str, QCheckBox] = {}
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        self.offer(offers)

    def offer(self, offers: Mapping[str, str]) -> None:
        """Show these boxes in place of those there are."""
        if {value: box.text() for value, box in self.boxes.items()} == dict(offers):
            return
        for box in self.boxes.values():
            box.hide()
            box.deleteLater()
        self.boxes = {}
        for value, words in offers.items():
            box = self.boxes[value] = QCheckBox(words, self)
            box.setObjectName(f"{self.objectName()}-{value}")
            box.clicked.connect(self._tell)
            box.show()
        self.updateGeometry()
        self._arrange()

    @property
    def chosen(self) -> frozenset[str]:
        """The values that are checked."""
        return frozenset(value for value, box in self.boxes.items() if box.isChecked())

    def show_chosen(self, values: Collection[str]) -> None:
        """Check these and no others."""
        for value, box in self.boxes.items():
            box.setChecked(value in values)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, wide: int) -> int:
        return -(-len(self.boxes) // self._fitting(wide)) * self._highest() if self.boxes else 0

    def sizeHint(self) -> QSize:
        return QSize(self._widest(), self.heightForWidth(self.width()))

    def minimumSizeHint(self) -> QSize:
        return QSize(self._widest(), self._highest())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() is QEvent.Type.FontChange:
            self._arrange()
            self.updateGeometry()

    def _fitting(self, wide: int) -> int:
        """How many boxes stand side by side in a width."""
        gap = 2 * theme.UNIT
        return max(1, min(len(self.boxes), (wide + gap) // (self._widest() + gap)))

    def _highest(self) -> int:
        return max((box.sizeHint().height() for box in self.boxes.values()), default=0)

    def _widest(self) -> int:
        return max((box.sizeHint().width() for box in self.boxes.values()), default=0)

    def _arrange(self) -> None:
        """Every box as wide as the widest, row after row; a layout of Qt has no such flow."""
        across, wide, high = self._fitting(self.width()), self._widest(), self._highest()
        for place, box in enumerate(self.boxes.values()):
            left = place % across * (wide + 2 * theme.UNIT)
            box.setGeometry(left, place // across * high, min(wide, self.width()), high)

    @Slot()
    def _tell(self) -> None:
        self.changed.emit()
