"""The charges on the slip when they are longer than the paper: whole lines roll, the rest is counted."""

from __future__ import annotations

from PySide6.QtCore import Qt, Slot
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.layouts import stacked
from gui.widgets.slip_label import slip_label
from gui.widgets.written_lines import SlipLineList


class SlipRoll(QScrollArea):
    """Holds a list of lines; never shows half of one."""

    def __init__(self, written: SlipLineList, scale: float, side: int) -> None:
        """``side``: margin at the left and the right, in pixels."""
        super().__init__()
        self._written = written
        self._side = side
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName(say("slip", "charges"))
        inside = QWidget()
        stacked(inside, 0).addWidget(written)
        inside.setContentsMargins(side, 0, side, 0)
        self.setWidget(inside)
        self._more = slip_label(theme.SMALL * scale, "time", bold=True)
        self._more.setParent(self)
        self._more.setObjectName("more-charges")
        self._more.hide()
        written.fit_into(self)
        written.composed.connect(self._fit)
        self.verticalScrollBar().valueChanged.connect(self._stand_on_line)
        self.verticalScrollBar().rangeChanged.connect(self._tell_more)

    @property
    def more(self) -> int:
        """Lines that follow below what is in sight."""
        bar, pitch = self.verticalScrollBar(), self._written.pitch
        return round((bar.maximum() - bar.value()) / pitch) if pitch else 0

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def has_grown(self) -> None:
        """The lines are higher or lower now."""
        self._fit()

    @Slot()
    def _fit(self) -> None:
        """As many whole lines as the room holds, above the line that says how many follow."""
        pitch, below = self._written.pitch, 0
        if pitch:
            foot = self._more.sizeHint().height()
            shown = max(1, (self.height() - foot) // pitch)
            below = max(0, self.height() - shown * pitch)
            self._more.setGeometry(self._side, shown * pitch, self.width() - 2 * self._side, foot)
            self.verticalScrollBar().setSingleStep(pitch)
        if self.viewportMargins().bottom() != below:
            self.setViewportMargins(0, 0, 0, below)
        self._tell_more()

    @Slot(int)
    def _stand_on_line(self, value: int) -> None:
        pitch = self._written.pitch
        whole = round(value / pitch) * pitch if pitch else value
        if whole != value:
            self.verticalScrollBar().setValue(whole)
        self._tell_more()

    @Slot()
    def _tell_more(self) -> None:
        self._more.setVisible(self._written.pitch > 0)
        self._more.setText(say("slip", "more", count=self.more) if self.more else "")
