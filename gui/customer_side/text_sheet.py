"""A sheet of text on the Customer side: it never scrolls and cuts nothing off; too much of it turns pages."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from gui.customer_side import text_columns, text_rows
from gui.customer_side.page_scale import plain
from gui.customer_side.text_blocks import TextBlock, in_words
from gui.customer_side.text_columns import SetPage, SetPages
from gui.customer_side.text_rows import SetBand, SetText
from gui.toolkit import theme
from gui.widgets.cassette_drawing import paint_cassette
from gui.widgets.not_for_reuse_strip import paint_band

_NOTHING = SetPages(1.0, ())


class TextSheet(QWidget):
    """Blocks of text in the largest type that fits its room, which the page that owns it gives."""

    def __init__(self, name: str, *, most_columns: int = 1) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.blocks: tuple[TextBlock, ...] = ()
        self.scale = 1.0
        """The full size of the page; the type of the sheet may be a step smaller."""
        self.page = 0
        self._most_columns = most_columns
        self._set = _NOTHING
        self._composed_for: tuple[QSize, float] | None = None

    @property
    def words(self) -> str:
        """Everything on it, on all of its pages."""
        return in_words(self.blocks)

    @property
    def page_count(self) -> int:
        return max(1, len(self._set.pages))

    @property
    def on_show(self) -> SetPage:
        """The page that is painted."""
        pages = self._set.pages
        return pages[min(self.page, len(pages) - 1)] if pages else SetPage((), ())

    @property
    def pages(self) -> tuple[SetPage, ...]:
        return self._set.pages

    def write(self, blocks: Sequence[TextBlock]) -> bool:
        """Write these blocks once the sheet is laid, from the first page on; returns whether they differ."""
        if tuple(blocks) == self.blocks:
            return False
        self.blocks = tuple(blocks)
        self.setAccessibleDescription(self.words)
        self.page = 0
        self._composed_for = None
        return True

    def lay(self, rect: QRectF, scale: float) -> None:
        """Give it its room on a page of this scale."""
        self.scale = scale
        self.setGeometry(rect.toRect())
        if self._composed_for != (self.size(), scale):  # a hidden widget hears of its size only when shown
            self._compose()

    def natural_height(self, width: float, scale: float) -> float:
        """How high all of it is in one column, in full size."""
        return text_rows.height(text_rows.rows(self.blocks, round(width, 1), scale)) + 2

    def turn(self, page: int) -> None:
        """Show another page; one after the last is the last."""
        page = min(max(0, page), self.page_count - 1)
        if page != self.page:
            self.page = page
            self.update()

    def _compose(self) -> None:
        self._composed_for = (self.size(), self.scale)
        room = QSizeF(self.width(), self.height())
        is_there = bool(self.blocks) and not room.isEmpty()
        self._set = (
            text_columns.fitted(self.blocks, room, self.scale, self._most_columns) if is_there else _NOTHING
        )
        self.page = min(self.page, self.page_count - 1)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        tokens = theme.current_tokens()
        page = self.on_show
        painter.setPen(QPen(QColor(tokens.line), 1))
        for left, y, right in page.rules:
            painter.drawLine(round(left), round(y), round(right), round(y))
        for piece in page.pieces:
            if isinstance(piece, SetText):
                painter.setFont(piece.face)
                painter.setPen(QColor(getattr(tokens, piece.ink)))
                painter.drawText(piece.rect, int(piece.side | Qt.AlignmentFlag.AlignVCenter), piece.words)
            elif isinstance(piece, SetBand):
                paint_band(painter, piece.rect, piece.words, plain(piece.size))
            else:
                paint_cassette(painter, piece.rect, piece.format)
        painter.end()
