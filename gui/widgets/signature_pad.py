"""The signature pad: strokes of a pen, a finger or the mouse, kept as strokes and never as a picture.

Nobody can draw by keyboard: a screen that shows the pad also offers signing on the printed paper, which is
kept honestly as a signature without strokes.
"""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QResizeEvent,
    QTabletEvent,
)
from PySide6.QtWidgets import QWidget

from core.model.signatures import Signature, Stroke
from gui.toolkit import sizes, theme
from gui.toolkit.text import say

WIDE, HIGH = 45 * sizes.UNIT, 15 * sizes.UNIT
"""A pad keeps these proportions, and what is drawn on it grows with it, so that a stroke means the same all
the way to the paper."""

_CLOSE = 0.75
"""Points nearer than this to the last one, in pixels, say nothing new."""


class SignaturePad(QWidget):
    """Where the customer signs."""

    changed = Signal()

    def __init__(
        self, parent: QWidget | None = None, *, scale: float = 1.0, takes_keyboard: bool = True
    ) -> None:
        """``scale``: how many times as large as usual; without the keyboard Delete is not asked for."""
        super().__init__(parent)
        self._wide, self._high = theme.scaled(WIDE * scale), theme.scaled(HIGH * scale)
        self._takes_keyboard = takes_keyboard
        self._strokes: list[list[QPointF]] = []
        self._drawing = False
        self.setObjectName("signature-pad")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus if takes_keyboard else Qt.FocusPolicy.NoFocus)
        self.setFixedSize(self._wide, self._high)
        self.setCursor(Qt.CursorShape.CrossCursor)
        self._describe()

    @property
    def is_empty(self) -> bool:
        return not self._strokes

    def strokes(self) -> tuple[Stroke, ...]:
        """The strokes drawn; x and y from 0 to 1 of the pad, y downwards."""
        return tuple(tuple(self._share(point) for point in stroke) for stroke in self._strokes)

    def signature(self, name: str) -> Signature:
        """The strokes as the signature of the person called ``name``."""
        return Signature(name, self.strokes(), WIDE / HIGH)

    def resize_to(self, scale: float) -> None:
        """Be so many times as large as usual, on another screen; the strokes grow with it."""
        strokes = self.strokes()
        self._wide, self._high = round(WIDE * scale), round(HIGH * scale)
        self.setFixedSize(self._wide, self._high)
        self._strokes = self._placed(strokes)
        self.update()

    def show_strokes(self, strokes: Sequence[Stroke]) -> None:
        """Show what was drawn on another pad of the same order; the same strokes change nothing."""
        if tuple(strokes) != self.strokes():
            self._drawing = False
            self._strokes = self._placed(strokes)
            self._redraw()

    def clear(self) -> None:
        """Remove all strokes."""
        self._strokes.clear()
        self._drawing = False
        self._redraw()

    def sizeHint(self) -> QSize:
        return QSize(self._wide, self._high)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The window has grown, and the pad with it."""
        across, down = self.width() / self._wide, self.height() / self._high
        self._wide, self._high = self.width(), self.height()
        if (across, down) != (1.0, 1.0):
            self._strokes = [[QPointF(p.x() * across, p.y() * down) for p in each] for each in self._strokes]
        super().resizeEvent(event)

    # --- pen, finger, mouse --------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() is Qt.MouseButton.LeftButton:
            self._begin_stroke(event.position())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._extend_stroke(event.position())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._end_stroke()

    def tabletEvent(self, event: QTabletEvent) -> None:
        if event.type() is QEvent.Type.TabletPress:
            self._begin_stroke(event.position())
        elif event.type() is QEvent.Type.TabletMove:
            self._extend_stroke(event.position())
        else:
            self._end_stroke()
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Backspace, Qt.Key.Key_Delete) and self._strokes:
            self._strokes.pop()
            self._redraw()
            return
        super().keyPressEvent(event)

    def _begin_stroke(self, at: QPointF) -> None:
        self._drawing = True
        self._strokes.append([self._inside(at)])
        self._redraw()

    def _extend_stroke(self, at: QPointF) -> None:
        if not self._drawing:
            return
        stroke, point = self._strokes[-1], self._inside(at)
        if (point - stroke[-1]).manhattanLength() >= _CLOSE:
            stroke.append(point)
            self.update()

    def _end_stroke(self) -> None:
        if self._drawing:
            self._drawing = False
            self._redraw()

    def _redraw(self) -> None:
        self._describe()
        self.update()
        self.changed.emit()

    def _describe(self) -> None:
        self.setAccessibleName(say("pickup", "signature", strokes=len(self._strokes)))
        how = "signature_how" if self._takes_keyboard else "signature_how_pen"
        self.setAccessibleDescription(say("pickup", how))

    def _inside(self, point: QPointF) -> QPointF:
        return QPointF(min(max(point.x(), 0.0), self._wide), min(max(point.y(), 0.0), self._high))

    def _placed(self, strokes: Sequence[Stroke]) -> list[list[QPointF]]:
        return [[QPointF(x * self._wide, y * self._high) for x, y in stroke] for stroke in strokes]

    def _share(self, point: QPointF) -> tuple[float, float]:
        return (round(point.x() / self._wide, 4), round(point.y() / self._high, 4))

    # --- painting ------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        tokens = theme.current_tokens()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_paper(painter, tokens)
        painter.setPen(
            QPen(
                QColor(tokens.ink),
                2.2 * self._wide / WIDE,
                Qt.PenStyle.SolidLine,
                Qt.PenCapStyle.RoundCap,
                Qt.PenJoinStyle.RoundJoin,
            )
        )
        for stroke in self._strokes:
            if len(stroke) == 1:
                painter.drawPoint(stroke[0])
            else:
                painter.drawPolyline(QPolygonF(stroke))
        painter.end()

    def _paint_paper(self, painter: QPainter, tokens: theme.Tokens) -> None:
        edge, wide = (tokens.oxide, 2.0) if self.hasFocus() else (tokens.edge, 1.0)
        painter.setBrush(QColor(tokens.slip))
        painter.setPen(QPen(QColor(edge), wide))
        painter.drawRect(QRectF(self.rect()).adjusted(wide / 2, wide / 2, -wide / 2, -wide / 2))
        painter.setPen(QPen(QColor(tokens.edge), 1, Qt.PenStyle.SolidLine))
        unit = sizes.UNIT * self._wide / WIDE
        foot = round(self._high - 4 * unit)
        painter.drawLine(round(2 * unit), foot, round(self._wide - 2 * unit), foot)
        painter.setPen(QColor(tokens.muted))
        painter.setFont(theme.font(max(sizes.SMALL, sizes.SMALL * unit / sizes.UNIT)))
        words = QRectF(2 * unit, foot + 2, self._wide - 4 * unit, 3 * unit)
        painter.drawText(
            words, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, say("pickup", "signature_line")
        )
