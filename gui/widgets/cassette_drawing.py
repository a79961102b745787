"""Small drawings of the shells, to true relative scale, so that formats are told apart at a glance."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen, QPolygonF

from core.catalogue import formats
from core.model.names import FormatName
from gui.toolkit import theme


@dataclass(frozen=True, slots=True)
class Face:
    """What is seen on top of a shell, as shares of its width and depth; the lid is at the bottom."""

    windows: tuple[tuple[float, float, float, float], ...] = ()
    """Left, top, width, height."""
    hubs: tuple[tuple[float, float, float], ...] = ()
    """Centre x, centre y, radius as a share of the depth."""
    label: tuple[float, float, float, float] | None = None
    foot: bool = False
    """Whether the tape side is a thickened foot (compact audio cassettes)."""


# Drawn from the shells as they lie on a counter (from memory, simplified); only the outline is to scale.
_VHS = Face(
    windows=((0.09, 0.16, 0.25, 0.56), (0.66, 0.16, 0.25, 0.56)),
    hubs=((0.215, 0.44, 0.15), (0.785, 0.44, 0.15)),
    label=(0.38, 0.16, 0.24, 0.56),
)
_VHS_C = Face(hubs=((0.33, 0.44, 0.33), (0.84, 0.70, 0.11)), windows=((0.62, 0.14, 0.28, 0.30),))
_BETA = Face(windows=((0.10, 0.20, 0.30, 0.46),), hubs=((0.25, 0.43, 0.15),), label=(0.47, 0.14, 0.43, 0.58))
_EIGHT = Face(windows=((0.16, 0.24, 0.68, 0.34),), hubs=((0.30, 0.41, 0.12), (0.70, 0.41, 0.12)))
_DV = Face(
    windows=((0.30, 0.20, 0.60, 0.46),),
    hubs=((0.43, 0.43, 0.14), (0.77, 0.43, 0.14)),
    label=(0.09, 0.20, 0.13, 0.46),
)
_U = Face(
    windows=((0.20, 0.12, 0.60, 0.42),),
    hubs=((0.34, 0.33, 0.13), (0.66, 0.33, 0.13)),
    label=(0.20, 0.62, 0.60, 0.16),
)
_AUDIO = Face(windows=((0.24, 0.30, 0.52, 0.28),), hubs=((0.32, 0.44, 0.10), (0.68, 0.44, 0.10)), foot=True)

FACES: dict[str, Face] = {
    "vhs": _VHS,
    "s-vhs": _VHS,
    "vhs-c": _VHS_C,
    "s-vhs-c": _VHS_C,
    "betamax": _BETA,
    "betacam": _BETA,
    "betacam-sp": _BETA,
    "video8": _EIGHT,
    "hi8": _EIGHT,
    "digital8": _EIGHT,
    "8mm-unknown": _EIGHT,
    "minidv": _DV,
    "dvcam": _DV,
    "hdv": _DV,
    "micromv": _DV,
    "u-matic": _U,
    "audio-cassette": _AUDIO,
}
_NOBODY_KNOWS = "8mm-unknown"


def paint_cassette(painter: QPainter, rect: QRectF, format_name: FormatName) -> None:
    """Draw the shell in the middle of ``rect``; the catalogue's largest shell would fill it."""
    tokens = theme.tokens_of()
    width, depth = shell(format_name)
    most_wide, most_deep = largest_shell()
    scale = min(rect.width() / most_wide, rect.height() / most_deep)
    outline = QRectF(0, 0, width * scale, depth * scale)
    outline.moveCenter(rect.center())
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    _paint_shell(painter, outline, tokens)
    _paint_face(painter, outline, FACES.get(format_name, _VHS), tokens)
    if format_name == _NOBODY_KNOWS:
        _paint_doubt(painter, outline, tokens)
    painter.restore()


def largest_shell() -> tuple[float, float]:
    """Width and depth, in millimetres, that hold every shell of the catalogue."""
    return _largest()


def shell(format_name: FormatName) -> tuple[float, float]:
    """Width and depth of one shell in millimetres, from the catalogue."""
    width, depth, _ = formats.catalogue().format(format_name).shell.value
    return float(width), float(depth)


@cache
def _largest() -> tuple[float, float]:
    sizes = [shell(name) for name in formats.catalogue().names]
    return max(width for width, _ in sizes), max(depth for _, depth in sizes)


def _paint_shell(painter: QPainter, outline: QRectF, tokens: theme.Tokens) -> None:
    corner = max(1.0, outline.height() * 0.06)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(tokens.shell))
    painter.drawRoundedRect(outline, corner, corner)


def _paint_face(painter: QPainter, outline: QRectF, face: Face, tokens: theme.Tokens) -> None:
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
    if face.foot:
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
