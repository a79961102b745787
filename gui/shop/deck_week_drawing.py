"""The deck week: one row a deck, real hours along it, closing times as edges, doubt as fading ends."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.scheduling.deck_week import DeckRuns, Week
from gui.shop import deck_week_axis, deck_week_paint
from gui.shop.deck_week_axis import AxisSegment
from gui.shop.deck_week_paint import HEAD, ROW
from gui.shop.deck_week_words import in_words
from gui.toolkit import theme
from gui.toolkit.text import say

_NAMES = theme.Length(15)
"""Width of the column of deck names."""
_GAP = theme.Length(1.5)
"""Between two openings."""


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
        decks = len(self._week.timelines) if self._week else 0
        return QSize(600, HEAD.px + max(decks, 1) * ROW.px + theme.UNIT)

    def minimumSizeHint(self) -> QSize:
        return QSize(560, self.sizeHint().height())

    def segments(self) -> tuple[AxisSegment, ...]:
        """The openings laid along the axis at one scale."""
        if self._week is None:
            return ()
        return deck_week_axis.segments(
            self._week, float(_NAMES.px), float(self.width() - theme.UNIT), _GAP.exact
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        week = self._week
        if week is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tokens, segments = theme.current_tokens(), self.segments()
        bottom = float(HEAD.px + len(week.timelines) * ROW.px)
        for segment in segments:
            deck_week_paint.paint_opening(painter, segment, bottom, tokens)
        for place, timeline in enumerate(week.timelines):
            self._paint_timeline(painter, timeline, segments, float(HEAD.px + place * ROW.px))
        deck_week_paint.paint_line(painter, tokens.line, QPointF(0, bottom), QPointF(self.width(), bottom))
        for segment in segments:
            deck_week_paint.paint_now(painter, week.now, segment, bottom, tokens)
        painter.end()

    def _paint_timeline(
        self, painter: QPainter, timeline: DeckRuns, segments: tuple[AxisSegment, ...], top: float
    ) -> None:
        tokens = theme.current_tokens()
        deck_week_paint.paint_deck(
            painter, timeline.deck, QRectF(0, top, _NAMES.px - theme.UNIT, ROW.px), tokens
        )
        deck_week_paint.paint_line(painter, tokens.line, QPointF(0, top), QPointF(self.width(), top))
        for segment in segments:
            for begins, ends in timeline.out:
                deck_week_paint.paint_outage(painter, begins, ends, segment, top, tokens)
        starts = [run.start for run in timeline.runs[1:]]
        for number, run in enumerate(timeline.runs):
            until = min([run.late, *starts[number : number + 1]])
            for segment in segments:
                deck_week_paint.paint_run(painter, run, until, segment, top, tokens)
