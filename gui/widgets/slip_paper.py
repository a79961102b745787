"""The paper of the slip: a sheet torn off the roll, its perforation, and the ruling of a blank one."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSizeF
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from gui.toolkit import theme

_TOOTH = 8.0
"""Width of one tooth of the torn edge."""


def paint_sheet(painter: QPainter, size: QSizeF, tokens: theme.Tokens) -> None:
    """The sheet itself, up to the edge of the widget."""
    painter.setPen(QPen(QColor(tokens.line), 1))
    painter.setBrush(QColor(tokens.slip))
    painter.drawPolygon(_outline(size))


def paint_ruling(
    painter: QPainter, wide: float, top: float, bottom: float, scale: float, tokens: theme.Tokens
) -> None:
    """Lines from ``top`` to ``bottom``: a blank slip is ruled, so that it is seen to wait for something."""
    side = 2.5 * theme.UNIT * scale
    pitch = 4 * theme.UNIT * scale
    painter.setPen(QPen(QColor(tokens.line), 1))
    y = top + pitch
    while y < bottom - pitch / 2:
        painter.drawLine(QPointF(side, round(y) + 0.5), QPointF(wide - side, round(y) + 0.5))
        y += pitch


def paint_perforation(painter: QPainter, wide: float, top: float, tokens: theme.Tokens) -> None:
    """A dashed line across the sheet at ``top``, with a hole at either end."""
    y = top + 0.5
    pen = QPen(QColor(tokens.edge), 1.5)
    pen.setDashPattern([2, 4])
    painter.setPen(pen)
    painter.drawLine(QPointF(_TOOTH, y), QPointF(wide - _TOOTH, y))
    painter.setPen(QPen(QColor(tokens.line), 1))
    painter.setBrush(QColor(tokens.ground))
    for x in (0.0, wide):
        painter.drawEllipse(QPointF(x, y), _TOOTH * 0.75, _TOOTH * 0.75)


def _outline(size: QSizeF) -> QPolygonF:
    """A straight sheet whose lower edge was torn off the roll."""
    left, right, top, bottom = 0.5, size.width() - 0.5, 0.5, size.height() - 0.5
    teeth = max(2, round((right - left) / _TOOTH))
    step = (right - left) / teeth
    edge = [
        QPointF(right - n * step / 2, bottom - (_TOOTH / 2 if n % 2 == 0 else 0.0))
        for n in range(2 * teeth + 1)
    ]
    return QPolygonF([QPointF(left, top), QPointF(right, top), *edge])
