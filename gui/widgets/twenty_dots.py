"""The date as a customer counts: twenty dots over the coming days, one for each chance in twenty."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date, timedelta

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.model.promise_records import Promise
from core.promise import chances
from gui.toolkit import text, theme
from gui.toolkit.text import say

_MOST_DAYS = 28
"""Days on the axis; a promise further off starts the axis later."""


@dataclass(frozen=True, slots=True)
class DotDay:
    """One column of the axis: ``kept`` dots by the promised day, ``missed`` after it."""

    day: date | None
    """None is the last column, for what the curve does not reach."""
    count: int
    kept: bool


def twenty(promise: Promise) -> tuple[date | None, ...]:
    """The day of each dot; None is beyond the end of the promise's curve."""
    return chances.days_of_dots(promise)


def columns(promise: Promise) -> tuple[DotDay, ...]:
    """The axis from the day of the promise's making (or 27 days before its end) to the last dot."""
    if not promise.chances:
        return ()
    dots = twenty(promise)
    counted = Counter(dots)
    days = [day for day in (*dots, promise.day) if day is not None]
    if not days:
        return ()
    last = max(days)
    first = max(promise.made_at.date(), last - timedelta(days=_MOST_DAYS - 1))
    first = min(first, min(days))
    axis = [first + timedelta(days=n) for n in range((last - first).days + 1)]
    shown = [DotDay(day, counted[day], promise.day is not None and day <= promise.day) for day in axis]
    if counted[None]:
        shown.append(DotDay(None, counted[None], False))
    return tuple(shown)


def in_words(promise: Promise) -> str:
    """What the dots show, for a screen reader."""
    shown = [column for column in columns(promise) if column.count]
    if not shown or promise.day is None:
        return say("slip", "dots_none")
    counts = ", ".join(
        say("slip", "on_later", count=column.count)
        if column.day is None
        else say("slip", "on_day", count=column.count, day=text.short_day(column.day))
        for column in shown
    )
    return say("slip", "dots", counts=counts, day=text.day(promise.day))


class PromiseDots(QWidget):
    """The dots on their axis. Full dots fall on or before the promised day, rings after it."""

    def __init__(self, scale: float = 1.0, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._scale = scale
        self._promise: Promise | None = None
        self._columns: tuple[DotDay, ...] = ()
        self._is_late = False
        self.setAccessibleName(say("slip", "days"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Maximum)

    @property
    def shown(self) -> tuple[DotDay, ...]:
        return self._columns

    def show_promise(self, promise: Promise | None, is_late: bool = False) -> None:
        """Draw another promise; None empties the axis. ``is_late``: one that another will soon replace."""
        if promise is self._promise and promise is not None and is_late is self._is_late:
            return
        self._promise, self._is_late = promise, is_late
        self._columns = () if promise is None else columns(promise)
        self.setAccessibleDescription("" if promise is None else in_words(promise))
        self.update()

    @property
    def is_drawn(self) -> bool:
        """Whether there are any dots."""
        return bool(self._columns)

    def rescale(self, scale: float) -> None:
        """Draw in another size, on another screen."""
        if scale != self._scale:
            self._scale = scale
            self.updateGeometry()
            self.update()

    def sizeHint(self) -> QSize:
        return QSize(theme.scaled(320 * self._scale), theme.scaled(60 * self._scale))

    def minimumSizeHint(self) -> QSize:
        return QSize(120, self.sizeHint().height() // 2)  # where room is short the dots are smaller

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        face = theme.font(theme.SMALL * self._scale)
        foot = QFontMetricsF(face).height() + 4 * self._scale
        floor = self.height() - foot
        tokens = theme.current_tokens()
        painter.setPen(QPen(QColor(tokens.edge), 1))
        painter.drawLine(QPointF(0, floor), QPointF(self.width(), floor))
        if self._columns and self._promise is not None:
            self._paint_columns(painter, floor, tokens)
            self._paint_days(painter, floor, face, tokens)
        painter.end()

    def _paint_columns(self, painter: QPainter, floor: float, tokens: theme.Tokens) -> None:
        wide = self.width() / len(self._columns)
        side = self._pitch(wide, floor)
        for index, column in enumerate(self._columns):
            across = max(1, int(wide // side))
            across = min(across, max(1, column.count))
            left = index * wide + (wide - across * side) / 2
            _set_dot(painter, column.kept, self._is_late, tokens)
            for dot in range(column.count):
                row, place = divmod(dot, across)
                centre = QPointF(left + (place + 0.5) * side, floor - (row + 0.5) * side - 2)
                painter.drawEllipse(centre, 0.4 * side, 0.4 * side)
            self._paint_tick(painter, index * wide, floor, column, tokens)

    def _pitch(self, wide: float, floor: float) -> float:
        """The largest side of a dot's square at which the fullest column still fits."""
        fullest = max(column.count for column in self._columns)
        side = float(theme.scaled(18 * self._scale))
        while side > 3.0:
            across = int(wide // side)
            if across and -(-fullest // across) * side <= floor - 8 * self._scale:
                return side
            side -= 0.5
        return side

    def _paint_tick(
        self, painter: QPainter, left: float, floor: float, column: DotDay, tokens: theme.Tokens
    ) -> None:
        painter.setPen(QPen(QColor(tokens.edge), 1))
        weekly = column.day is None or column.day.weekday() == 0
        painter.drawLine(QPointF(left, floor), QPointF(left, floor + (5 if weekly else 2) * self._scale))

    def _paint_days(self, painter: QPainter, floor: float, face: QFont, tokens: theme.Tokens) -> None:
        """The promised day always; the first and the last where they leave it room."""
        wide = self.width() / len(self._columns)
        taken: list[QRectF] = []
        metrics = QFontMetricsF(face)
        for index, words, promised in self._labels():
            bold = theme.font(theme.SMALL * self._scale, QFont.Weight.Bold) if promised else face
            width = QFontMetricsF(bold).horizontalAdvance(words) + 4
            left = min(max(0.0, (index + 0.5) * wide - width / 2), self.width() - width)
            place = QRectF(left, floor + 4 * self._scale, width, metrics.height())
            if any(place.adjusted(-6, 0, 6, 0).intersects(other) for other in taken):
                continue
            taken.append(place)
            painter.setFont(bold)
            painter.setPen(QColor(tokens.time if promised and not self._is_late else tokens.muted))
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, words)

    def _labels(self) -> list[tuple[int, str, bool]]:
        assert self._promise is not None
        days = [column.day for column in self._columns]
        labels: list[tuple[int, str, bool]] = []
        promised = self._promise.day
        if promised is not None and promised in days:
            labels.append((days.index(promised), text.short_day(promised), True))
        for index in (len(days) - 1, 0):
            day = days[index]
            words = say("slip", "later") if day is None else text.short_day(day)
            labels.append((index, words, False))
        return labels


def _set_dot(painter: QPainter, kept: bool, is_late: bool, tokens: theme.Tokens) -> None:
    """Full by the promised day, a ring after it; small change while another day is worked out: all grey."""
    colour = QColor(tokens.edge if is_late else tokens.time if kept else tokens.attention)
    painter.setPen(QPen(colour, 1.5))
    painter.setBrush(colour if kept else Qt.BrushStyle.NoBrush)
