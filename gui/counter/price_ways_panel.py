"""The ways to agree on the price, side by side, for the customer to choose; and what a flat one risks."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QObject, Qt, Signal, Slot
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QRadioButton, QWidget

from core.model.price_ways import FlatRisk, PriceWay, WaysToAgree
from core.model.quote_records import Quote
from core.promise import chances
from gui.toolkit import text, theme
from gui.toolkit.plain_text import plain_label, tip
from gui.toolkit.text import say
from gui.widgets.layouts import stacked, words

_DIGITS = (Qt.Key.Key_1, Qt.Key.Key_2, Qt.Key.Key_3)


class PriceWaysPanel(QWidget):
    """One way is chosen at a time: by 1, 2 or 3, by the arrows, or with the mouse.

    The risk of a flat price is the owner's to know: it stands here, never on the slip.
    """

    chosen = Signal(str, object)
    """``way`` and the `PriceWay`."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("price-ways")
        self._shown: tuple[WaysToAgree | None, PriceWay, bool] | None = None
        self._group = QButtonGroup(self)
        self._buttons = {way: self._button(way) for way in PriceWay}
        self._head = plain_label(say("counter", "ways"))
        self.setAccessibleName(self._head.text().replace("&", ""))
        self._head.setProperty("role", "field")
        # Not the button itself: a tenth of a second after its access key Qt would choose it once more.
        self._head.setBuddy(self)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.risk = words("", "small")
        self.risk.setObjectName("flat-risk")
        self._lay_out()
        self.hide()

    def show_quote(self, quote: Quote | None, way: PriceWay, *, tells_risk: bool) -> None:
        """Show the ways of this quote; without one, what leads back from a ``way`` that is not offered."""
        ways = quote.ways if quote is not None else None
        if (ways, way, tells_risk) == self._shown:
            return
        self._shown = (ways, way, tells_risk)
        offered = ways.offered if ways is not None else (PriceWay.BY_PLAY,)
        self._write(ways, quote)
        for each, button in self._buttons.items():
            # The one chosen stays enabled: of a disabled one Qt hands the keyboard on to its neighbor.
            button.setEnabled(each in offered or each is way)
            button.setVisible(each in offered or each is way)
        self._check(way)
        risk = ways.flat.risk if ways is not None and ways.flat is not None and tells_risk else None
        self.risk.setText(_risk_words(risk, quote) if risk is not None and quote is not None else "")
        self._show_risk()
        self.setVisible(len(offered) > 1 or (quote is None and way is not PriceWay.BY_PLAY))

    def _check(self, way: PriceWay) -> None:
        self._buttons[way].setChecked(True)
        self.setFocusProxy(self._buttons[way])

    def _write(self, ways: WaysToAgree | None, quote: Quote | None) -> None:
        for n, (way, button) in enumerate(self._buttons.items(), 1):
            name = say("counter", f"way-{way.value}")
            amount = _amount(way, ways, quote.price.currency) if ways is not None and quote else ""
            button.setText(say("counter", "way", n=n, words=name, amount=amount).replace("|", "\n"))
            button.setAccessibleName(say("counter", "way_name", words=name, amount=amount))
            button.setToolTip(tip(say("counter", f"way-{way.value}-means")))
        self.has_grown()

    def has_grown(self) -> None:
        """Two lines stand on a way; the style sheet would let it shrink to one."""
        for button in self._buttons.values():
            button.setMinimumHeight(button.sizeHint().height())

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The keyboard comes to a way, or leaves it."""
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self._show_risk()
        return super().eventFilter(watched, event)

    def _show_risk(self) -> None:
        """It takes room from the slip: only while a way is being chosen, or when flat was."""
        flat, at_hand = self._buttons[PriceWay.FLAT], any(map(QRadioButton.hasFocus, self._buttons.values()))
        self.risk.setVisible(bool(self.risk.text()) and (at_hand or flat.isChecked()))

    @Slot()
    def _clicked(self) -> None:
        way = next(way for way, button in self._buttons.items() if button.isChecked())
        self.setFocusProxy(self._buttons[way])
        self.chosen.emit("way", way)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """A digit chooses a way."""
        place = _DIGITS.index(event.key()) if event.key() in _DIGITS else None
        button = None if place is None else tuple(self._buttons.values())[place]
        if button is None or event.modifiers() or not button.isEnabled():
            super().keyPressEvent(event)
            return
        button.setFocus(Qt.FocusReason.OtherFocusReason)
        button.click()

    # --- building ------------------------------------------------------------------------

    def _button(self, way: PriceWay) -> QRadioButton:
        button = QRadioButton()
        button.setObjectName(f"way-{way.value}")
        button.setFont(theme.font(theme.SMALL))
        button.clicked.connect(self._clicked)
        button.installEventFilter(self)
        self._group.addButton(button)
        return button

    def _lay_out(self) -> None:
        column = stacked(self, 2)
        column.addWidget(self._head)
        row = QHBoxLayout()
        row.setSpacing(theme.UNIT)
        for button in self._buttons.values():
            row.addWidget(button, 1)
        column.addLayout(row)
        column.addWidget(self.risk)


def _amount(way: PriceWay, ways: WaysToAgree, currency: str) -> str:
    if way is PriceWay.FLAT:
        return text.money(ways.flat.minor, currency) if ways.flat is not None else ""
    if way is PriceWay.PLAY_FIRST:
        fee = ways.look_first
        return "" if fee is None else say("counter", "way_from", amount=text.money(fee.fee_minor, currency))
    return text.money_range(ways.by_play, currency)


def _risk_words(risk: FlatRisk, quote: Quote) -> str:
    currency = quote.price.currency
    worst, best = (
        text.money(abs(minor), currency) for minor in (risk.worst_gain_minor, risk.best_gain_minor)
    )
    return say(
        "counter",
        "flat_risk",
        expected=text.money(round(risk.expected_minor), currency),
        deviation=text.money(round(risk.deviation_minor), currency),
        often=chances.often(risk.dearer),
        worst=worst,
        worst_is="gain" if risk.worst_gain_minor >= 0 else "loss",
        best=best,
        best_is="gain" if risk.best_gain_minor >= 0 else "loss",
    )
