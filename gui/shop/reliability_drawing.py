"""How many promises were kept, beside what luck alone would do: a strip for each chance that was said."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.promise.reliability import DECILES, Group
from core.wording.locale_figures import percent, percent_range
from gui.toolkit import theme
from gui.toolkit.text import say

_STRIP = theme.Length(7)
_MARK = theme.Length(0.7)
_BARS = theme.Length(10)
_CENTRE = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop


class KeptStrip(QWidget):
    """One group of promises on a line from none to all: the band of luck, what was said, what was kept."""

    def __init__(self, group: Group, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._group = group
        self.setAccessibleName(in_words(group))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(480, _STRIP.px)

    def minimumSizeHint(self) -> QSize:
        return QSize(200, _STRIP.px)

    @property
    def axis(self) -> tuple[int, int]:
        """From and to how many promises the line shows: all that is drawn, with a little air."""
        group = self._group
        least = min(group.least, group.kept)
        return max(0, least - max(1, (group.count - least) // 2)), group.count

    def place_of(self, promises: float) -> float:
        """Where a number of promises stands."""
        begin, end = self.axis
        margin = 2.0 * theme.UNIT
        return margin + (self.width() - 2 * margin) * (promises - begin) / max(end - begin, 1)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        tokens, group = theme.current_tokens(), self._group
        floor = 2.5 * theme.UNIT
        band = QRectF(
            self.place_of(group.least),
            floor - _MARK.exact,
            self.place_of(group.most) - self.place_of(group.least),
            2 * _MARK.exact,
        )
        painter.setPen(QPen(QColor(tokens.edge), 1))
        painter.setBrush(QColor(tokens.line))
        painter.drawRect(band)
        painter.drawLine(
            QPointF(self.place_of(self.axis[0]), floor), QPointF(self.place_of(self.axis[1]), floor)
        )
        said = self.place_of(group.stated * group.count)
        painter.setPen(QPen(QColor(tokens.ink), 2))
        painter.drawLine(QPointF(said, floor - 1.5 * _MARK.exact), QPointF(said, floor + 1.5 * _MARK.exact))
        colour = QColor(tokens.attention if group.verdict < 0 else tokens.time)
        painter.setPen(QPen(QColor(tokens.slip), 1.5))
        painter.setBrush(colour)
        painter.drawEllipse(QPointF(self.place_of(group.kept), floor), _MARK.exact, _MARK.exact)
        self._paint_figures(painter, floor + 2 * _MARK.exact, tokens)
        painter.end()

    def _paint_figures(self, painter: QPainter, top: float, tokens: theme.Tokens) -> None:
        """The ends of the line and the kept, which goes first where they would touch."""
        bold, plain = theme.font(theme.SMALL, QFont.Weight.Bold), theme.font(theme.SMALL)
        taken: list[QRectF] = []
        figures = [(self._group.kept, bold, tokens.ink)]
        figures += [(end, plain, tokens.muted) for end in self.axis]
        for number, face, colour in figures:
            metrics = QFontMetricsF(face)
            wide = metrics.horizontalAdvance(str(number)) + 2
            left = min(max(0.0, self.place_of(number) - wide / 2), self.width() - wide)
            place = QRectF(left, top, wide, metrics.height())
            if any(place.adjusted(-6, 0, 6, 0).intersects(other) for other in taken):
                continue
            taken.append(place)
            painter.setFont(face)
            painter.setPen(QColor(colour))
            painter.drawText(place, _CENTRE, str(number))


class DecileBars(QWidget):
    """Where boxes were ready within their own curve, in tenths; a level row is right."""

    def __init__(self, deciles: tuple[float, ...], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._deciles = deciles
        self.setAccessibleName(say("shop", "kept_tenths"))
        self.setAccessibleDescription(
            ", ".join(f"{n}: {percent(share)}" for n, share in enumerate(deciles, 1))
        )
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        return QSize(320, _BARS.px + 3 * theme.UNIT)

    def minimumSizeHint(self) -> QSize:
        return QSize(200, self.sizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        tokens = theme.current_tokens()
        most = max(*self._deciles, 2 / DECILES)
        side = min(self.width() / DECILES, 8.0 * theme.UNIT)
        face = theme.font(theme.SMALL)
        painter.setFont(face)
        for place, share in enumerate(self._deciles):
            high = (_BARS.px - 2) * share / most
            bar = QRectF(place * side + 3, _BARS.px - high, side - 6, high)
            late = place == DECILES - 1 and share > 2 / DECILES
            painter.fillRect(bar, QColor(tokens.attention if late else tokens.time))
            painter.setPen(QColor(tokens.muted))
            painter.drawText(
                QRectF(place * side, _BARS.px + 4, side, 3 * theme.UNIT), _CENTRE, str(place + 1)
            )
        level = _BARS.px - (_BARS.px - 2) / DECILES / most
        painter.setPen(QPen(QColor(tokens.ink), 1, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(0, level), QPointF(DECILES * side, level))
        painter.setPen(QPen(QColor(tokens.edge), 1))
        painter.drawLine(QPointF(0, _BARS.px), QPointF(DECILES * side, _BARS.px))
        painter.end()


def in_words(group: Group) -> str:
    """``Of 120 promises said 18 times in 20, 112 were kept. Luck alone gives 102 to 114: as said.``"""
    counted = "kept_of_one" if group.count == 1 else "kept_of"
    said = say("shop", counted, count=group.count, kept=group.kept, chances=_chances(group))
    key = {-1: "kept_fewer", 0: "kept_as_said", 1: "kept_more"}[group.verdict]
    return f"{said} {say('shop', key, least=group.least, most=group.most)}"


def _chances(group: Group) -> str:
    return percent_range(group.low, group.high)
