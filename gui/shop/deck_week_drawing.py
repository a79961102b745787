"""The deck week: one lane a deck, real hours along it, closing times as edges, doubt as fading ends."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetrics,
    QFontMetricsF,
    QLinearGradient,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.catalogue.formats import catalogue
from core.scheduling.deck_week import Run, Week
from gui.toolkit import theme
from gui.toolkit.text import say, short_day, time_of_day
from gui.widgets.layouts import words

_LANE = 5 * theme.UNIT
_NAMES = 15 * theme.UNIT
_GAP = 1.5 * theme.UNIT
_HEAD = 6 * theme.UNIT
_LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


@dataclass(frozen=True, slots=True)
class AxisSegment:
    """One opening on the axis, with the time past closing in which a tape may still play."""

    opens: datetime
    closes: datetime
    ends: datetime
    left: float
    wide: float

    def x(self, when: datetime) -> float:
        """Where a moment stands; moments outside stand at the nearer end."""
        inside = min(max(when, self.opens), self.ends)
        return self.left + self.wide * ((inside - self.opens) / (self.ends - self.opens))


class DeckWeek(QWidget):
    """What the decks are likely to play. Read from left to right; nothing can be moved by hand."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("deck-week")
        self.setAccessibleName(say("shop", "week"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._week: Week | None = None

    def show_week(self, week: Week) -> None:
        """Draw another week."""
        self._week = week
        self.setAccessibleDescription(in_words(week))
        self.setFixedHeight(self.sizeHint().height())
        self.update()

    def sizeHint(self) -> QSize:
        lanes = len(self._week.lanes) if self._week else 0
        return QSize(600, _HEAD + max(lanes, 1) * _LANE + theme.UNIT)

    def minimumSizeHint(self) -> QSize:
        return QSize(560, self.sizeHint().height())

    def stretches(self) -> tuple[AxisSegment, ...]:
        """The openings laid along the axis at one scale."""
        week = self._week
        if week is None or not week.openings:
            return ()
        spans = [one.closes - one.opens + week.past_closing for one in week.openings]
        room = self.width() - _NAMES - _GAP * (len(spans) - 1) - theme.UNIT
        scale = room / (sum(spans, timedelta()) / timedelta(minutes=1))
        left, laid = float(_NAMES), []
        for one, span in zip(week.openings, spans, strict=True):
            wide = scale * (span / timedelta(minutes=1))
            laid.append(AxisSegment(one.opens, one.closes, one.closes + week.past_closing, left, wide))
            left += wide + _GAP
        return tuple(laid)

    # --- painting ------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        week = self._week
        if week is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tokens, stretches = theme.current_tokens(), self.stretches()
        floor = float(_HEAD + len(week.lanes) * _LANE)
        for stretch in stretches:
            _paint_opening(painter, stretch, floor, tokens)
        for place, lane in enumerate(week.lanes):
            top = float(_HEAD + place * _LANE)
            _paint_name(painter, lane.deck.name, lane.deck.in_service, top, tokens)
            _line(painter, tokens.line, QPointF(0, top), QPointF(self.width(), top))
            for begins, ends in lane.out:
                _paint_outage(painter, begins, ends, stretches, top, tokens)
            for number, run in enumerate(lane.runs):
                follower = lane.runs[number + 1].start if number + 1 < len(lane.runs) else run.late
                _paint_run(painter, run, min(run.late, follower), stretches, top, tokens)
        _line(painter, tokens.line, QPointF(0, floor), QPointF(self.width(), floor))
        _paint_now(painter, week.now, stretches, floor, tokens)
        painter.end()


def in_words(week: Week) -> str:
    """The whole picture for a screen reader."""
    parts = []
    for lane in week.lanes:
        runs = [
            say("shop", "run", tape=run.tape.code, day=short_day(run.start.date()), **_clock(run))
            for run in lane.runs
        ]
        runs += [
            say("shop", "planned_out", begins=short_day(begins.date()), ends=short_day(_last_day(ends)))
            for begins, ends in lane.out
        ]
        told = "; ".join(runs) or say("shop", "idle" if lane.deck.in_service else "out_of_service")
        parts.append(f"{lane.deck.name}: {told}")
    return ". ".join(parts)


def legend() -> QWidget:
    """What the signs of the picture mean, in words."""
    return words(say("shop", "legend"), "small")


def _clock(run: Run) -> dict[str, str]:
    return {"start": time_of_day(run.start), "early": time_of_day(run.early), "late": time_of_day(run.late)}


def _paint_opening(painter: QPainter, stretch: AxisSegment, floor: float, tokens: theme.Tokens) -> None:
    opens, closes = stretch.left, stretch.x(stretch.closes)
    painter.fillRect(QRectF(opens, _HEAD, closes - opens, floor - _HEAD), QColor(tokens.tray))
    painter.setFont(theme.font(theme.SMALL, QFont.Weight.Bold))
    painter.setPen(QColor(tokens.ink))
    day = _day_that_fits(stretch, painter.fontMetrics())
    painter.drawText(QRectF(opens, 0, stretch.wide, _HEAD / 2), _LEFT, day)
    _paint_hours(painter, stretch, floor, tokens)
    painter.setPen(QPen(QColor(tokens.ink), 2))
    painter.drawLine(QPointF(closes, _HEAD - 4), QPointF(closes, floor))


def _day_that_fits(stretch: AxisSegment, metrics: QFontMetrics) -> str:
    """``Wed 11 Mar``, without the month or even the date where the opening is too narrow for it."""
    parts = short_day(stretch.opens.date()).split()
    forms = [" ".join(parts[:most]) for most in range(len(parts), 0, -1)]
    return next((form for form in forms if metrics.horizontalAdvance(form) <= stretch.wide), "")


def _paint_hours(painter: QPainter, stretch: AxisSegment, floor: float, tokens: theme.Tokens) -> None:
    """A tick an hour; a figure wherever there is room for one."""
    face = theme.font(theme.SMALL)
    painter.setFont(face)
    room, last = QFontMetricsF(face).horizontalAdvance("00") + 6, -1e9
    hour = stretch.opens.replace(minute=0, second=0, microsecond=0)
    while hour <= stretch.closes:
        if hour >= stretch.opens:
            x = stretch.x(hour)
            _line(painter, tokens.line, QPointF(x, _HEAD), QPointF(x, floor))
            if x - last >= room:
                painter.setPen(QColor(tokens.muted))
                painter.drawText(QRectF(x, _HEAD / 2, room, _HEAD / 2), _LEFT, str(hour.hour))
                last = x
        hour += timedelta(hours=1)


def _paint_name(painter: QPainter, name: str, in_service: bool, top: float, tokens: theme.Tokens) -> None:
    face = theme.font(theme.BODY)
    painter.setFont(face)
    painter.setPen(QColor(tokens.ink if in_service else tokens.muted))
    text = name if in_service else f"{name} · {say('shop', 'off')}"
    room = QRectF(0, top, _NAMES - theme.UNIT, _LANE)
    painter.drawText(
        room, _LEFT, QFontMetricsF(face).elidedText(text, Qt.TextElideMode.ElideRight, room.width())
    )


def _paint_run(
    painter: QPainter,
    run: Run,
    until: datetime,
    stretches: tuple[AxisSegment, ...],
    top: float,
    tokens: theme.Tokens,
) -> None:
    """``until`` is where the next tape begins, or the end of this one."""
    for stretch in stretches:
        if until <= stretch.opens or run.start >= stretch.ends:
            continue
        left, right = stretch.x(run.start), stretch.x(run.late)
        bar = QRectF(left, top + 6, max(right - left, 3.0), _LANE - 12)
        painter.fillRect(bar, _fading(stretch.x(run.early), bar, tokens.time))
        _line(painter, tokens.slip, bar.topLeft(), bar.bottomLeft(), 2)
        bar.setRight(max(stretch.x(until), bar.left()))
        _paint_words(painter, run, bar, tokens)


def _paint_outage(
    painter: QPainter,
    begins: datetime,
    ends: datetime,
    stretches: tuple[AxisSegment, ...],
    top: float,
    tokens: theme.Tokens,
) -> None:
    """An empty frame with words where a deck is out by plan: nothing will be played there."""
    for stretch in stretches:
        if ends <= stretch.opens or begins >= stretch.ends:
            continue
        frame = QRectF(stretch.x(begins), top + 6, stretch.x(ends) - stretch.x(begins), _LANE - 12)
        painter.setPen(QPen(QColor(tokens.edge), 1))
        painter.setBrush(QColor(tokens.slip))
        painter.drawRect(frame)
        face = theme.font(theme.SMALL)
        word = say("shop", "out_by_plan")
        if QFontMetricsF(face).horizontalAdvance(word) + 10 <= frame.width():
            painter.setFont(face)
            painter.setPen(QColor(tokens.muted))
            painter.drawText(frame.adjusted(6, 0, 0, 0), _LEFT, word)


def _last_day(ends: datetime) -> date:
    """The last day of a stretch that ends at midnight."""
    return (ends - timedelta(seconds=1)).date()


def _fading(early: float, bar: QRectF, colour: str) -> QLinearGradient:
    """Full until the tape may end, then fading to nothing where it surely has."""
    full, gone = QColor(colour), QColor(colour)
    gone.setAlphaF(0.08)
    gradient = QLinearGradient(bar.topLeft(), bar.topRight())
    share = min(max((early - bar.left()) / bar.width(), 0.0), 1.0)
    gradient.setColorAt(0.0, full)
    gradient.setColorAt(share, full)
    gradient.setColorAt(1.0, gone if share < 1.0 else full)
    return gradient


def _paint_words(painter: QPainter, run: Run, bar: QRectF, tokens: theme.Tokens) -> None:
    """The format's name inside the bar, where it fits."""
    face = theme.font(theme.SMALL, QFont.Weight.Bold)
    name = catalogue().format(run.tape.format).words
    if QFontMetricsF(face).horizontalAdvance(name) + 10 > bar.width() * 0.8:
        return
    painter.setFont(face)
    painter.setPen(QColor(tokens.slip))
    painter.drawText(bar.adjusted(6, 0, 0, 0), _LEFT, name)


def _paint_now(
    painter: QPainter, now: datetime, stretches: tuple[AxisSegment, ...], floor: float, tokens: theme.Tokens
) -> None:
    for stretch in stretches:
        if stretch.opens <= now <= stretch.ends:
            x = stretch.x(now)
            painter.setPen(QPen(QColor(tokens.oxide), 2, Qt.PenStyle.DashLine))
            painter.drawLine(QPointF(x, _HEAD - 6), QPointF(x, floor))


def _line(painter: QPainter, colour: str, start: QPointF, end: QPointF, width: float = 1) -> None:
    painter.setPen(QPen(QColor(colour), width))
    painter.drawLine(start, end)
