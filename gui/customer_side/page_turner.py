"""Turns the pages of what does not fit on one: by touch, by the clerk's key, by itself where nobody signs."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import QRectF, Qt, QTimer, Signal, Slot
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QStyle, QWidget

from gui.customer_side.page_scale import unit
from gui.customer_side.text_rows import points
from gui.toolkit import sizes, theme
from gui.toolkit.plain_text import plain_label
from gui.toolkit.text import say

TOUCH = 44
"""Pixels: what a finger hits (WCAG 2.2, 2.5.5)."""
TURN_MS = 12_000
"""How long a page stays that turns by itself: common practice, no source."""


class PageTurner(QWidget):
    """*Back*, *Page 2 of 3*, *Next*; hidden while there is one page only."""

    turned = Signal(int)
    """The page to be shown, counted from 0."""

    def __init__(self, *, turns_itself: bool) -> None:
        """A page that ``turns_itself`` stops doing so as soon as somebody turns one by hand."""
        super().__init__()
        self.setObjectName("page-turner")
        self._page, self._count = 0, 1
        self._turns_itself = turns_itself
        self._is_held = False
        self._timer = QTimer(self, interval=TURN_MS)
        self._timer.timeout.connect(self._turn_over)
        self._words = plain_label()
        self._words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.back, self.next = self._button("page-back", -1), self._button("page-next", 1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.back)
        row.addWidget(self._words, 1)
        row.addWidget(self.next)
        self.hide()

    @property
    def page(self) -> int:
        return self._page

    @property
    def count(self) -> int:
        return self._count

    def height_at(self, scale: float) -> float:
        """The room it takes where there is more than one page."""
        return max(float(TOUCH), 5.5 * unit(scale))

    def lay(self, rect: QRectF, scale: float) -> None:
        """Give it its room on a page of this scale."""
        self.setGeometry(rect.toRect())
        face = theme.font(points(sizes.SMALL, scale))
        for part in (self.back, self._words, self.next):
            part.setFont(face)
        for button in (self.back, self.next):
            button.setFixedHeight(round(self.height_at(scale)))
            button.setMinimumWidth(round(12 * unit(scale)))

    def lay_below(self, room: QRectF, scale: float) -> None:
        """Give it the foot of a room."""
        high = self.height_at(scale)
        self.lay(QRectF(room.left(), room.bottom() - high, room.width(), high), scale)

    def begin(self, count: int) -> None:
        """So many pages, the first on show; from now on they may turn by themselves again."""
        self._is_held = False
        self.show_count(count)
        self._go(0)

    def show_count(self, count: int) -> None:
        """Another number of pages, because the room or the words changed."""
        self._count = max(1, count)
        self.setVisible(self._count > 1)
        self._go(min(self._page, self._count - 1))

    @Slot(int)
    def step(self, by: int) -> None:
        """Turn by hand."""
        self._is_held = True
        self._go(min(max(0, self._page + by), self._count - 1))

    @Slot()
    def _turn_over(self) -> None:
        self._go((self._page + 1) % self._count)

    def _go(self, page: int) -> None:
        is_other, self._page = page != self._page, page
        self._words.setText(say("customer", "page", n=page + 1, all=self._count))
        self.back.setEnabled(page > 0)
        self.next.setEnabled(page < self._count - 1)
        self._wait()
        if is_other:
            self.turned.emit(page)

    def _wait(self) -> None:
        if (
            self.isVisible()
            and self._count > 1
            and self._turns_itself
            and not (self._is_held or self._is_calm())
        ):
            self._timer.start()
        else:
            self._timer.stop()

    def _is_calm(self) -> bool:
        """Whether the system asks for no motion: Qt then says that an animation takes no time."""
        return self.style().styleHint(QStyle.StyleHint.SH_Widget_Animation_Duration, None, self) == 0

    def showEvent(self, event: QShowEvent) -> None:
        self._wait()

    def hideEvent(self, event: QHideEvent) -> None:
        self._timer.stop()

    def _button(self, name: str, by: int) -> QPushButton:
        button = QPushButton(say("customer", name))
        button.setObjectName(name)
        button.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        button.clicked.connect(partial(self.step, by))
        return button
