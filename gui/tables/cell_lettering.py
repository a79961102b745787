"""Words in a cell: on one line when they fit, else small on two, and cut only after that."""

from __future__ import annotations

from functools import lru_cache

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from gui.toolkit import theme


def write_words(
    painter: QPainter, place: QRectF, words: str, side: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft
) -> None:
    """Write ``words`` into ``place`` with the painter's pen and the house face."""
    if not words:
        return
    face, metrics = _face(theme.BODY)
    if metrics.horizontalAdvance(words) <= place.width():
        painter.setFont(face)
        painter.drawText(place, int(side | Qt.AlignmentFlag.AlignVCenter), words)
        return
    _write_small(painter, place, words, side)


def in_two(words: str, metrics: QFontMetricsF, width: float) -> tuple[str, str]:
    """The words that fit on the first line, and the rest of them."""
    pieces = words.split(" ")
    for count in range(len(pieces), 0, -1):
        first = " ".join(pieces[:count])
        if metrics.horizontalAdvance(first) <= width:
            return first, " ".join(pieces[count:])
    return words, ""


def _write_small(painter: QPainter, place: QRectF, words: str, side: Qt.AlignmentFlag) -> None:
    face, metrics = _face(theme.SMALL)
    painter.setFont(face)
    first, second = in_two(words, metrics, place.width())
    lines = [line for line in (first, second) if line]
    leading = min(metrics.height(), place.height() / 2)
    top = place.center().y() - leading * len(lines) / 2
    for number, line in enumerate(lines):
        shown = metrics.elidedText(line, Qt.TextElideMode.ElideRight, place.width())
        row = QRectF(place.left(), top + number * leading, place.width(), leading)
        painter.drawText(row, int(side | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextDontClip), shown)


@lru_cache(maxsize=8)
def _face(size: float) -> tuple[QFont, QFontMetricsF]:
    face = theme.font(size)
    return face, QFontMetricsF(face)
