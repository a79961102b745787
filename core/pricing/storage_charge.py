"""What keeping an order costs that nobody picks up, by the days since it was ready.

A figure of the shop's own. Local law on unclaimed goods goes first: whether a shop may charge for keeping
them, from when on, and what it must tell the customer beforehand.
"""

from __future__ import annotations

from core.model.price_terms import StorageFee, StoragePeriod

_DAYS = {StoragePeriod.DAY: 1, StoragePeriod.WEEK: 7}


def storage_charge(fee: StorageFee, days_ready: int) -> int:
    """Minor units for an order ``days_ready`` whole days after it was ready; nothing up to ``after_days``.

    Each day beyond them is charged, or each week that has begun.
    """
    beyond = max(0, days_ready - fee.after_days)
    periods = -(-beyond // _DAYS[fee.per])
    return fee.minor * periods
