"""How the light falls in a step of the look-over: a cassette seen from its edge, and the rays of the lamp."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from gui.toolkit import theme
from gui.toolkit.text import say

LAMPS = {"room": (55.0, 125.0), "above": (90.0,), "side": (20.0,), "flat": (8.0,), "through": (-90.0,)}
"""From where the light comes, in degrees above the cassette; none: from everywhere. (own drawing)"""
_RAY = 20.0
_SPREAD = 7.0
_BESIDE = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


def paint_lamp(painter: QPainter, rect: QRectF, lamp: str) -> None:
    """Draw it into ``rect``, one word at the left and the picture at the right."""
    tokens = theme.current_tokens()
    painter.save()
    painter.setPen(QColor(tokens.muted))
    word = rect.adjusted(0, 0, -rect.width() / 2, 0)
    painter.drawText(word, _BESIDE, say("inspection", "lamp"))
    edge = QRectF(0, 0, 5 * theme.UNIT, theme.UNIT)
    lift = {"through": -1.0, "room": 0.0}.get(lamp, 1.0)
    edge.moveCenter(QPointF(rect.right() - 5 * theme.UNIT, rect.center().y() + lift * rect.height() / 4))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(tokens.shell))
    painter.drawRoundedRect(edge, 2, 2)
    painter.setPen(QPen(QColor(tokens.oxide), 1.5))
    for degrees in LAMPS[lamp]:
        _paint_rays(painter, edge, degrees)
    painter.restore()


def _paint_rays(painter: QPainter, edge: QRectF, degrees: float) -> None:
    """Three rays side by side onto the face that the lamp looks at; steep ones meet in the middle."""
    angle = math.radians(degrees)
    way = QPointF(-math.cos(angle), math.sin(angle))
    face = edge.top() - 1 if degrees > 0 else edge.bottom() + 1
    is_steep = abs(math.sin(angle)) > 0.7
    for step in (-1, 0, 1):
        x = edge.center().x() + step * _SPREAD if is_steep else edge.right() - (1 + step) * 2.2 * _SPREAD
        if is_steep and abs(degrees) != 90 and step:
            continue
        tip = QPointF(x, face)
        paint_arrow(painter, tip - way * _RAY, tip)


def paint_arrow(painter: QPainter, tail: QPointF, tip: QPointF) -> None:
    """A line with a head, in the pen of the moment."""
    painter.drawLine(tail, tip)
    angle = math.atan2(tip.y() - tail.y(), tip.x() - tail.x())
    for side in (-0.5, 0.5):
        back = angle + math.pi + side
        painter.drawLine(tip, tip + QPointF(math.cos(back), math.sin(back)) * 6)
