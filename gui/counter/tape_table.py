"""The table of tapes on the Counter: its columns, and the cells that are drawn rather than written."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QLinearGradient, QPainter, QPen

from core.model.quote_records import QuotedTape
from core.model.ranges import Range
from core.model.typed_draft import TypedRow
from core.wording.messages import knows
from gui.counter import accepted_words
from gui.counter.typed_box import ParsedRow
from gui.tables.cell_lettering import write_words
from gui.tables.column_specs import Column, Paint
from gui.toolkit import theme
from gui.toolkit.text import minutes_range, say
from gui.widgets.cassette_drawing import largest_shell, paint_cassette
from gui.widgets.not_for_reuse_strip import band_size, paint_band

_LONGEST_MINUTES = 360.0
"""Minutes at the right end of the time scale; longer tapes fill it."""
_SHELL_WIDTH = theme.Length(5.25)


@dataclass(frozen=True, slots=True)
class TableRow:
    """One row of the table: what was typed, what it means, and what the quote says of it."""

    row: TypedRow
    reading: ParsedRow
    quoted: QuotedTape | None

    @property
    def minutes(self) -> Range | None:
        """Play time of each tape; None when nothing is known or nothing will play."""
        return self.quoted.minutes if self.quoted is not None and self.plays else None

    @property
    def plays(self) -> bool:
        return self.quoted is not None and self.quoted.verdict.is_worked_on

    @property
    def not_for_reuse(self) -> bool:
        return self.quoted is not None and self.quoted.verdict.not_for_reuse


def columns() -> tuple[Column, ...]:
    """The columns from left to right; the last one, play time, is worked out and cannot be typed."""
    return (
        _typed("count", 58, right=True),
        _typed("format", 143, paint=_paint_format),
        _typed("marking", 74),
        _typed("recorded_as", 83),
        _typed("speed", 58),
        _typed("tv", 42),
        replace(_typed("findings", 129, many=True, paint=_paint_findings), besides=_band_words),
        _typed("label", 64, stretch=True),
        Column("minutes", _head("minutes"), _minutes_words, 102, right=True, paint=_paint_minutes),
    )


def _head(name: str) -> str:
    """The head of a column, short where the whole name is too wide."""
    short = f"head-{name}"
    return say("counter", short if knows("counter", short) else f"column-{name}")


def _typed(
    name: str,
    width: int,
    *,
    right: bool = False,
    many: bool = False,
    stretch: bool = False,
    paint: Paint | None = None,
) -> Column:
    """A column that is typed in, its words by ``name``."""
    return Column(
        name,
        _head(name),
        lambda tape: getattr(tape.row, name),
        width,
        edited=True,
        choices=_OFFERS.get(name),
        wrong=lambda tape: tape.reading.complaint(name),
        hint=say("counter", f"hint-{name}"),
        right=right,
        many=many,
        stretch=stretch,
        paint=paint,
    )


_OFFERS = {
    "format": lambda tape: accepted_words.formats_offered(),
    "marking": lambda tape: accepted_words.markings_offered(tape.row.format),
    "recorded_as": lambda tape: accepted_words.recordings_offered(tape.row.format),
    "speed": lambda tape: accepted_words.speeds_offered(tape.row.format, tape.row.recorded_as),
    "tv": lambda tape: accepted_words.tv_offered(),
    "findings": lambda tape: accepted_words.findings_on(tape.row.format),
}


def _band_words(tape: TableRow) -> str:
    return say("bench", "not_for_reuse") if tape.not_for_reuse else ""


def _minutes_words(tape: TableRow) -> str:
    if tape.quoted is None:
        return ""
    if tape.plays:
        return minutes_range(tape.quoted.minutes)
    return say("counter", f"aside_{tape.quoted.verdict.set_aside}")


# --- drawn cells -------------------------------------------------------------------------


def _paint_format(painter: QPainter, place: QRectF, tape: TableRow) -> bool:
    shell = accepted_words.shell_called(tape.row.format)
    if shell is None:
        return False
    width, depth = largest_shell()
    wide = _SHELL_WIDTH.exact
    drawing = QRectF(place.left() - 4, place.top(), wide, wide * depth / width)
    drawing.moveTop(place.center().y() - drawing.height() / 2)
    paint_cassette(painter, drawing, shell.name)
    write_words(painter, place.adjusted(wide + 2, 0, 4, 0), tape.row.format)
    return True


def _paint_findings(painter: QPainter, place: QRectF, tape: TableRow) -> bool:
    if not tape.not_for_reuse:
        return False
    high = min(band_size().height(), place.height() - QFontMetricsF(theme.font(theme.SMALL)).height())
    strip = QRectF(place.left() - 8, place.bottom() - high + 1, place.width() + 16, high)
    above = QRectF(place.left(), place.top(), place.width(), place.height() - high)
    painter.setFont(theme.font(theme.SMALL))
    painter.setPen(QColor(theme.current_tokens().attention))
    shown = QFontMetricsF(painter.font()).elidedText(
        tape.row.findings, Qt.TextElideMode.ElideRight, above.width()
    )
    painter.drawText(above, int(Qt.AlignmentFlag.AlignVCenter), shown)
    paint_band(painter, strip)
    return True


def _paint_minutes(painter: QPainter, place: QRectF, tape: TableRow) -> bool:
    minutes = tape.minutes
    if minutes is None:
        return False
    tokens = theme.current_tokens()
    painter.setPen(QColor(tokens.time))
    words = place.adjusted(-4, 0, 0, -3)
    write_words(painter, words, minutes_range(minutes), Qt.AlignmentFlag.AlignRight)
    _paint_span(painter, place, minutes, tokens)
    return True


def _paint_span(painter: QPainter, place: QRectF, minutes: Range, tokens: theme.Tokens) -> None:
    """A line from the low to the high, fading at both ends, on one scale for all rows."""
    y = place.bottom() - 4
    left, right = (place.left() + place.width() * _share(value) for value in (minutes.low, minutes.high))
    painter.setPen(QPen(QColor(tokens.line), 1))
    painter.drawLine(QPointF(place.left(), y), QPointF(place.right(), y))
    right = max(right, left + 3)
    fade = QLinearGradient(left, 0, right, 0)
    faint, full = QColor(tokens.time), QColor(tokens.time)
    faint.setAlphaF(0.35)
    middle = min(
        max((place.left() + place.width() * _share(minutes.likely) - left) / (right - left), 0.0), 1.0
    )
    fade.setColorAt(0.0, faint)
    fade.setColorAt(middle, full)
    fade.setColorAt(1.0, faint)
    painter.fillRect(QRectF(left, y - 1, right - left, 3), fade)


def _share(minutes: float) -> float:
    return min(minutes / _LONGEST_MINUTES, 1.0)
