"""What every page of the Customer side does: it takes the largest type in which its parts have room."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol, TypeVar

from PySide6.QtCore import QSizeF, Qt, Slot
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from gui.customer_side.page_scale import full_scale, smaller_scales, unit
from gui.customer_side.page_turner import PageTurner
from gui.toolkit import theme
from gui.widgets import slip_paper


class _Paged(Protocol):
    """A part of which only one page is on show."""

    @property
    def page_count(self) -> int: ...
    def turn(self, page: int) -> None: ...


W = TypeVar("W", bound=QWidget)


def inside(page: QWidget, part: W) -> W:
    """A part of a page, which finds its place by hand."""
    part.setParent(page)
    return part


class FacingPage(QWidget):
    """A page lays its parts out by itself, in the room and the type there is; nothing of it scrolls."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.scale = 1.0
        self._paged: Sequence[_Paged] = ()
        self._page_turner: PageTurner | None = None
        self._turns = False
        """Whether there is more than one page."""

    def lay_at(self, scale: float) -> bool:
        """Lay everything out in type of this scale; returns whether every part has enough room.

        Where there is no scale at which it has, the last one tried stays.
        """
        raise NotImplementedError

    def pages_of(self, turner: PageTurner, parts: Sequence[_Paged]) -> None:
        """Let ``turner`` turn the pages of these parts together; one with fewer pages stays on its last."""
        self._page_turner, self._paged = turner, parts
        turner.turned.connect(self._turn)

    def turner_room(self, scale: float) -> float:
        """How high the turner is with the gap above it; nothing while all of it is on one page."""
        turner = self._page_turner
        return turner.height_at(scale) + unit(1.5 * scale) if turner is not None and self._turns else 0.0

    def lay_out(self) -> None:
        """Lay out anew, after other words or in another room: smaller type before more than one page."""
        if self.width() <= 0 or self.height() <= 0:
            return
        scales = smaller_scales(full_scale(self.size()))
        self._turns = False
        if not any(self._is_laid(scale) and self._page_count() == 1 for scale in scales):
            self._turns = self._page_turner is not None
            any(self._is_laid(scale) for scale in scales[1:])
        if self._page_turner is not None:
            self._page_turner.show_count(self._page_count())

    def _is_laid(self, scale: float) -> bool:
        self.scale = scale
        return self.lay_at(scale)

    def _page_count(self) -> int:
        return max((part.page_count for part in self._paged), default=1)

    @Slot(int)
    def _turn(self, page: int) -> None:
        for part in self._paged:
            part.turn(page)

    def resizeEvent(self, event: QResizeEvent) -> None:
        self.lay_out()


class PaperBack(QWidget):
    """A sheet of paper that others lie on."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.setObjectName(name)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        slip_paper.paint_sheet(painter, QSizeF(self.size()), theme.current_tokens())
        painter.end()
