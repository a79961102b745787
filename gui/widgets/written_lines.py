"""Lines written on paper: words left, amount right, the reason underneath or beside."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QEvent, QObject, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from gui.toolkit import theme
from gui.toolkit.plain_text import tip
from gui.widgets.slip_lines import SlipLine

_LOOSEST = 8.0
_FULL, _SHORT, _SHORTEST = "full", "short", "shortest"
_GAP = theme.Length(2.0)
"""Between words and amount."""


@dataclass(frozen=True, slots=True)
class _LaidOutLine:
    rect: QRectF
    words: str
    face: QFont
    ink: str
    flags: Qt.AlignmentFlag | Qt.TextFlag


class SlipLineList(QWidget):
    """Paints `SlipLine` rows. Where room is short the reasons go beside the words instead of below."""

    composed = Signal()
    """The lines were laid out anew."""

    def __init__(self, scale: float = 1.0, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._scale = scale
        self._room: QWidget | None = None
        self.lines: tuple[SlipLine, ...] = ()
        self._pieces: list[_LaidOutLine] = []
        self._rules: list[float] = []
        self._height = 0.0
        self.pitch = 0
        """Height of each line while they are longer than their room even so; else 0."""
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    def fit_into(self, room: QWidget) -> None:
        """Shorten the lines when they would be higher than ``room``."""
        self._room = room
        room.installEventFilter(self)

    def write(self, lines: Sequence[SlipLine]) -> None:
        """Write these lines in place of the old ones."""
        if tuple(lines) == self.lines:
            return
        self.lines = tuple(lines)
        self._compose()
        self.update()

    # --- composing -----------------------------------------------------------------------

    def _compose(self) -> None:
        self._shortened: list[str] = []
        room = self._room.height() if self._room is not None else None
        if room is None or self._least(theme.BODY, theme.SMALL) <= room:
            self._set_out(_FULL)
        if room is not None and (self._least(theme.BODY, theme.SMALL) > room or self._height > room):
            self._shorten(room)
        is_longer = room is not None and self._height > room + 0.5 and bool(self.lines)
        self.pitch = round(self._height / len(self.lines)) if is_longer else 0
        self.setToolTip(tip("\n".join(self._shortened)))
        if round(self._height) != self.minimumHeight():
            self.setMinimumHeight(round(self._height))
            self.updateGeometry()
        self.composed.emit()

    def _least(self, *sizes: float) -> float:
        """The lines cannot be lower than this when each takes one line of every size."""
        return len(self.lines) * sum(self._metrics(size).height() for size in sizes)

    def _shorten(self, room: int) -> None:
        """Reasons beside the words; if that is not enough, one line each."""
        if self._least(theme.BODY) <= room:
            self._set_out(_SHORT)
        if self._least(theme.BODY) > room or self._height > room:
            self._set_out(_SHORTEST)
        elif self.lines:
            spare = (room - self._height) / len(self.lines)
            self._set_out(_SHORT, loose=min(_LOOSEST * self._scale, spare))

    def _set_out(self, form: str, loose: float = 0.0) -> None:
        """``loose`` is what is added below every line."""
        self._pieces, self._rules, y = [], [], 0.0
        for index, line in enumerate(self.lines):
            if line.kind == "sum" and (index == 0 or self.lines[index - 1].kind != "sum"):
                self._rules.append(y + 2)
                y += 8 * self._scale
            y = self._set_line(line, y, form) + loose
        self._height = y

    def _set_line(self, line: SlipLine, y: float, form: str) -> float:
        if line.kind == "price":
            return self._set_price(line, y)
        if line.kind == "note":
            return self._set_block(line.words, y + 2 * self._scale, float(self.width()), theme.SMALL, "ink")
        return self._set_charge(line, y, form)

    def _set_price(self, line: SlipLine, y: float) -> float:
        wide = float(self.width())
        size = theme.GREAT
        label = self._wide(theme.BODY, line.words) + _GAP.exact
        if self._wide(size, line.amount, bold=True) + label > wide:
            size = theme.LEAD
        face = self._face(size, bold=True)
        high = self._metrics(size, bold=True).height()
        small = self._metrics(theme.BODY)
        drop = self._metrics(size, bold=True).ascent() - small.ascent()
        self._put(QRectF(0, y + drop, wide, small.height()), line.words, self._face(theme.BODY), "ink")
        self._put(QRectF(0, y, wide, high), line.amount, face, "ink", right=True)
        if not line.because:
            return y + high
        y, low = y + high, small.height()
        self._put(QRectF(0, y, wide, low), line.because, self._face(theme.BODY), "ink", right=True)
        return y + low

    def _set_charge(self, line: SlipLine, y: float, form: str) -> float:
        face, metrics = self._face(theme.BODY), self._metrics(theme.BODY)
        taken = self._wide(theme.BODY, line.amount) + _GAP.exact if line.amount else 0.0
        room = float(self.width()) - taken
        self._put(QRectF(0, y, self.width(), metrics.height()), line.amount, face, "ink", right=True)
        if form != _FULL:
            return self._set_short(line, y, room, face, form)
        y = self._set_block(line.words, y, room, theme.BODY, "ink")
        if line.because:
            y = self._set_block(line.because, y, float(self.width()), theme.SMALL, "muted")
        return y + (6 if line.kind == "charge" else 3) * self._scale

    def _set_short(self, line: SlipLine, y: float, room: float, face: QFont, form: str) -> float:
        metrics, wide = self._metrics(theme.BODY), self._wide(theme.BODY, line.words)
        if wide > room and form == _SHORT:
            return self._set_block(line.words, y, room, theme.BODY, "ink") + 2 * self._scale
        words = line.words
        if wide > room:
            words = metrics.elidedText(words, Qt.TextElideMode.ElideRight, room)
            self._shortened.append(line.words)
        self._put(QRectF(0, y, room, metrics.height()), words, face, "ink")
        used = self._wide(theme.BODY, words) + 8
        small = self._face(theme.SMALL)
        because = self._reason_that_fits(line.because, room - used)
        if because:
            self._put(QRectF(used, y, room - used, metrics.height()), because, small, "muted")
        return y + int(metrics.height() + 2 * self._scale)

    def _reason_that_fits(self, because: str, room: float) -> str:
        """The whole reason, else its first part, else nothing: half a sentence explains nothing."""
        forms = (because, because.partition(";")[0])
        return next((form for form in forms if self._wide(theme.SMALL, form) <= room), "")

    def _set_block(self, words: str, y: float, room: float, size: float, ink: str) -> float:
        face = self._face(size)
        flags = Qt.TextFlag.TextWordWrap
        sheet = QRectF(0, 0, max(room, 40.0), 10_000)
        high = self._metrics(size).boundingRect(sheet, int(flags), words).height()
        self._pieces.append(_LaidOutLine(QRectF(0, y, room, high + 1), words, face, ink, flags))
        return y + high

    def _put(self, rect: QRectF, words: str, face: QFont, ink: str, right: bool = False) -> None:
        side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
        self._pieces.append(_LaidOutLine(rect, words, face, ink, side | Qt.AlignmentFlag.AlignVCenter))

    def _face(self, size: float, bold: bool = False) -> QFont:
        return _face(size * self._scale, bold)

    def _metrics(self, size: float, bold: bool = False) -> QFontMetricsF:
        return _metrics(size * self._scale, bold)

    def _wide(self, size: float, words: str, bold: bool = False) -> float:
        return _wide(size * self._scale, bold, words)

    def has_grown(self) -> None:
        """The type is another: lay out anew."""
        self._compose()
        self.update()

    # --- Qt's own ------------------------------------------------------------------------

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self._compose()
        return super().eventFilter(watched, event)

    def resizeEvent(self, event: object) -> None:
        self._compose()

    def sizeHint(self) -> QSize:
        return QSize(200, round(self._height))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        tokens = theme.current_tokens()
        painter.setPen(QPen(QColor(tokens.line), 1))
        for y in self._rules:
            painter.drawLine(0, round(y), self.width(), round(y))
        seen = QRectF(event.rect()).adjusted(0, -4, 0, 4)
        for piece in self._pieces:
            if not piece.rect.intersects(seen):
                continue
            painter.setFont(piece.face)
            painter.setPen(QColor(getattr(tokens, piece.ink)))
            painter.drawText(piece.rect, int(piece.flags), piece.words)
        painter.end()


@lru_cache(maxsize=64)
def _face(size: float, bold: bool) -> QFont:
    return theme.font(size, QFont.Weight.Bold if bold else QFont.Weight.Normal)


@lru_cache(maxsize=2048)
def _wide(size: float, bold: bool, words: str) -> float:
    """Most lines of a box stay as they are while one of them is typed."""
    return _metrics(size, bold).horizontalAdvance(words)


@lru_cache(maxsize=64)
def _metrics(size: float, bold: bool) -> QFontMetricsF:
    return QFontMetricsF(_face(size, bold))
