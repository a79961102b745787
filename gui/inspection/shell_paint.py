"""The strokes of a shell seen from above and from below: plastic, label, window, hubs and marks."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from core.catalogue.shell_anatomy import ABOVE, BELOW, Anatomy, Spot
from gui.inspection.raking_light import paint_arrow
from gui.toolkit import theme


def place(outline: QRectF, spot: Spot, side: str) -> QRectF:
    """Where a spot lies on the drawn shell; turned over like a page, left and right change places."""
    x = 1 - spot.x if side == BELOW else spot.x
    return QRectF(
        outline.left() + (x - spot.wide / 2) * outline.width(),
        outline.top() + (spot.y - spot.deep / 2) * outline.height(),
        spot.wide * outline.width(),
        spot.deep * outline.height(),
    )


def paint_push(painter: QPainter, latch: QRectF, outline: QRectF, moves: str) -> None:
    """An arrow beside the latch: a button goes into the shell, a slide away from the lid."""
    is_left = latch.center().x() < outline.center().x()
    out = -1 if is_left else 1
    beside = outline.left() if is_left else outline.right()
    middle = latch.center().y()
    if moves == "in":
        tail, tip = QPointF(beside + out * 30, middle), QPointF(beside + out * 8, middle)
    else:
        x = beside + out * 14
        tail, tip = QPointF(x, latch.top() - 2), QPointF(x, latch.bottom() + 16)
    painter.setPen(QPen(QColor(theme.current_tokens().oxide), 2.5))
    paint_arrow(painter, tail, tip)


def paint_shell(painter: QPainter, outline: QRectF, parts: Anatomy, side: str) -> None:
    """The shell in the manner of the small silhouettes: plastic, glass, label, hubs."""
    tokens = theme.current_tokens()
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(tokens.shell))
    corner = max(2.0, outline.height() * (0.5 if parts.shape == "round" else 0.04))
    painter.drawRoundedRect(outline, corner, corner)
    _paint_label(painter, outline, parts, side)
    painter.setBrush(QColor(tokens.shell_glass))
    for spot in parts.spots("window", side) if "window" in parts.parts else ():
        painter.drawRoundedRect(place(outline, spot, side), 2, 2)
    _paint_hubs(painter, outline, parts, side)
    _paint_marks(painter, outline, parts, side)
    if parts.shape != "cassette":
        painter.restore()
        return
    if parts.has_lid:
        _paint_lid(painter, outline)
    else:
        _paint_foot(painter, outline)
    painter.restore()


def _paint_label(painter: QPainter, outline: QRectF, parts: Anatomy, side: str) -> None:
    if parts.label is not None and side == ABOVE:
        painter.setBrush(QColor(theme.current_tokens().tray))
        painter.drawRoundedRect(place(outline, parts.label, side), 2, 2)


def _paint_hubs(painter: QPainter, outline: QRectF, parts: Anatomy, side: str) -> None:
    """Seen from above through a window, the hubs are there too."""
    tokens = theme.current_tokens()
    seen = parts.parts.get("hubs", ()) if side == BELOW else parts.spots("hubs", ABOVE)
    for spot in seen:
        rect = place(outline, spot, side)
        painter.setBrush(QColor(tokens.tray))
        painter.drawEllipse(rect)
        painter.setBrush(QColor(tokens.shell_glass))
        across, down = rect.width() * 0.3, rect.height() * 0.3
        painter.drawEllipse(rect.adjusted(across, down, -across, -down))


def _paint_marks(painter: QPainter, outline: QRectF, parts: Anatomy, side: str) -> None:
    tokens = theme.current_tokens()
    for name in ("latch", "release", "screws", "protect"):
        if name not in parts.parts:
            continue
        for spot in parts.spots(name, side):
            rect = place(outline, spot, side)
            painter.setBrush(QColor(tokens.shell_glass))
            painter.setPen(QPen(QColor(tokens.tray), 1))
            if spot.is_round:
                painter.drawEllipse(rect)
            else:
                painter.drawRect(rect)
            if name == "screws":
                middle = rect.center().y()
                painter.drawLine(QPointF(rect.left() + 1, middle), QPointF(rect.right() - 1, middle))
            painter.setPen(Qt.PenStyle.NoPen)


def _paint_lid(painter: QPainter, outline: QRectF) -> None:
    painter.setPen(QPen(QColor(theme.current_tokens().shell_glass), 1.5))
    y = outline.top() + 0.14 * outline.height()
    painter.drawLine(QPointF(outline.left() + 2, y), QPointF(outline.right() - 2, y))


def _paint_foot(painter: QPainter, outline: QRectF) -> None:
    """The thick edge of an audio cassette, where its tape shows."""
    path = QPainterPath()
    left, wide, bottom = outline.left(), outline.width(), outline.bottom()
    top = bottom - 0.22 * outline.height()
    path.moveTo(left + 0.22 * wide, top)
    path.lineTo(left + 0.78 * wide, top)
    path.lineTo(left + 0.82 * wide, bottom - 1)
    path.lineTo(left + 0.18 * wide, bottom - 1)
    path.closeSubpath()
    painter.setPen(QPen(QColor(theme.current_tokens().shell_glass), 1.5))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPath(path)
