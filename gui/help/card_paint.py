"""How the cards of the drawer are painted: the key at their right end, and guide cards between them."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QListView, QStyle, QStyledItemDelegate, QStyleOptionViewItem

from gui.help.screen_commands import Command
from gui.toolkit import theme

CARD = int(Qt.ItemDataRole.UserRole)
"""Role: the `Command` of a card, or the words of a guide card."""
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_CENTER = Qt.AlignmentFlag.AlignCenter


class CardDelegate(QStyledItemDelegate):
    """Paints a card as high as three units and a half, and as wide as its column."""

    def __init__(self, drawer: QListView) -> None:
        super().__init__(drawer)
        self._drawer = drawer

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return self._drawer.gridSize()

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        shown, tokens = index.data(CARD), theme.current_tokens()
        gap = theme.UNIT / 4
        area = QRectF(option.rect).adjusted(gap, gap, -2 * gap, -gap)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if isinstance(shown, Command):
            _paint_card(painter, area, shown, bool(option.state & QStyle.StateFlag.State_Selected), tokens)
        else:
            _paint_guide(painter, area, str(shown), tokens)
        painter.restore()


def _paint_guide(painter: QPainter, area: QRectF, words: str, tokens: theme.Tokens) -> None:
    """A guide card shows its tab only, cut at a slant."""
    painter.setFont(theme.font(theme.SMALL, QFont.Weight.Bold))
    painter.setPen(QColor(tokens.oxide))
    painter.drawText(area.adjusted(theme.UNIT, 0, -theme.UNIT, -2), _LEFT, words)
    painter.setPen(QPen(QColor(tokens.oxide), 2))
    wide = painter.fontMetrics().horizontalAdvance(words) + 2 * theme.UNIT
    foot = area.bottom() - 1
    painter.drawLine(area.bottomLeft(), QRectF(area.left(), foot, wide, 1).topRight())
    slant = area.left() + wide
    painter.drawLine(
        QRectF(slant, foot, 1, 1).topLeft(),
        QRectF(slant + theme.UNIT, area.top() + theme.UNIT, 1, 1).topLeft(),
    )


def _paint_card(painter: QPainter, area: QRectF, card: Command, is_lit: bool, tokens: theme.Tokens) -> None:
    painter.setPen(QPen(QColor(tokens.oxide if is_lit else tokens.line), 2 if is_lit else 1))
    painter.setBrush(QColor(tokens.lit if is_lit else tokens.ground if card.why_not else tokens.slip))
    painter.drawRect(area)
    key = _paint_key(painter, area, card, tokens)
    words = area.adjusted(1.25 * theme.UNIT, 0, -key - theme.UNIT, 0)
    face = theme.font(theme.SMALL)
    painter.setFont(face)
    painter.setPen(QColor(tokens.muted if card.why_not else tokens.ink))
    elide = Qt.TextElideMode.ElideRight
    painter.drawText(words, _LEFT, QFontMetricsF(face).elidedText(card.words, elide, words.width()))


def _paint_key(painter: QPainter, area: QRectF, card: Command, tokens: theme.Tokens) -> float:
    """The key at the right end; returns the width that it took."""
    if not card.keys:
        return 0.0
    face = theme.font(theme.SMALL, QFont.Weight.Bold)
    painter.setFont(face)
    wide = QFontMetricsF(face).horizontalAdvance(card.keys) + theme.UNIT
    painter.setPen(QColor(tokens.muted if card.why_not else tokens.time))
    painter.drawText(QRectF(area.right() - wide, area.top(), wide, area.height()), _CENTER, card.keys)
    return wide
