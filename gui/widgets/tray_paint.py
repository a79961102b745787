"""How one row of the tray is painted: the sign of checking off, the shell, the words, the band."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from gui.toolkit import theme
from gui.widgets.cassette_drawing import paint_cassette
from gui.widgets.not_for_reuse_strip import paint_band

if TYPE_CHECKING:
    from gui.widgets.tray import TrayItem

PIECE = int(Qt.ItemDataRole.UserRole)
CHECK_WIDE = theme.Length(5)
_ROW, _HEADING, _BAND = theme.Length(6), theme.Length(4), theme.Length(3)
_SHELL = theme.Length(7)
_CHECK = theme.Length(2.5)
_TICK = ((0.2, 0.5), (0.45, 0.75), (0.85, 0.2))
"""Corners of the tick, in shares of its box."""
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class TrayItemDelegate(QStyledItemDelegate):
    """Paints a `TrayItem`."""

    def __init__(self, tray: QListView) -> None:
        super().__init__(tray)
        self._tray = tray

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        piece: TrayItem | None = index.data(PIECE)
        if piece is None:
            return QSize(0, _ROW.px)
        if not piece.key:
            return QSize(0, _HEADING.px)
        return QSize(0, _ROW.px + (_BAND.px if piece.band else 0))

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        piece: TrayItem | None = index.data(PIECE)
        if piece is None:
            return
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tokens = theme.current_tokens()
        area = QRectF(option.rect)
        if not piece.key:
            _paint_heading(painter, area, piece, tokens)
        else:
            if option.state & QStyle.StateFlag.State_MouseOver:
                painter.fillRect(area, QColor(tokens.slip))
            _paint_ground(painter, area, self._is_lit(option), tokens)
            checks = CHECK_WIDE.px - theme.UNIT if self._tray.property("checks") else 0
            _paint_row(painter, area, piece, tokens, checks)
        painter.restore()

    def _is_lit(self, option: QStyleOptionViewItem) -> bool:
        selected = bool(option.state & QStyle.StateFlag.State_Selected)
        return selected and (self._tray.hasFocus() or bool(self._tray.property("always_lit")))


def _paint_heading(painter: QPainter, area: QRectF, piece: TrayItem, tokens: theme.Tokens) -> None:
    painter.setFont(theme.font(theme.SMALL, QFont.Weight.Bold))
    painter.setPen(QColor(tokens.muted))
    painter.drawText(area.adjusted(theme.UNIT, theme.UNIT / 2, -theme.UNIT, 0), _LEFT, piece.title)
    painter.setFont(theme.font(theme.SMALL))
    painter.drawText(area.adjusted(theme.UNIT, theme.UNIT / 2, -theme.UNIT, 0), _RIGHT, piece.place)


def _paint_ground(painter: QPainter, area: QRectF, lit: bool, tokens: theme.Tokens) -> None:
    if lit:
        painter.fillRect(area, QColor(tokens.lit))
        painter.fillRect(QRectF(area.left(), area.top(), 4, area.height()), QColor(tokens.oxide))
    painter.fillRect(QRectF(area.left(), area.bottom() - 1, area.width(), 1), QColor(tokens.line))


def _paint_row(painter: QPainter, area: QRectF, piece: TrayItem, tokens: theme.Tokens, checks: float) -> None:
    line = QRectF(area.left(), area.top(), area.width(), _ROW.px).adjusted(
        theme.UNIT, 0, -1.5 * theme.UNIT, 0
    )
    if piece.checked is not None:
        _paint_check(painter, QRectF(line.left(), line.top(), 4 * theme.UNIT, _ROW.px), piece.checked, tokens)
    line.setLeft(line.left() + checks)
    if piece.format is not None:
        shell = QRectF(line.left(), line.top() + 4, _SHELL.px, _ROW.px - 8)
        paint_cassette(painter, shell, piece.format)
        line.setLeft(line.left() + _SHELL.px + theme.UNIT)
    _paint_words(painter, line, piece, tokens)
    if piece.band:
        band = QRectF(line.left(), area.top() + _ROW.px - 4, line.width(), _BAND.px)
        paint_band(painter, band, piece.band)


def _paint_words(painter: QPainter, line: QRectF, piece: TrayItem, tokens: theme.Tokens) -> None:
    bold = theme.font(theme.BODY, QFont.Weight.Bold)
    place = QFontMetricsF(bold).horizontalAdvance(piece.place)
    painter.setFont(bold)
    painter.setPen(QColor(tokens.ink))
    painter.drawText(line, _RIGHT, piece.place)
    words = line.adjusted(0, 0, -(place + 2 * theme.UNIT if piece.place else 0), 0)
    upper = words.adjusted(0, 5, 0, -words.height() / 2 + 2) if piece.small else words
    body = theme.font(theme.BODY)
    painter.setFont(body)
    elide = Qt.TextElideMode.ElideRight
    painter.drawText(upper, _LEFT, QFontMetricsF(body).elidedText(piece.title, elide, upper.width()))
    if piece.small:
        small = theme.font(theme.SMALL)
        painter.setFont(small)
        painter.setPen(QColor(tokens.muted))
        lower = words.adjusted(0, words.height() / 2, 0, -4)
        painter.drawText(lower, _LEFT, QFontMetricsF(small).elidedText(piece.small, elide, lower.width()))


def _paint_check(painter: QPainter, area: QRectF, checked: bool, tokens: theme.Tokens) -> None:
    side = _CHECK.exact
    box = QRectF(area.center().x() - side / 2, area.center().y() - side / 2, side, side)
    painter.setPen(QPen(QColor(tokens.edge), 1.5))
    painter.setBrush(QColor(tokens.slip))
    painter.drawRoundedRect(box, 2, 2)
    if checked:
        pen = QPen(QColor(tokens.oxide), 3, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        places = [QPointF(box.left() + x * side, box.top() + y * side) for x, y in _TICK]
        painter.drawPolyline(QPolygonF(places))
