"""Small drawings of the shells, to true relative scale, so that formats are told apart at a glance."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen, QPolygonF

from core.catalogue import formats
from core.catalogue.shell_anatomy import Silhouette
from core.model.names import FormatName
from core.wording.editions import edition_cache
from gui.toolkit import theme


def paint_cassette(painter: QPainter, rect: QRectF, format_name: FormatName) -> None:
    """Draw the shell in the middle of ``rect``; the catalogue's largest shell would fill it."""
    tokens = theme.current_tokens()
    width, depth = shell(format_name)
    most_wide, most_deep = largest_shell()
    scale = min(rect.width() / most_wide, rect.height() / most_deep)
    outline = QRectF(0, 0, width * scale, depth * scale)
    outline.moveCenter(rect.center())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    form = formats.catalogue().format(format_name)
    _paint_shell(painter, outline, form.anatomy.shape, tokens)
    _paint_silhouette(painter, outline, form.silhouette, tokens)
    if form.anatomy.shape == "cassette":
        _paint_front(painter, outline, form.silhouette, tokens)
    if not form.has_own_system:
        _paint_doubt(painter, outline, tokens)
    painter.restore()


def largest_shell() -> tuple[float, float]:
    """Width and depth, in millimetres, that hold every shell of the catalogue."""
    return _largest()


def shell(format_name: FormatName) -> tuple[float, float]:
    """Width and depth of one shell in millimetres, from the catalogue."""
    width, depth, _ = formats.catalogue().format(format_name).shell.value
    return float(width), float(depth)


@edition_cache(maxsize=4)
def _largest() -> tuple[float, float]:
    sizes = [shell(name) for name in formats.catalogue().names]
    return max(width for width, _ in sizes), max(depth for _, depth in sizes)


def _paint_shell(painter: QPainter, outline: QRectF, shape: str, tokens: theme.Tokens) -> None:
    corner = max(1.0, outline.height() * (0.5 if shape == "round" else 0.06))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(tokens.shell))
    painter.drawRoundedRect(outline, corner, corner)


def _paint_silhouette(painter: QPainter, outline: QRectF, face: Silhouette, tokens: theme.Tokens) -> None:
    painter.setBrush(QColor(tokens.tray))
    if face.label is not None:
        painter.drawRect(_part(outline, face.label))
    for window in face.windows:
        painter.setBrush(QColor(tokens.shell_glass))
        painter.drawRect(_part(outline, window))
    painter.setBrush(QColor(tokens.tray))
    for x, y, radius in face.hubs:
        centre = QPointF(outline.left() + x * outline.width(), outline.top() + y * outline.height())
        painter.drawEllipse(centre, radius * outline.height(), radius * outline.height())


def _paint_front(painter: QPainter, outline: QRectF, face: Silhouette, tokens: theme.Tokens) -> None:
    if face.has_foot:
        _paint_foot(painter, outline)
    elif outline.height() > 8:
        _paint_lid(painter, outline, tokens)


def _paint_lid(painter: QPainter, outline: QRectF, tokens: theme.Tokens) -> None:
    y = outline.bottom() - 0.14 * outline.height()
    painter.setPen(QPen(QColor(tokens.shell_glass), max(0.75, outline.height() / 40)))
    painter.drawLine(QPointF(outline.left() + 1, y), QPointF(outline.right() - 1, y))
    painter.setPen(Qt.PenStyle.NoPen)


def _paint_foot(painter: QPainter, outline: QRectF) -> None:
    left, width, bottom = outline.left(), outline.width(), outline.bottom()
    top = bottom - 0.2 * outline.height()
    painter.drawPolygon(
        QPolygonF(
            [
                QPointF(left + 0.24 * width, top),
                QPointF(left + 0.76 * width, top),
                QPointF(left + 0.80 * width, bottom),
                QPointF(left + 0.20 * width, bottom),
            ]
        )
    )


def _paint_doubt(painter: QPainter, outline: QRectF, tokens: theme.Tokens) -> None:
    face = theme.font(theme.SMALL, QFont.Weight.Bold)
    face.setPixelSize(max(7, round(outline.height() * 0.85)))
    painter.setFont(face)
    painter.setPen(QColor(tokens.shell))
    plaque = QRectF(0, 0, outline.width() * 0.42, outline.height())
    plaque.moveCenter(outline.center())
    painter.fillRect(plaque, QColor(tokens.tray))
    painter.drawText(plaque, Qt.AlignmentFlag.AlignCenter, "?")


def _part(outline: QRectF, share: tuple[float, float, float, float]) -> QRectF:
    left, top, width, height = share
    return QRectF(
        outline.left() + left * outline.width(),
        outline.top() + top * outline.height(),
        width * outline.width(),
        height * outline.height(),
    )
