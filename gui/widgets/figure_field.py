"""Figures typed by hand: read once, complained about where they stand."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from core.model.errors import WrongInput
from core.wording import typed_amounts
from gui.toolkit.text import say

_TOO_LARGE = 10**6
_LIKE_FIGURE = 12.5
"""The figure a refusal gives as an example."""
_LIKE = 9315
"""Minor units of the amount a refusal gives as an example."""


class FigureField(QLineEdit):
    """A line for one figure. What cannot be read is marked and named; nothing is rounded silently."""

    def __init__(self, name: str, place: str) -> None:
        super().__init__()
        self.setObjectName(name)
        self._place = place
        self.textChanged.connect(self._unmark)

    def name_place(self, place: str) -> None:
        """What a complaint calls this line from now on."""
        self._place = place

    def show_figure(self, value: float, form: str = ".10g") -> None:
        """Write a figure as it is typed here: ``12.5`` or ``12,5``; ``form`` as of `format`."""
        self.setText(typed_amounts.typed_number(value, form))

    def figure(self) -> float | None:
        """The figure as the shop's locale writes it, or None when the line is empty; WrongInput for none."""
        text = self.text().strip()
        if not text:
            return None
        value = typed_amounts.number_of(text)
        if value is None or value >= _TOO_LARGE:
            self.mark()
            raise WrongInput(self._place, text, _accepted())
        return float(value)

    def figure_needed(self) -> float:
        """The figure; WrongInput when the line is empty or holds none."""
        value = self.figure()
        if value is None:
            self.mark()
            raise WrongInput(self._place, self.text(), _accepted())
        return value

    def mark(self) -> None:
        """Show that this line is to be looked at, and go there."""
        self._wear(True)
        self.setFocus()

    def _unmark(self) -> None:
        if self.property("wrong"):
            self._wear(False)

    def _wear(self, wrong: bool) -> None:
        self.setProperty("wrong", wrong)
        self.style().unpolish(self)
        self.style().polish(self)


def _accepted() -> str:
    return say("bench", "number_accepted", like=typed_amounts.typed_number(_LIKE_FIGURE))


class MoneyField(QLineEdit):
    """A line for one amount of money."""

    def __init__(self, name: str, currency: str = "USD") -> None:
        super().__init__()
        self.setObjectName(name)
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.currency = currency

    def show_minor(self, minor: int) -> None:
        """Write an amount as it is typed: ``93.15``."""
        self.setText(typed_amounts.typed_amount(minor, self.currency))

    def minor(self) -> int:
        """The amount in minor units, 0 for an empty line; WrongInput when it is none."""
        text = self.text().strip()
        amount = typed_amounts.minor_of(text, self.currency) if text else 0
        if amount is None:
            self.setFocus()
            raise WrongInput(say("pickup", "money_place"), text, self.accepted)
        return amount

    def minor_or_none(self) -> int | None:
        """The amount in minor units; None while the line is empty or holds none."""
        text = self.text().strip()
        return typed_amounts.minor_of(text, self.currency) if text else None

    @property
    def accepted(self) -> str:
        """What is accepted, with an example of how this currency is typed here."""
        return say("pickup", "money_accepted", like=typed_amounts.typed_amount(_LIKE, self.currency))
