"""A recorded file drawn from start to end: what is odd in the picture above, in the sound below."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.capture.file_report import Report, Stretch, StretchKind, clock
from gui.toolkit import theme
from gui.toolkit.text import say

_LANE = theme.Length(3.5)
_SCALE = theme.Length(3)
_STEPS = (5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200)
"""Seconds between two figures of the scale."""
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
_MIDDLE = Qt.AlignmentFlag.AlignCenter


class FileTimeline(QWidget):
    """Two lanes over a scale of time. It shows; nothing can be moved on it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("time-strip")
        self.setAccessibleName(say("capture", "strip"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._report: Report | None = None
        wide = QFontMetricsF(theme.font(theme.SMALL)).horizontalAdvance
        self._names = max(8.0 * theme.UNIT, *(wide(name) + theme.UNIT for name in _lane_names()))
        """Room for the names of the lanes, left of them."""

    def show_report(self, report: Report) -> None:
        """Draw another file."""
        self._report = report
        self.setAccessibleDescription(in_words(report))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(40 * theme.UNIT, round(2 * _LANE.exact + theme.UNIT + _SCALE.px))

    def minimumSizeHint(self) -> QSize:
        return QSize(30 * theme.UNIT, self.sizeHint().height())

    def place(self, seconds: float) -> float:
        """Where a moment of the file stands."""
        whole = max(self._report.seconds, 1e-9) if self._report else 1.0
        return self._names + (self.width() - self._names - 1) * min(max(seconds / whole, 0.0), 1.0)

    # --- painting ------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        report = self._report
        if report is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tokens = theme.current_tokens()
        for lane, name in enumerate(_lane_names()):
            self._paint_lane(painter, lane, name, tokens)
        for stretch in report.stretches:
            self._paint_stretch(painter, stretch, tokens)
        self._paint_trims(painter, report, tokens)
        self._paint_scale(painter, report, tokens)
        painter.end()

    def _lane(self, lane: int) -> QRectF:
        return QRectF(
            self._names, lane * (_LANE.exact + theme.UNIT / 2), self.width() - self._names - 1, _LANE.exact
        )

    def _paint_lane(self, painter: QPainter, lane: int, name: str, tokens: theme.Tokens) -> None:
        room = self._lane(lane)
        painter.setFont(theme.font(theme.SMALL))
        painter.setPen(QColor(tokens.muted))
        painter.drawText(QRectF(0, room.top(), self._names, room.height()), _LEFT, name)
        painter.fillRect(room, QColor(tokens.tray))
        painter.setPen(QPen(QColor(tokens.line), 1))
        painter.drawRect(room)

    def _paint_stretch(self, painter: QPainter, stretch: Stretch, tokens: theme.Tokens) -> None:
        lane = self._lane(1 if stretch.kind is StretchKind.SILENT else 0)
        left, right = self.place(stretch.start), self.place(stretch.end)
        bar = QRectF(left, lane.top(), max(right - left, 3.0), lane.height())
        painter.fillRect(bar, _filling(stretch.kind, tokens))
        painter.setPen(QPen(QColor(tokens.ink), 1))
        painter.drawRect(bar)
        self._paint_word(painter, stretch.kind, bar, tokens)

    def _paint_word(self, painter: QPainter, kind: StretchKind, bar: QRectF, tokens: theme.Tokens) -> None:
        """The kind in its bar, on a ground that it can be read on, where there is room."""
        face = theme.font(theme.SMALL, QFont.Weight.Bold)
        wide = QFontMetricsF(face).horizontalAdvance(say("capture", f"bar-{kind.value}")) + 8
        if wide > bar.width() - 4:
            return
        plate = QRectF(0, 0, wide, bar.height() - 8)
        plate.moveCenter(bar.center())
        painter.fillRect(plate, QColor(tokens.slip))
        painter.setFont(face)
        painter.setPen(QColor(tokens.ink))
        painter.drawText(plate, _MIDDLE, say("capture", f"bar-{kind.value}"))

    def _paint_trims(self, painter: QPainter, report: Report, tokens: theme.Tokens) -> None:
        """A heavy edge where the kept part begins and ends."""
        floor = self._lane(1).bottom()
        painter.setPen(QPen(QColor(tokens.oxide), 3))
        if report.keep_from > 0 or not report.keep_to:
            _edge(painter, self.place(report.keep_from), floor, 5)
        if report.keep_to < report.seconds:
            _edge(painter, self.place(report.keep_to), floor, -5)

    def _paint_scale(self, painter: QPainter, report: Report, tokens: theme.Tokens) -> None:
        face, top = theme.font(theme.SMALL), self._lane(1).bottom()
        painter.setFont(face)
        figures = QFontMetricsF(face)
        for seconds in ticks(report.seconds, (self.width() - self._names) / 80):
            x = self.place(seconds)
            painter.setPen(QPen(QColor(tokens.edge), 1))
            painter.drawLine(QPointF(x, top), QPointF(x, top + 5))
            painter.setPen(QColor(tokens.muted))
            wide = figures.horizontalAdvance(clock(seconds))
            left = min(max(x - wide / 2, self._names), self.width() - wide - 1)
            painter.drawText(QRectF(left, top + 5, wide + 2, _SCALE.px - 5), _LEFT, clock(seconds))


def _lane_names() -> tuple[str, str]:
    return say("capture", "picture"), say("capture", "sound")


def ticks(seconds: float, most: float) -> Iterator[int]:
    """Round moments from the start on, at most about ``most`` of them."""
    step = next((each for each in _STEPS if seconds / each <= max(most, 1)), _STEPS[-1])
    yield from range(0, int(seconds) + 1, step)


def in_words(report: Report) -> str:
    """The whole picture for a screen reader."""
    told = ". ".join(stretch.words for stretch in report.stretches) or say("capture", "nothing_odd")
    return say("capture", "strip_said", length=clock(report.seconds), stretches=told)


def _filling(kind: StretchKind, tokens: theme.Tokens) -> QBrush:
    """Each kind has a pattern of its own, so that no colour has to be told from another."""
    patterns = {
        StretchKind.BLACK: (tokens.shell, Qt.BrushStyle.SolidPattern),
        StretchKind.BLUE: (tokens.time, Qt.BrushStyle.SolidPattern),
        StretchKind.FROZEN: (tokens.ink, Qt.BrushStyle.VerPattern),
        StretchKind.SILENT: (tokens.ink, Qt.BrushStyle.Dense6Pattern),
    }
    colour, pattern = patterns[kind]
    return QBrush(QColor(colour), pattern)


def _edge(painter: QPainter, x: float, floor: float, foot: float) -> None:
    """A bracket that opens towards what is kept."""
    painter.drawLine(QPointF(x, 0), QPointF(x, floor))
    for y in (1.0, floor - 1):
        painter.drawLine(QPointF(x, y), QPointF(x + foot, y))
