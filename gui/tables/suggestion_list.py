"""The list of what may be chosen, under or above the field that is typed in."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QRect, QRectF, QSize, Qt, Signal, Slot
from PySide6.QtGui import QColor, QFontMetrics, QMouseEvent, QPainter, QPaintEvent, QPen, QWheelEvent
from PySide6.QtWidgets import QLineEdit, QScrollBar, QWidget

from gui.tables.choices import CellChoice
from gui.toolkit import theme

MOST_OFFERED = 8
BAR_WIDE = 14
"""Logical pixels of its scroll bar, which a mouse has to hit."""
_LINE, _DRAWN_LINE = theme.Length(3.5), theme.Length(4.5)
_PICTURE = theme.Length(7)


class SuggestionList(QWidget):
    """The list under the field, or above it. It never takes the keyboard."""

    pointed = Signal(object)
    """The `CellChoice` that was clicked."""

    def __init__(self, field: QLineEdit, *, above: bool = False) -> None:
        super().__init__(field)
        self._field = field
        self._stands_above = above
        self.choices: tuple[CellChoice, ...] = ()
        self._lit = 0
        self._top = 0
        self._hovered = -1
        self._bar = QScrollBar(Qt.Orientation.Vertical, self)
        self._bar.valueChanged.connect(self._scroll_to)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMouseTracking(True)
        self.hide()

    @property
    def is_open(self) -> bool:
        return not self.isHidden()

    @property
    def lit(self) -> CellChoice | None:
        return self.choices[self._lit] if 0 <= self._lit < len(self.choices) else None

    def offer(self, choices: tuple[CellChoice, ...], lit: int = 0) -> None:
        """Show these, one of them lit; nothing to show closes the list."""
        self.choices, self._lit, self._top = choices, lit, 0
        if not choices:
            self.close_list()
            return
        self._place()
        self._bar.setRange(0, max(0, len(choices) - MOST_OFFERED))
        self._bar.setPageStep(MOST_OFFERED)
        self._bar.setVisible(len(choices) > MOST_OFFERED)
        self._bar.setValue(0)
        self.show()
        self.raise_()
        self.update()

    def walk(self, step: int) -> None:
        """Light the next or the one before, round the end; the last one before the first."""
        if self._lit < 0 and step < 0:
            self._lit = 0
        self._lit = (self._lit + step) % len(self.choices)
        self._bar.setValue(min(max(self._top, self._lit - MOST_OFFERED + 1), self._lit))
        self.update()

    @Slot(int)
    def _scroll_to(self, top: int) -> None:
        self._top = top
        self.update()

    def close_list(self) -> None:
        self.hide()

    def _place(self) -> None:
        window = self._field.window()
        if self.parentWidget() is not window:
            self.setParent(window)
        size = self.sizeHint()
        below = self._field.mapTo(window, QPoint(0, self._field.height()))
        above = self._field.mapTo(window, QPoint(0, -size.height()))
        room = window.height() - below.y()
        is_below = size.height() <= room and not self._stands_above
        spot = below if is_below or above.y() < 0 else above
        spot.setX(max(0, min(spot.x(), window.width() - size.width() - theme.UNIT)))
        self.setGeometry(QRect(spot, size))
        self._bar.setGeometry(size.width() - 2 - BAR_WIDE, 3, BAR_WIDE, size.height() - 6)

    def sizeHint(self) -> QSize:
        big, small = QFontMetrics(theme.font(theme.BODY)), QFontMetrics(theme.font(theme.SMALL))
        wide = max(
            (
                big.horizontalAdvance(one.words) + small.horizontalAdvance(one.note) + 48 + BAR_WIDE
                for one in self.choices
            ),
            default=120,
        )
        wide += self._picture_room()
        lines = min(len(self.choices), MOST_OFFERED)
        return QSize(min(max(wide, self._field.width()), 620), lines * self._line() + 10)

    def _line(self) -> int:
        return (_DRAWN_LINE if self._picture_room() else _LINE).px

    def _picture_room(self) -> int:
        """Where one choice is drawn, all stand beside the drawings."""
        return _PICTURE.px + theme.UNIT if any(one.draw for one in self.choices) else 0

    def paintEvent(self, event: QPaintEvent) -> None:
        tokens = theme.current_tokens()
        painter = QPainter(self)
        painter.setPen(QPen(QColor(tokens.oxide), 2))
        painter.setBrush(QColor(tokens.slip))
        painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        for line, choice in enumerate(self.choices[self._top : self._top + MOST_OFFERED]):
            place = QRect(2, 5 + line * self._line(), self.width() - 4, self._line())
            if self._top + line == self._hovered:
                painter.fillRect(place, QColor(tokens.tray))
            self._paint_choice(painter, place, choice, self._top + line == self._lit, tokens)
        painter.end()

    def _paint_choice(
        self, painter: QPainter, place: QRect, choice: CellChoice, lit: bool, tokens: theme.Tokens
    ) -> None:
        if lit:
            painter.fillRect(place, QColor(tokens.lit))
            painter.fillRect(QRect(place.left(), place.top(), 4, place.height()), QColor(tokens.oxide))
        inner = place.adjusted(14, 0, -10 - (0 if self._bar.isHidden() else BAR_WIDE), 0)
        if choice.draw is not None:
            choice.draw(painter, QRectF(inner.left(), inner.top() - 2, _PICTURE.px, inner.height() + 4))
        inner = inner.adjusted(self._picture_room(), 0, 0, 0)
        face = theme.font(theme.BODY)
        painter.setFont(face)
        painter.setPen(QColor(tokens.ink))
        middle = int(Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(inner, middle, choice.words)
        small = theme.font(theme.SMALL)
        used = QFontMetrics(face).horizontalAdvance(choice.words) + 2 * theme.UNIT
        rest = inner.adjusted(used, 0, 0, 0)
        painter.setFont(small)
        painter.setPen(QColor(tokens.muted))
        note = QFontMetrics(small).elidedText(choice.note, Qt.TextElideMode.ElideRight, rest.width())
        painter.drawText(rest, middle, note)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        place = self._place_at(event)
        if 0 <= place < len(self.choices):
            self.pointed.emit(self.choices[place])

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """The click belongs to the list alone."""
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The choice under the pointer looks it; the one that Return takes stays lit."""
        hovered = self._place_at(event)
        if hovered != self._hovered:
            self._hovered = hovered
            self.update()

    def leaveEvent(self, event: QEvent) -> None:
        self._hovered = -1
        self.update()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Scrolls the choices, and never what lies below them."""
        self._bar.setValue(self._bar.value() - (1 if event.angleDelta().y() > 0 else -1))
        event.accept()

    def _place_at(self, event: QMouseEvent) -> int:
        return self._top + int((event.position().y() - 5) // self._line())
