"""What stands there while nobody's tapes are on the counter: the shop, its greeting, when it is open."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QRectF

from core.model.own_shop.settings_records import ShopFront
from gui.customer_side.facing_page import FacingPage, inside
from gui.customer_side.page_scale import is_upright, unit
from gui.customer_side.shop_logo import ShopLogo
from gui.customer_side.tapes_drawing import TapesDrawing, drawn_formats
from gui.customer_side.text_blocks import Paragraph, TextBlock, block
from gui.customer_side.text_sheet import TextSheet
from gui.toolkit import sizes, text
from gui.toolkit.text import phone, say

_NAME = 1.75 * sizes.GREAT
_GREETING = 1.25 * sizes.LEAD
_LOGO_HIGH = 18.0
"""Grid steps."""


class GreetingPage(FacingPage):
    """Logo, name, greeting and hours at the left; every kind of cassette, drawn, at the right."""

    def __init__(self) -> None:
        super().__init__("customer-greeting")
        self.logo = inside(self, ShopLogo())
        self.greeting = inside(self, TextSheet("customer-welcome"))
        self.hours = inside(self, TextSheet("customer-hours"))
        self.hours.setAccessibleName(say("customer", "hours"))
        self.tapes = inside(self, TapesDrawing())
        self._front: ShopFront | None = None
        self.show_front(None)

    def show_front(self, front: ShopFront | None) -> None:
        """Whose shop it is, and what it says to whoever comes in."""
        self._front = front
        self.logo.show_logo(front.logo if front is not None else "")
        own = (front.welcome or front.greeting) if front is not None else ""
        name = front.name if front is not None else ""
        self.greeting.write(
            (
                block(Paragraph(name, _NAME, "oxide", bold=True)),
                block(Paragraph(own or say("customer", "welcome"), _GREETING), before=1.5),
            )
        )
        self.tapes.show_tapes(drawn_formats())
        self.lay_out()

    def show_hours(self, posted: Sequence[tuple[str, str]], closed: Sequence[date]) -> None:
        """When the shop is open in a week, and on which days soon it is not."""
        written: list[TextBlock] = []
        if posted:
            written.append(block(Paragraph(say("customer", "hours"), sizes.BODY, bold=True), with_next=True))
            written += [block(Paragraph(days, amount=hours), before=0.25) for days, hours in posted]
        for day in closed:
            words = say("customer", "closed_on", day=text.day(day))
            written.append(block(Paragraph(words, sizes.BODY, "attention", bold=True)))
        if self._front is not None and self._front.phone:
            number = phone(self._front.phone).replace(" ", "\u00a0")
            written.append(block(Paragraph(say("customer", "call", phone=number)), before=1.5))
        self.hours.write(written)
        self.lay_out()

    def lay_at(self, scale: float) -> bool:
        margin = 5 * unit(scale)
        if is_upright(self.size()):
            return self._lay_upright(scale, margin)
        wide = self.width() * 0.44
        room = QRectF(margin, margin, wide - margin, self.height() - 2 * margin)
        left = self._lay_words(room, scale)
        tray = QRectF(wide + margin, margin, self.width() - wide - 2 * margin, room.height())
        self.tapes.lay(tray, scale)
        return left >= 0

    def _lay_upright(self, scale: float, margin: float) -> bool:
        width, high = self.width() - 2 * margin, self.height() - 2 * margin
        words = self._words_high(width, scale)
        tray = high - words - 3 * unit(scale)
        head = words - self._hours_high(width, scale)
        self._lay_words(QRectF(margin, margin, width, head), scale, is_hours_below=False)
        self.tapes.lay(QRectF(margin, margin + head, width, tray), scale)
        hours = self._hours_high(width, scale)
        self.hours.lay(QRectF(margin, margin + high - hours, width, hours), scale)
        return tray >= high * 0.25

    def _lay_words(self, room: QRectF, scale: float, *, is_hours_below: bool = True) -> float:
        """Logo and greeting from the top, the hours at the foot; returns what is left between them."""
        y = room.top()
        if self.logo.has_one:
            size = self.logo.size_in(room.width(), _LOGO_HIGH * unit(scale))
            self.logo.lay(QRectF(room.left(), y, size.width(), size.height()))
            y += size.height() + 3 * unit(scale)
        words = self.greeting.natural_height(room.width(), scale)
        self.greeting.lay(QRectF(room.left(), y, room.width(), words), scale)
        left = room.bottom() - y - words
        if is_hours_below:
            hours = self._hours_high(room.width(), scale)
            self.hours.lay(QRectF(room.left(), room.bottom() - hours, room.width(), hours), scale)
            left -= hours
        return left

    def _words_high(self, width: float, scale: float) -> float:
        logo = self.logo.size_in(width, _LOGO_HIGH * unit(scale)).height() + 3 * unit(scale)
        high = self.greeting.natural_height(width, scale) + 3 * unit(scale) + self._hours_high(width, scale)
        return high + (logo if self.logo.has_one else 0.0)

    def _hours_high(self, width: float, scale: float) -> float:
        return self.hours.natural_height(width, scale)
