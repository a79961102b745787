"""The customer's cassettes in the tray, drawn to one scale, with what they are and how long they may play."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.catalogue import formats
from core.model.names import FormatName
from core.model.quote_records import QuotedTape
from core.wording.locale_figures import listed
from gui.customer_side.tape_arrangement import Arrangement, EqualTapes, PlacedTapes, arrange
from gui.toolkit import theme
from gui.toolkit.text import minutes_range, say
from gui.widgets.cassette_drawing import largest_shell, paint_cassette, shell
from gui.widgets.not_for_reuse_strip import band_size, paint_band

_MARGIN = 2.0 * theme.UNIT


@dataclass(frozen=True, slots=True)
class _Words:
    """How much is written below the cassettes, and how small these may be drawn for it."""

    size: float
    """Of the letters, as a share of the small type; 0: nothing is written."""
    has_length: bool
    at_least: float
    """Pixels a millimetre."""


_CHOICES = (
    _Words(1.25, True, 0.5),
    _Words(1.25, False, 0.35),
    _Words(1.0, False, 0.25),
    _Words(0.0, False, 0.2),
)
"""From the fullest to the barest: the first at which all cassettes fit is drawn, else none."""


@dataclass(frozen=True, slots=True)
class DrawnTapes:
    """Equal cassettes and the words below them."""

    format: FormatName
    count: int
    words: str
    length: str = ""
    """How long they may play; empty where no tape is meant."""
    not_for_reuse: bool = False


def drawn_tapes(tapes: Sequence[QuotedTape]) -> tuple[DrawnTapes, ...]:
    """The tapes of a quote, one entry for each line of the order."""
    return tuple(_drawn(tape) for tape in tapes if tape.n == 1)


def drawn_formats() -> tuple[DrawnTapes, ...]:
    """One cassette of every format the shop knows by its own system."""
    known = formats.catalogue().formats
    return tuple(DrawnTapes(each.name, 1, each.words) for each in known if each.has_own_system)


class TapesDrawing(QWidget):
    """A tray that fills the room it is given; the cassettes are as large as there is room for all."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("customer-tapes")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.shown: tuple[DrawnTapes, ...] = ()

    def show_tapes(self, shown: tuple[DrawnTapes, ...]) -> None:
        """Draw these cassettes instead."""
        if shown != self.shown:
            self.shown = shown
            self.setAccessibleName(listed([_spoken(each) for each in shown], "unit") if shown else "")
            self.update()

    def arrangement(self) -> Arrangement | None:
        """Where the cassettes lie, for the size the tray has now; None when they do not fit."""
        found = self._fitting()
        return None if found is None else found[1]

    def sizeHint(self) -> QSize:
        """No height: the tray takes what the words of the page leave."""
        return QSize(50 * theme.UNIT, 0)

    def paintEvent(self, event: QPaintEvent) -> None:
        found = self._fitting()
        if found is None:
            return
        words, arrangement = found
        tokens = theme.current_tokens()
        painter = QPainter(self)
        painter.setPen(QColor(tokens.line))
        painter.setBrush(QColor(tokens.tray))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.translate((self.width() - arrangement.width) / 2, (self.height() - arrangement.height) / 2)
        for drawn, placed in zip(self.shown, arrangement.placed, strict=True):
            _paint_shells(painter, drawn, placed, arrangement.scale)
            _paint_words(painter, drawn, placed, words)
        painter.end()

    def _fitting(self) -> tuple[_Words, Arrangement] | None:
        width, height = self.width() - 2 * _MARGIN, self.height() - 2 * _MARGIN
        for words in _CHOICES if self.shown else ():
            groups = [_group(each, words) for each in self.shown]
            arrangement = arrange(groups, width, height, words.at_least)
            if arrangement is not None:
                return words, arrangement
        return None


def _paint_shells(painter: QPainter, drawn: DrawnTapes, placed: PlacedTapes, scale: float) -> None:
    wide, deep = shell(drawn.format)
    most_wide, most_deep = largest_shell()
    for left, top in placed.shells:
        room = QRectF(0, 0, most_wide * scale, most_deep * scale)
        room.moveCenter(QPointF(left + wide * scale / 2, top + deep * scale / 2))
        paint_cassette(painter, room, drawn.format)


def _paint_words(painter: QPainter, drawn: DrawnTapes, placed: PlacedTapes, words: _Words) -> None:
    tokens = theme.current_tokens()
    left, top = placed.words
    for text, face, ink in _lines(drawn, words):
        painter.setFont(face)
        painter.setPen(QColor(getattr(tokens, ink)))
        painter.drawText(QPointF(left, top + QFontMetricsF(face).ascent() + 2), text)
        top += QFontMetricsF(face).height()
    if drawn.not_for_reuse and words.size:
        size = band_size()
        paint_band(painter, QRectF(left, top + 4, size.width(), size.height()))


def _lines(drawn: DrawnTapes, words: _Words) -> list[tuple[str, QFont, str]]:
    """The lines below a group: text, type, and name of the ink."""
    if not words.size:
        return []
    size = theme.SMALL * words.size
    lines = [(drawn.words, theme.font(size, QFont.Weight.Bold), "ink")]
    if words.has_length and drawn.length:
        lines.append((drawn.length, theme.font(size), "time"))
    return lines


def _group(drawn: DrawnTapes, words: _Words) -> EqualTapes:
    lines = [(QFontMetricsF(face), text) for text, face, _ in _lines(drawn, words)]
    width = max((metrics.horizontalAdvance(text) for metrics, text in lines), default=0.0)
    height = sum(metrics.height() for metrics, _ in lines) + 4
    if drawn.not_for_reuse and words.size:
        width, height = max(width, band_size().width()), height + band_size().height() + 4
    return EqualTapes(drawn.count, *shell(drawn.format), width, height)


def _drawn(tape: QuotedTape) -> DrawnTapes:
    line = tape.draft
    name = formats.catalogue().format(line.format).words
    words = say(
        "customer", "drawn", count=line.count, words=f"{name} {line.marking}" if line.marking else name
    )
    if tape.verdict.elsewhere:
        length = say("customer", "drawn_not_here")
    elif tape.verdict.set_aside:
        length = say("counter", f"aside_{tape.verdict.set_aside}")
    else:
        minutes = minutes_range(tape.minutes)
        length = say("customer", "drawn_length", count=line.count, minutes=minutes)
    return DrawnTapes(line.format, line.count, words, length, tape.verdict.not_for_reuse)


def _spoken(drawn: DrawnTapes) -> str:
    return f"{drawn.words}: {drawn.length}" if drawn.length else drawn.words
