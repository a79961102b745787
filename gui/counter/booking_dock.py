"""Along the lower edge of a narrow Counter: price and day at a glance, and the bar that books."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from core.model.quote_records import Quote
from gui.counter.booking_bar import BookingBar
from gui.toolkit import text, theme
from gui.toolkit.text import say
from gui.widgets.hint import Hint
from gui.widgets.layouts import stacked


class BookingDock(QWidget):
    """While the columns of the Counter stand one below the other the bar lies here, always in sight."""

    def __init__(self, bar: BookingBar, home: QVBoxLayout) -> None:
        """``home``: the column that the bar stands at the end of where there is room."""
        super().__init__()
        self.setObjectName("booking-dock")
        self._bar = bar
        self._home = home
        self._glance = Hint()
        self._glance.setObjectName("price-at-a-glance")
        self._glance.setProperty("role", "time")
        self._column = stacked(self, theme.UNIT // 2)
        self._column.addWidget(self._glance)
        self.hide()

    def show_quote(self, quote: Quote | None) -> None:
        """What the slip says in its two large figures."""
        self._glance.say(_at_a_glance(quote) if quote is not None else say("slip", "empty"))

    def take(self, is_narrow: bool) -> None:
        """Hold the bar, or give it back to its column; the keyboard stays where it is."""
        held = QApplication.focusWidget()
        (self._column if is_narrow else self._home).addWidget(self._bar)
        self.setVisible(is_narrow)
        if held is not None and self._bar.isAncestorOf(held):
            held.setFocus()


def _at_a_glance(quote: Quote) -> str:
    amount = text.money(quote.price.due.likely, quote.price.currency)
    if quote.promise.day is None:
        return say("counter", "glance_no_day", amount=amount)
    return say("counter", "glance", amount=amount, day=text.day(quote.promise.day))
