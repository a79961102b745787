"""Chances that were stated beside what happened: a dot for each tenth, a ring for the plan alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.promise.reliability import DECILES, sampling_band
from core.wording.locale_figures import percent
from gui.toolkit import theme
from gui.toolkit.text import say

_SIDE = theme.Length(30)
_LEFT, _BELOW, _AIR = theme.Length(6.0), theme.Length(6.0), theme.Length(1.0)
_DOT, _RING = theme.Length(0.55), theme.Length(0.75)
_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
_CENTRE = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop


@dataclass(frozen=True, slots=True)
class Point:
    """Orders that were ready once the chance had reached ``said``."""

    said: float
    ready: float
    planned: float
    """The same for the plan's own chance."""
    least: float
    most: float
    """Between which luck alone would leave ``ready``."""

    @property
    def words(self) -> str:
        """``At 90%: 88% of orders were ready; 74% by the plan alone``."""
        told = (percent(each) for each in (self.said, self.ready, self.planned))
        return say("shop", "calibration_point", **dict(zip(("said", "ready", "planned"), told, strict=True)))


def points(deciles: Sequence[float], planned: Sequence[float], promises: int) -> tuple[Point, ...]:
    """A point for each tenth but the last, at which everything is ready."""
    found = []
    pairs = zip(accumulate(deciles), accumulate(planned), strict=True)
    for tenth, (ready, by_plan) in enumerate(list(pairs)[:-1], 1):
        said = tenth / DECILES
        least, most = sampling_band([said] * promises)
        found.append(Point(said, ready, by_plan, least / promises, most / promises))
    return tuple(found)


class CalibrationPicture(QWidget):
    """What was said from left to right, what happened from below to above; the slanting line is right."""

    def __init__(self, found: Sequence[Point], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.points = tuple(found)
        self.setAccessibleName(say("shop", "calibration"))
        self.setAccessibleDescription("\n".join(each.words for each in self.points))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(int(_SIDE.px + _LEFT.exact + _AIR.exact), int(_SIDE.px + _BELOW.exact))

    def minimumSizeHint(self) -> QSize:
        return QSize(200, self.sizeHint().height())

    def place_of(self, said: float, ready: float) -> QPointF:
        """Where a pair of shares stands."""
        wide = min(float(_SIDE.px), self.width() - _LEFT.exact - _AIR.exact)
        return QPointF(_LEFT.exact + wide * said, _AIR.exact + (_SIDE.px - _AIR.exact) * (1 - ready))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tokens = theme.current_tokens()
        self._paint_ground(painter, tokens)
        for each in self.points:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(tokens.muted), 1.5))
            painter.drawEllipse(self.place_of(each.said, each.planned), _RING.exact, _RING.exact)
        for each in self.points:
            is_late = each.ready < each.least
            painter.setPen(QPen(QColor(tokens.slip), 1))
            painter.setBrush(QColor(tokens.attention if is_late else tokens.time))
            painter.drawEllipse(self.place_of(each.said, each.ready), _DOT.exact, _DOT.exact)
        painter.end()

    def _paint_ground(self, painter: QPainter, tokens: theme.Tokens) -> None:
        """The band of luck, the line of what is right, the two edges and their figures."""
        begin, end = self.place_of(0, 0), self.place_of(1, 1)
        edge = [(each.said, each.most) for each in self.points]
        edge += [(1.0, 1.0), *((each.said, each.least) for each in reversed(self.points)), (0.0, 0.0)]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(tokens.line))
        painter.drawPolygon(QPolygonF([begin, *(self.place_of(*each) for each in edge)]))
        painter.setPen(QPen(QColor(tokens.ink), 1, Qt.PenStyle.DashLine))
        painter.drawLine(begin, end)
        painter.setPen(QPen(QColor(tokens.edge), 1))
        painter.drawLine(begin, QPointF(end.x(), begin.y()))
        painter.drawLine(begin, QPointF(begin.x(), end.y()))
        self._paint_figures(painter, tokens)

    def _paint_figures(self, painter: QPainter, tokens: theme.Tokens) -> None:
        painter.setFont(theme.font(theme.SMALL))
        painter.setPen(QColor(tokens.muted))
        line = 2.5 * theme.UNIT
        for share in (0.0, 0.5, 1.0):
            below, beside = self.place_of(share, 0), self.place_of(0, share)
            left = min(below.x() - _LEFT.exact / 2, self.width() - _LEFT.exact)
            painter.drawText(QRectF(left, below.y() + 4, _LEFT.exact, line), _CENTRE, percent(share))
            painter.drawText(QRectF(0, beside.y() - line / 2, _LEFT.exact - 6, line), _RIGHT, percent(share))
        middle = QRectF(
            _LEFT.exact, self.place_of(0, 0).y() + 4 + line, self.place_of(1, 0).x() - _LEFT.exact, line
        )
        painter.drawText(middle, _CENTRE, say("shop", "calibration_said"))
