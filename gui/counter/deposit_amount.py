"""The deposit as it is typed."""

from __future__ import annotations

from core.model.errors import WrongInput
from core.model.quote_records import Price
from core.wording import typed_amounts
from core.wording.locale_figures import money
from gui.toolkit.text import say


def read_deposit(typed: str, price: Price) -> int:
    """``40``, ``40.00`` or ``$40`` in minor units; nothing is zero.

    WrongInput when it is no amount of the currency, or above the ceiling of ``price``.
    """
    if not typed.strip():
        return 0
    minor = typed_amounts.minor_of(typed, price.currency)
    if minor is None or minor > price.ceiling_minor:
        raise _not_accepted(typed, price)
    return minor


def _not_accepted(typed: str, price: Price) -> WrongInput:
    like, ceiling = (
        typed_amounts.typed_amount(price.deposit_minor, price.currency),
        money(price.ceiling_minor, price.currency),
    )
    accepted = say("counter", "deposit_accepted", like=like, ceiling=ceiling)
    return WrongInput(say("counter", "deposit_place"), typed, accepted)
