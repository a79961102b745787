"""A shell from above and from below, to scale, with the part of the moment pointed at and named."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.catalogue import formats
from core.catalogue.shell_anatomy import ABOVE, BELOW, Spot
from core.model.names import FormatName
from gui.inspection.raking_light import paint_lamp
from gui.inspection.shell_paint import paint_push, paint_shell, place
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.cassette_drawing import largest_shell, shell

_LINE = theme.Length(3)
"""Room for one line of small words."""
_FOOT = theme.Length(5)
"""Room for the measure at the left and the lamp at the right."""
_MARGIN = theme.Length(1)
SMALL_SHELL_MM = 110.0
"""Shells narrower than this are drawn twice as large, and the drawing says so."""


class ShellArt(QWidget):
    """Both sides of one shell below each other; every format at one scale, the small ones at twice that."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("shell-art")
        self.setMinimumSize(34 * theme.UNIT, 34 * theme.UNIT)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._name: FormatName = formats.catalogue().names[0]
        self._part = ""
        self._lamp = ""

    def point_at(self, name: FormatName, part: str, lamp: str = "") -> None:
        """Draw this shell and point at a part of it, with the light it is looked at in; empty: neither."""
        self._name, self._part, self._lamp = name, part, lamp
        self.setAccessibleName(self._spoken())
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(50 * theme.UNIT, 42 * theme.UNIT)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(theme.font(theme.SMALL))
        scale = self.scale()
        wide, deep = (side * scale for side in shell(self._name))
        height = (self.height() - _FOOT.px) / 2
        for number, side in enumerate((ABOVE, BELOW)):
            room = QRectF(0, number * height, self.width(), height)
            outline = QRectF(0, 0, wide, deep)
            outline.moveCenter(QPointF(room.center().x(), room.center().y()))
            self._paint_side(painter, room, outline, side)
        self._paint_scale(painter, scale)
        if self._lamp:
            wide = 15 * theme.UNIT
            foot = QRectF(self.width() - wide - _MARGIN.px, self.height() - _FOOT.px, wide, _FOOT.px)
            paint_lamp(painter, foot, self._lamp)
        painter.end()

    def scale(self) -> float:
        """Pixels a millimetre: the largest shell of the catalogue would fit twice, one below the other."""
        most_wide, most_deep = largest_shell()
        across = (self.width() - 4 * _MARGIN.px) / most_wide
        down = ((self.height() - _FOOT.px) / 2 - 2 * _LINE.px - _MARGIN.px) / most_deep
        return max(0.1, min(across, down)) * (2 if self.is_enlarged else 1)

    @property
    def is_enlarged(self) -> bool:
        """Whether this shell is so small that it is drawn twice as large."""
        return shell(self._name)[0] < SMALL_SHELL_MM

    def _spoken(self) -> str:
        parts = formats.catalogue().format(self._name).anatomy
        words = formats.catalogue().format(self._name).words
        named = parts.named(self._part)
        if not named:
            return say("inspection", "where_unknown", form=words)
        side = ABOVE if parts.spots(named, ABOVE) else BELOW
        part = say("inspection", f"part_{named}")
        where = say("inspection", "where", form=words, part=part, side=say("inspection", side))
        lamp = say("inspection", f"lamp_{self._lamp}") if self._lamp else ""
        return f"{where} {lamp}".strip()

    def _paint_side(self, painter: QPainter, room: QRectF, outline: QRectF, side: str) -> None:
        parts = formats.catalogue().format(self._name).anatomy
        painter.setPen(QColor(theme.current_tokens().muted))
        painter.drawText(
            QRectF(room.left() + _MARGIN.px, room.top(), room.width(), _LINE.px),
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter,
            say("inspection", side),
        )
        paint_shell(painter, outline, parts, side)
        spots = parts.spots(self._part, side)
        if parts.named(self._part) == "latch" and parts.latch_moves:
            paint_push(painter, place(outline, spots[0], side), outline, parts.latch_moves)
        if spots:
            self._ring([place(outline, spot, side) for spot in spots], spots[0], painter)
            self._name_it(painter, room, outline, [place(outline, spot, side) for spot in spots])

    def _ring(self, places: list[QRectF], like: Spot, painter: QPainter) -> None:
        tokens = theme.current_tokens()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for rect in places:
            ring = rect.adjusted(-3, -3, 3, 3)
            for colour, width in ((tokens.slip, 5.0), (tokens.oxide, 2.5)):
                painter.setPen(QPen(QColor(colour), width))
                painter.drawEllipse(ring) if like.is_round else painter.drawRoundedRect(ring, 3, 3)

    def _name_it(self, painter: QPainter, room: QRectF, outline: QRectF, places: list[QRectF]) -> None:
        """The word stands outside the shell, on the side of the part, with a short line between them."""
        tokens = theme.current_tokens()
        face = theme.font(theme.SMALL)
        face.setBold(True)
        painter.setFont(face)
        words = say("inspection", f"part_{formats.catalogue().format(self._name).anatomy.named(self._part)}")
        wide = painter.fontMetrics().horizontalAdvance(words) + 4
        rect = max(places, key=lambda each: each.center().x())
        is_low = rect.center().y() > outline.bottom() - outline.height() / 4
        top = outline.bottom() + theme.UNIT if is_low else room.top()
        least = room.left() + (_MARGIN.px if is_low else 11 * theme.UNIT)
        left = min(max(rect.center().x() - wide / 2, least), room.right() - wide - _MARGIN.px)
        box = QRectF(left, top, wide, _LINE.px)
        start = QPointF(box.center().x(), box.top() + 2 if is_low else box.bottom() - 3)
        for colour, width in ((tokens.ground, 4.0), (tokens.oxide, 1.5)):
            painter.setPen(QPen(QColor(colour), width))
            painter.drawLine(start, _rim(rect, start))
        painter.setPen(QColor(tokens.oxide))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, words)
        painter.setFont(theme.font(theme.SMALL))

    def _paint_scale(self, painter: QPainter, scale: float) -> None:
        tokens = theme.current_tokens()
        mm = 20 if self.is_enlarged else 50
        y = self.height() - _LINE.px / 2
        left = QPointF(_MARGIN.px, y)
        right = QPointF(_MARGIN.px + mm * scale, y)
        painter.setPen(QPen(QColor(tokens.muted), 1.5))
        painter.drawLine(left, right)
        for end in (left, right):
            painter.drawLine(end - QPointF(0, 4), end + QPointF(0, 4))
        words = f"{mm} mm" + (f", {say('inspection', 'twice')}" if self.is_enlarged else "")
        whole = QRectF(right.x() + theme.UNIT, y - _LINE.px / 2, self.width(), _LINE.px)
        painter.drawText(whole, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)


def _rim(rect: QRectF, start: QPointF) -> QPointF:
    """Where a line from outside meets the edge of what it points at."""
    x = min(max(start.x(), rect.left()), rect.right())
    y = rect.top() - 3 if start.y() < rect.top() else rect.bottom() + 3
    return QPointF(x, y)
