"""What the order of the tape in hand costs as it stands, against what was agreed."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from core.model.agreement_records import StandingPrice
from gui.toolkit.text import money, say
from gui.widgets.layouts import give_key, words

CARD_KEYS = "Ctrl+P"


class StandingPriceLine(QWidget):
    """One line, and the key of the call card while an answer is out."""

    card_wanted = Signal(object)
    """The `JobNumber` of the order."""

    def __init__(self) -> None:
        super().__init__()
        self._standing: StandingPrice | None = None
        self._copies: tuple[str, ...] = ()
        self._asks = False
        self._line = words("", "small")
        self._line.setObjectName("standing-price")
        self.button = QPushButton(say("agreeing", "card_button", keys=CARD_KEYS))
        self.button.setObjectName("call-card")
        self.button.setProperty("role", "action")
        give_key(self.button, CARD_KEYS)
        self.button.clicked.connect(self._want)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        self._line.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self._line, 1)
        row.addWidget(self.button)
        self.hide()

    @property
    def words(self) -> str:
        """What the line says."""
        return self._line.text()

    def tell(self, standing: StandingPrice) -> None:
        """Show how an order stands."""
        self._standing = standing
        self._show()

    def tell_copies(self, sentences: Sequence[str], *, asks: bool) -> None:
        """Add what is to be said about its copies; ``asks``: the customer has to choose."""
        self._copies, self._asks = tuple(sentences), asks
        self._show()

    def _show(self) -> None:
        standing = self._standing
        if standing is None:
            return
        self._line.setText(" ".join((sentence(standing), *self._copies)))
        is_about_price = standing.over_minor > 0
        key = "card_button" if is_about_price else "copy_button"
        self.button.setText(say("agreeing", key, keys=CARD_KEYS))
        self.button.setVisible(is_about_price or self._asks)
        self.show()

    def _want(self) -> None:
        if self._standing is not None:
            self.card_wanted.emit(self._standing.number)


def sentence(standing: StandingPrice) -> str:
    """``Order 000018 comes to $97.43 so far as we know; we agreed on $116.00 at most.``"""
    return say(
        "agreeing",
        "over" if standing.over_minor else "within",
        number=str(standing.number),
        stands=money(standing.stands_minor, standing.currency),
        ceiling=money(standing.ceiling_minor, standing.currency),
        over=money(standing.over_minor, standing.currency),
        given=standing.given_away_minor,
        away=money(standing.given_away_minor, standing.currency),
    )
