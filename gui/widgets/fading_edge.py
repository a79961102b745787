"""The lower edge of what scrolls fades while more follows, so that half a line is never taken for the end."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, QRectF, Qt, Slot
from PySide6.QtGui import QColor, QLinearGradient, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractScrollArea, QWidget

from gui.toolkit import theme

_HIGH = theme.Length(4)


class FadingEdge(QWidget):
    """Lies over the lower edge of an area and lets everything through but the sight."""

    def __init__(self, area: QAbstractScrollArea, ground: str) -> None:
        """``ground``: the token whose color lies under the area."""
        super().__init__(area)
        self._area = area
        self._ground = ground
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.viewport().installEventFilter(self)
        bar = area.verticalScrollBar()
        bar.valueChanged.connect(self._place)
        bar.rangeChanged.connect(self._place)
        self.hide()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Resize, QEvent.Type.Move):
            self._place()
        return super().eventFilter(watched, event)

    @Slot()
    def _place(self) -> None:
        bar, room = self._area.verticalScrollBar(), self._area.viewport().geometry()
        left = bar.maximum() - bar.value()
        high = min(_HIGH.px, room.height() // 3, left)
        self.setGeometry(room.left(), room.bottom() + 1 - high, room.width(), high)
        self.setVisible(high > 0)
        self.raise_()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        solid = QColor(getattr(theme.current_tokens(), self._ground))
        clear = QColor(solid)
        clear.setAlphaF(0.0)
        fade = QLinearGradient(0, 0, 0, self.height())
        fade.setColorAt(0.0, clear)
        fade.setColorAt(0.85, solid)
        painter.fillRect(QRectF(self.rect()), fade)
        painter.end()
