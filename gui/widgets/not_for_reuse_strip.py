"""The one sign for a spliced tape: a diagonal-banded strip with the words. Nothing else may look like it."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPainterPath, QPaintEvent, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.toolkit import sizes, theme
from gui.toolkit.plain_text import tip
from gui.toolkit.text import say

_STRIPE = 7.0
"""Width of one diagonal stripe, in device-independent pixels; wider under words larger than those of a
heading."""


class NotForReuseStrip(QWidget):
    """The strip as a widget; its words are its accessible name."""

    def __init__(self, words: str = "", size: float = sizes.SMALL, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._words = words or say("bench", "not_for_reuse")
        self._size = size
        self.setAccessibleName(self._words)
        self.setToolTip(tip(self._words))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    @property
    def words(self) -> str:
        return self._words

    def say(self, words: str) -> None:
        """Change the words on the strip."""
        self._words = words
        self.setAccessibleName(words)
        self.setToolTip(tip(words))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        return band_size(self._words, self._size)

    def minimumSizeHint(self) -> QSize:
        return QSize(0, self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        paint_band(painter, QRectF(self.rect()), self._words, self._size)
        painter.end()


def band_size(words: str = "", size: float = sizes.SMALL) -> QSize:
    """The room the strip needs so that its words stand unclipped between two striped ends."""
    words = words or say("bench", "not_for_reuse")
    metrics = QFontMetricsF(_face(size))
    height = metrics.height() + 4
    return QSize(round(metrics.horizontalAdvance(words) + 4 * _stripe(size) + 14), round(height))


def paint_band(painter: QPainter, rect: QRectF, words: str = "", size: float = sizes.SMALL) -> None:
    """Paint the strip into ``rect``; too long words are cut with an ellipsis, never left out."""
    tokens = theme.current_tokens()
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setClipRect(rect)
    painter.fillRect(rect, QColor(tokens.band_light))
    painter.fillPath(_stripes(rect, _stripe(size)), QColor(tokens.band_dark))
    _write(painter, rect, words or say("bench", "not_for_reuse"), size, tokens)
    painter.restore()


def _stripe(size: float) -> float:
    return _STRIPE * max(1.0, size * theme.UNIT / sizes.UNIT / sizes.LEAD)


def _stripes(rect: QRectF, stripe: float) -> QPainterPath:
    path = QPainterPath()
    lean = rect.height()
    x = rect.left() - lean
    while x < rect.right() + lean:
        path.addPolygon(
            QPolygonF(
                [
                    QPointF(x, rect.bottom()),
                    QPointF(x + stripe, rect.bottom()),
                    QPointF(x + stripe + lean, rect.top()),
                    QPointF(x + lean, rect.top()),
                ]
            )
        )
        path.closeSubpath()
        x += 2 * stripe
    return path


def _write(painter: QPainter, rect: QRectF, words: str, size: float, tokens: theme.Tokens) -> None:
    room = rect.width() - 4 * _stripe(size)
    face = _face(size)
    if QFontMetricsF(face).horizontalAdvance(words) + 10 > room:
        face = _face(sizes.SMALL)
    metrics = QFontMetricsF(face)
    shown = metrics.elidedText(words, Qt.TextElideMode.ElideRight, max(0.0, room - 10))
    plaque = QRectF(0, 0, min(room, metrics.horizontalAdvance(shown) + 14), rect.height())
    plaque.moveCenter(rect.center())
    painter.fillRect(plaque, QColor(tokens.band_light))
    painter.setPen(QColor(tokens.band_dark))
    painter.setFont(face)
    painter.drawText(plaque, Qt.AlignmentFlag.AlignCenter, shown)


def _face(size: float) -> QFont:
    """``size``: in points of the plain grid, so that a strip that stands there grows with the rest."""
    return theme.font(size * theme.UNIT / sizes.UNIT, QFont.Weight.Bold)
