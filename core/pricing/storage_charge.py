"""What keeping an order costs that nobody picks up, by the days since the customer heard it is ready.

A figure of the shop's own. Local law on unclaimed goods goes first: whether a shop may charge for keeping
them, from when on, and what it must tell the customer beforehand.
"""

from __future__ import annotations

from core.model.price_terms import StorageFee, StoragePeriod

_DAYS = {StoragePeriod.DAY: 1, StoragePeriod.WEEK: 7}
"""By definition."""


def storage_charge(fee: StorageFee, days_waiting: int) -> int:
    """Minor units, ``days_waiting`` whole days after the customer heard it is ready; 0 up to ``after_days``.

    Each day beyond them is charged, or each week that has begun.
    """
    beyond = max(0, days_waiting - fee.after_days)
    periods = -(-beyond // _DAYS[fee.per])
    return fee.minor * periods
