"""A cassette drawn to scale whose packs can be read off and moved, by mouse and by keys."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.catalogue.format_file import ReelsDrawn
from core.catalogue.shell_anatomy import ABOVE
from core.playtime.packs import Reels
from gui.inspection.shell_paint import place
from gui.toolkit import theme
from gui.toolkit.text import say
from gui.widgets.cassette_drawing import shell

TO_COME, RUN = 0, 1
"""The left pack and the right one."""

STEP_MM, LEAP_MM = 0.1, 1.0
_WORDS = theme.Length(3)
_KEYS = {
    Qt.Key.Key_Up: STEP_MM,
    Qt.Key.Key_Down: -STEP_MM,
    Qt.Key.Key_PageUp: LEAP_MM,
    Qt.Key.Key_PageDown: -LEAP_MM,
}


class PackDrawing(QWidget):
    """Two reels in their shell. A pack that was not read is dashed where it is worked out to be."""

    moved = Signal(int, object)
    """Which pack (`TO_COME`, `RUN`), and its radius in mm or None."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("pack-drawing")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(40 * theme.UNIT, 26 * theme.UNIT)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.chosen = TO_COME
        self._reels: Reels | None = None
        self._read: tuple[float | None, float | None] = (None, None)
        self._worked_out: tuple[float | None, float | None] = (None, None)

    def show_packs(
        self,
        reels: Reels,
        read: tuple[float | None, float | None],
        worked_out: tuple[float | None, float | None] = (None, None),
    ) -> None:
        """Draw these packs, radii in mm, left and right."""
        self._reels, self._read, self._worked_out = reels, read, worked_out
        left, right = (self._spoken(pack) for pack in (TO_COME, RUN))
        self.setAccessibleName(say("packs", "drawing", form=reels.form.words, left=left, right=right))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(60 * theme.UNIT, 42 * theme.UNIT)

    def move_edge(self, pack: int, radius_mm: float) -> None:
        """Put the edge of a pack somewhere, as far as hub and reel allow, to a tenth of a millimetre."""
        if self._reels is not None:
            bound = min(max(radius_mm, self._reels.hub.value), self._reels.flange.value)
            self.chosen = pack
            self.moved.emit(pack, round(bound, 1))

    def centre(self, pack: int) -> QPointF:
        """The middle of a reel, in pixels."""
        lie, outline = self._lie(), self._outline()
        side = -0.5 if pack == TO_COME else 0.5
        y = outline.bottom() - lie.from_back * self.scale()
        if not self._has_lid:
            y = outline.top() + lie.from_back * self.scale()
        return QPointF(outline.center().x() + side * lie.apart * self.scale(), y)

    def scale(self) -> float:
        """Pixels a millimetre."""
        wide, deep = self._size()
        across = (self.width() - 2 * theme.UNIT) / wide
        return min(across, (self.height() - 2 * _WORDS.px) / deep)

    # --- keys and mouse ------------------------------------------------------------------

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self.chosen = TO_COME if key == Qt.Key.Key_Left else RUN
            self.update()
        elif key in _KEYS and self._reels is not None:
            self.move_edge(self.chosen, self.edge(self.chosen) + _KEYS[key])
        elif key in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace):
            self.moved.emit(self.chosen, None)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = event.position()
        self.chosen = TO_COME if at.x() < self._outline().center().x() else RUN
        self._pull(at)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._pull(event.position())

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def _pull(self, at: QPointF) -> None:
        away = at - self.centre(self.chosen)
        self.move_edge(self.chosen, math.hypot(away.x(), away.y()) / self.scale())

    def edge(self, pack: int) -> float:
        """Where an edge is moved from, in mm: where it was read, else where it is worked out to be."""
        known = self._read[pack]
        if known is not None or self._reels is None:
            return known or 0.0
        return self._worked_out[pack] or self._reels.hub.value

    # --- painting ------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._reels is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_shell(painter)
        for pack in (TO_COME, RUN):
            self._paint_pack(painter, pack)
        self._paint_windows(painter)
        for pack in (TO_COME, RUN):
            self._paint_edge(painter, pack)
        painter.end()

    def _paint_shell(self, painter: QPainter) -> None:
        tokens = theme.current_tokens()
        outline = self._outline()
        painter.setPen(QPen(QColor(tokens.edge), 1.5))
        painter.setBrush(QColor(tokens.slip))
        painter.drawRoundedRect(outline, 5, 5)
        painter.setPen(QPen(QColor(tokens.line), 1.5))
        y = outline.top() + 0.14 * outline.height()
        if not self._has_lid:
            y = outline.bottom() - 0.2 * outline.height()
        painter.drawLine(QPointF(outline.left() + 2, y), QPointF(outline.right() - 2, y))

    def _paint_pack(self, painter: QPainter, pack: int) -> None:
        assert self._reels is not None
        tokens, centre, scale = theme.current_tokens(), self.centre(pack), self.scale()
        painter.setPen(Qt.PenStyle.NoPen)
        known = self._read[pack]
        if known is not None:
            painter.setBrush(QColor(tokens.shell))
            painter.drawEllipse(centre, known * scale, known * scale)
        painter.setBrush(QColor(tokens.tray))
        painter.setPen(QPen(QColor(tokens.edge), 1))
        hub = self._reels.hub.value * scale
        painter.drawEllipse(centre, hub, hub)
        painter.drawLine(centre - QPointF(4, 0), centre + QPointF(4, 0))
        painter.drawLine(centre - QPointF(0, 4), centre + QPointF(0, 4))

    def _paint_windows(self, painter: QPainter) -> None:
        """Where the shell lets the eye through."""
        assert self._reels is not None
        tokens = theme.current_tokens()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(tokens.muted), 1.25))
        for spot in self._reels.form.anatomy.parts.get("window", ()):
            painter.drawRoundedRect(place(self._outline(), spot, ABOVE), 3, 3)

    def _paint_edge(self, painter: QPainter, pack: int) -> None:
        tokens, centre, scale = theme.current_tokens(), self.centre(pack), self.scale()
        is_chosen = self.hasFocus() and pack == self.chosen
        known, worked = self._read[pack], self._worked_out[pack]
        radius = known if known is not None else worked
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if radius is not None:
            colour = tokens.oxide if known is not None else tokens.muted
            pen = QPen(QColor(colour), 3.0 if is_chosen else 1.5)
            if known is None:
                pen.setStyle(Qt.PenStyle.DashLine)
            painter.setPen(pen)
            painter.drawEllipse(centre, radius * scale, radius * scale)
        self._write(painter, pack, is_chosen)
        if known is not None:
            self._paint_grip(painter, centre, known * scale, is_chosen)

    def _paint_grip(self, painter: QPainter, centre: QPointF, reach: float, is_chosen: bool) -> None:
        """A line from the middle to the edge, which is what is measured, and a handle at its end."""
        tokens = theme.current_tokens()
        end = centre + QPointF(reach, 0) * (-1 if centre.x() < self.width() / 2 else 1)
        for colour, width in ((tokens.slip, 4.0), (tokens.oxide, 1.5)):
            painter.setPen(QPen(QColor(colour), width))
            painter.drawLine(centre, end)
        painter.setBrush(QColor(tokens.oxide if is_chosen else tokens.slip))
        painter.setPen(QPen(QColor(tokens.oxide), 2))
        painter.drawEllipse(end, 5, 5)

    def _write(self, painter: QPainter, pack: int, is_chosen: bool) -> None:
        tokens = theme.current_tokens()
        face = theme.font(theme.SMALL)
        face.setBold(is_chosen)
        painter.setFont(face)
        painter.setPen(QColor(tokens.oxide if is_chosen else tokens.ink))
        half = self.width() / 2
        top = min(self._outline().bottom() + 4, self.height() - _WORDS.px)
        box = QRectF(0 if pack == TO_COME else half, top, half, _WORDS.px)
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, self._spoken(pack))

    def _spoken(self, pack: int) -> str:
        if self._read[pack] is not None:
            return say("packs", "radius", mm=f"{self._read[pack]:.1f}")
        if self._worked_out[pack] is not None:
            return say("packs", "worked_out", mm=f"{self._worked_out[pack]:.0f}")
        return say("packs", "not_read")

    # --- measures ------------------------------------------------------------------------

    @property
    def _has_lid(self) -> bool:
        return self._reels is None or self._reels.form.anatomy.has_lid

    def _size(self) -> tuple[float, float]:
        return shell(self._reels.form.name) if self._reels is not None else (1.0, 1.0)

    def _outline(self) -> QRectF:
        wide, deep = (side * self.scale() for side in self._size())
        outline = QRectF(0, 0, wide, deep)
        outline.moveCenter(QPointF(self.width() / 2, self.height() / 2))
        return outline

    def _lie(self) -> ReelsDrawn:
        assert self._reels is not None
        assert self._reels.form.record.pack is not None
        return self._reels.form.record.pack.reels_drawn
