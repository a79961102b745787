"""The customer's cassettes in the tray, drawn to one scale, with what they are and how long they may play."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from core.catalogue import formats
from core.model.names import FormatName
from core.model.quote_records import QuotedTape
from core.wording.locale_figures import listed
from gui.customer_side.tray_pages import DrawnTapes, TrayPage, pages, paint_group
from gui.toolkit import sizes, theme
from gui.toolkit.text import minutes_range, say

_MARGIN = 1.5 * sizes.UNIT


def drawn_tapes(tapes: Sequence[QuotedTape]) -> tuple[DrawnTapes, ...]:
    """The tapes of a quote; equal ones lie together, on whatever lines of the order they stand."""
    counted: dict[tuple[FormatName, str, str, str, bool], int] = {}
    for tape in tapes:
        name = formats.catalogue().format(tape.draft.format).words
        words = f"{name} {tape.draft.marking}" if tape.draft.marking else name
        aside = _aside(tape)
        minutes = "" if aside else minutes_range(tape.minutes)
        key = (tape.draft.format, words, aside, minutes, tape.verdict.not_for_reuse)
        counted[key] = counted.get(key, 0) + 1
    return tuple(_drawn(*key, count) for key, count in counted.items())


def drawn_formats() -> tuple[DrawnTapes, ...]:
    """One cassette of every format the shop knows by its own system."""
    known = formats.catalogue().formats
    return tuple(DrawnTapes(each.name, 1, each.words) for each in known if each.has_own_system)


class TapesDrawing(QWidget):
    """A tray that fills the room it is given; the cassettes are as large as there is room for all."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("customer-tapes")
        self.shown: tuple[DrawnTapes, ...] = ()
        self.scale = 1.0
        self.page = 0
        self._pages: tuple[TrayPage, ...] = ()
        self._composed_for: tuple[QSize, float] | None = None

    def show_tapes(self, shown: tuple[DrawnTapes, ...]) -> None:
        """Draw these cassettes instead, once the page has laid them out."""
        if shown != self.shown:
            self.shown = shown
            self.setAccessibleName(listed([_spoken(each) for each in shown], "unit") if shown else "")
            self.page = 0
            self._composed_for = None

    def lay(self, rect: QRectF, scale: float) -> None:
        """Give it its room on a page of this scale."""
        self.scale = scale
        self.setGeometry(rect.toRect())
        if self._composed_for != (self.size(), scale):  # a hidden widget hears of its size only when shown
            self._compose()

    @property
    def page_count(self) -> int:
        return max(1, len(self._pages))

    @property
    def is_whole(self) -> bool:
        """Whether every one of them lies on some page."""
        return sum(len(page.drawn) for page in self._pages) == len(self.shown)

    @property
    def pages(self) -> tuple[TrayPage, ...]:
        """What lies in the tray, page by page."""
        return self._pages

    def turn(self, page: int) -> None:
        """Show another page; one after the last is the last."""
        self.page = min(max(0, page), self.page_count - 1)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        tokens = theme.current_tokens()
        painter = QPainter(self)
        painter.setPen(QColor(tokens.line))
        painter.setBrush(QColor(tokens.tray))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        if self._pages:
            page = self._pages[min(self.page, len(self._pages) - 1)]
            lies = page.lies
            painter.translate((self.width() - lies.width) / 2, (self.height() - lies.height) / 2)
            for drawn, placed in zip(page.drawn, lies.placed, strict=True):
                paint_group(painter, drawn, placed, lies.scale, page.lettering)
        painter.end()

    def _compose(self) -> None:
        self._composed_for = (self.size(), self.scale)
        width, height = (side - 2 * _MARGIN * self.scale for side in (self.width(), self.height()))
        self._pages = pages(self.shown, width, height, self.scale) if width > 0 and height > 0 else ()
        self.page = min(self.page, self.page_count - 1)
        self.update()


def _drawn(name: FormatName, words: str, aside: str, minutes: str, is_marked: bool, count: int) -> DrawnTapes:
    named = say("customer", "drawn", count=count, words=words)
    length = aside or say("customer", "drawn_length", count=count, minutes=minutes)
    return DrawnTapes(name, count, named, length, is_marked)


def _aside(tape: QuotedTape) -> str:
    """Why it is not played here; nothing for one that is."""
    if tape.verdict.elsewhere:
        return say("customer", "drawn_not_here")
    if tape.verdict.set_aside:
        return say("counter", f"aside_{tape.verdict.set_aside}")
    return ""


def _spoken(drawn: DrawnTapes) -> str:
    return f"{drawn.words}: {drawn.length}" if drawn.length else drawn.words
