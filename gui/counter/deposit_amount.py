"""The deposit as it is typed, and as it is proposed."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation

from babel.numbers import get_currency_precision

from core.model.errors import WrongInput
from core.model.quote_records import Price
from core.wording.locale_figures import money
from gui.toolkit.text import say


def read_deposit(typed: str, price: Price) -> int:
    """``40``, ``40.00`` or ``$40`` in minor units; nothing is zero.

    WrongInput when it is no amount of the currency, or above the ceiling of ``price``.
    """
    if not typed.strip():
        return 0
    bare = "".join(sign for sign in typed if sign.isdigit() or sign in ".-")
    try:
        minor = Decimal(bare).scaleb(get_currency_precision(price.currency))
    except InvalidOperation:
        raise _not_accepted(typed, price) from None
    if minor != minor.to_integral_value() or not 0 <= minor <= price.ceiling_minor:
        raise _not_accepted(typed, price)
    return int(minor)


def plain_amount(minor: int, currency: str) -> str:
    """Minor units as they are typed: ``1250`` of USD as ``12.50``."""
    digits = get_currency_precision(currency)
    return f"{Decimal(minor).scaleb(-digits):.{digits}f}"


def _not_accepted(typed: str, price: Price) -> WrongInput:
    like, ceiling = (
        plain_amount(price.deposit_minor, price.currency),
        money(price.ceiling_minor, price.currency),
    )
    accepted = say("counter", "deposit_accepted", like=like, ceiling=ceiling)
    return WrongInput(say("counter", "deposit_place"), typed, accepted)
