"""How money changes hands. The program takes no cards: it notes what a terminal or a bank has taken."""

from __future__ import annotations

from core.model.errors import WrongInput
from core.wording.messages import say

CASH = "cash"
METHODS = (CASH, "card", "transfer", "voucher", "other")
"""In the order they are offered."""
DEPOSIT, PART, BALANCE, REFUND, ROUNDING = KINDS = ("deposit", "part", "balance", "refund", "rounding")
"""What a payment is. ``rounding`` is no money: what cash cannot pay for want of a coin."""
TAKEN = (DEPOSIT, PART, BALANCE)
UNTOLD = "untold"
"""Of payments entered before anybody was asked how."""


def checked(method: str | None) -> str | None:
    """The method as it is kept; WrongInput for one that is none."""
    if method is not None and method not in METHODS:
        raise WrongInput(
            say("accounts", "method"), method, say("accounts", "methods", all=", ".join(METHODS))
        )
    return method


def words(method: str | None) -> str:
    """``cash``, ``card``; *not said how* where nobody was asked."""
    return say("accounts", "method_words", method=method or UNTOLD)
