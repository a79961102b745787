"""The strokes of the deck week: openings, deck names, bars, outages and the line of the present moment."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QLinearGradient, QPainter, QPen

from core.catalogue.formats import catalogue
from core.model.own_shop.settings_records import Deck
from core.scheduling.deck_week import Run
from gui.shop.deck_week_axis import AxisSegment, date_that_fits, hour_ticks
from gui.toolkit import theme
from gui.toolkit.text import say

ROW = theme.Length(5)
"""Height of one deck."""
HEAD = theme.Length(6)
"""Height of the days and hours above the decks."""
_INSET = 6
"""Between the edge of a row and what is drawn in it."""
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


def paint_opening(painter: QPainter, segment: AxisSegment, bottom: float, tokens: theme.Tokens) -> None:
    """The day and hours of one opening, its ground down to ``bottom``, and closing time as a thick edge."""
    opens, closes = segment.left, segment.x(segment.closes)
    painter.fillRect(QRectF(opens, HEAD.px, closes - opens, bottom - HEAD.px), QColor(tokens.tray))
    face = theme.font(theme.SMALL, QFont.Weight.Bold)
    painter.setFont(face)
    painter.setPen(QColor(tokens.ink))
    date = date_that_fits(segment, QFontMetricsF(face).horizontalAdvance)
    painter.drawText(QRectF(opens, 0, segment.wide, HEAD.px / 2), _LEFT, date)
    _paint_hours(painter, segment, bottom, tokens)
    painter.setPen(QPen(QColor(tokens.ink), 2))
    painter.drawLine(QPointF(closes, HEAD.px - 4), QPointF(closes, bottom))


def paint_deck(painter: QPainter, deck: Deck, room: QRectF, tokens: theme.Tokens) -> None:
    """The name of a deck; one that is out of service says so below it."""
    if deck.in_service:
        _paint_cut(painter, deck.name, room, theme.BODY, tokens.ink)
        return
    half = room.height() / 2
    _paint_cut(painter, deck.name, room.adjusted(0, 0, 0, -half), theme.BODY, tokens.muted)
    below = room.adjusted(0, half, 0, 0)
    _paint_cut(painter, say("shop", "out_of_service"), below, theme.SMALL, tokens.muted)


def paint_run(
    painter: QPainter, run: Run, until: datetime, segment: AxisSegment, top: float, tokens: theme.Tokens
) -> None:
    """The bar of one tape; ``until``: where the next tape begins, or the end of this one."""
    if not segment.overlaps(run.start, until):
        return
    left, right = segment.x(run.start), segment.x(run.late)
    bar = QRectF(left, top + _INSET, max(right - left, 3.0), ROW.px - 2 * _INSET)
    painter.fillRect(bar, _fading(segment.x(run.early), bar, tokens.time))
    paint_line(painter, tokens.slip, bar.topLeft(), bar.bottomLeft(), 2)
    bar.setRight(max(segment.x(until), bar.left()))
    _paint_format(painter, run, bar, tokens)


def paint_outage(
    painter: QPainter,
    begins: datetime,
    ends: datetime,
    segment: AxisSegment,
    top: float,
    tokens: theme.Tokens,
) -> None:
    """An empty frame with words where a deck is out of service by plan: nothing will be played there."""
    if not segment.overlaps(begins, ends):
        return
    left, right = segment.x(begins), segment.x(ends)
    frame = QRectF(left, top + _INSET, right - left, ROW.px - 2 * _INSET)
    painter.setPen(QPen(QColor(tokens.edge), 1))
    painter.setBrush(QColor(tokens.slip))
    painter.drawRect(frame)
    face = theme.font(theme.SMALL)
    words = say("shop", "out_by_plan")
    if QFontMetricsF(face).horizontalAdvance(words) + 10 <= frame.width():
        painter.setFont(face)
        painter.setPen(QColor(tokens.muted))
        painter.drawText(frame.adjusted(6, 0, 0, 0), _LEFT, words)


def paint_now(
    painter: QPainter, now: datetime, segment: AxisSegment, bottom: float, tokens: theme.Tokens
) -> None:
    """A dashed line at the present moment, where it is in this opening."""
    if segment.opens <= now <= segment.ends:
        x = segment.x(now)
        painter.setPen(QPen(QColor(tokens.oxide), 2, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(x, HEAD.px - 6), QPointF(x, bottom))


def paint_line(painter: QPainter, color: str, start: QPointF, end: QPointF, width: float = 1) -> None:
    painter.setPen(QPen(QColor(color), width))
    painter.drawLine(start, end)


def _paint_hours(painter: QPainter, segment: AxisSegment, bottom: float, tokens: theme.Tokens) -> None:
    face = theme.font(theme.SMALL)
    painter.setFont(face)
    for tick in hour_ticks(segment, QFontMetricsF(face).horizontalAdvance, 6.0):
        paint_line(painter, tokens.line, QPointF(tick.x, HEAD.px), QPointF(tick.x, bottom))
        painter.setPen(QColor(tokens.muted))
        painter.drawText(QRectF(tick.x, HEAD.px / 2, segment.wide, HEAD.px / 2), _LEFT, tick.words)


def _paint_cut(painter: QPainter, words: str, room: QRectF, points: float, color: str) -> None:
    """One line of words, cut with an ellipsis where the room is too narrow."""
    face = theme.font(points)
    painter.setFont(face)
    painter.setPen(QColor(color))
    shown = QFontMetricsF(face).elidedText(words, Qt.TextElideMode.ElideRight, room.width())
    painter.drawText(room, _LEFT, shown)


def _paint_format(painter: QPainter, run: Run, bar: QRectF, tokens: theme.Tokens) -> None:
    """The format's name inside the bar, where it fits."""
    face = theme.font(theme.SMALL, QFont.Weight.Bold)
    name = catalogue().format(run.tape.format).words
    if QFontMetricsF(face).horizontalAdvance(name) + 10 > bar.width() * 0.8:
        return
    painter.setFont(face)
    painter.setPen(QColor(tokens.slip))
    painter.drawText(bar.adjusted(6, 0, 0, 0), _LEFT, name)


def _fading(early: float, bar: QRectF, color: str) -> QLinearGradient:
    """Full until the tape may end, then fading to nothing where it surely has."""
    full, gone = QColor(color), QColor(color)
    gone.setAlphaF(0.08)
    gradient = QLinearGradient(bar.topLeft(), bar.topRight())
    share = min(max((early - bar.left()) / bar.width(), 0.0), 1.0)
    gradient.setColorAt(0.0, full)
    gradient.setColorAt(share, full)
    gradient.setColorAt(1.0, gone if share < 1.0 else full)
    return gradient
