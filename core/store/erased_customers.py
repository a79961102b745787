"""Orders of customers who were erased: nothing is entered for them any more."""

from __future__ import annotations

from sqlalchemy import bindparam, select

from core.model.errors import Refused
from core.model.stations import Station
from core.store.job_tables import JobRow
from core.store.shop_tables import ErasureRow
from core.store.tape_tables import TapeRow
from core.store.unit import Unit
from core.wording.messages import say

_HERE = tuple(station for station in Station if station.is_in_the_shop)
_ERASED = (
    select(ErasureRow.id)
    .join(JobRow, JobRow.customer_id == ErasureRow.customer_id)
    .where(JobRow.number == bindparam("number"))
    .where(~select(TapeRow.id).where(TapeRow.job_id == JobRow.id, TapeRow.station.in_(_HERE)).exists())
    .limit(1)
)
_KEPT = "orders_of_somebody"


def check(unit: Unit, number: str) -> None:
    """Refused for an order whose customer was erased: a name would come back with whatever is entered.

    One that is open all the same, in records older than the erasure, can still be given back.
    """
    kept: set[str] = unit.session.info.setdefault(_KEPT, set())
    if number in kept:
        return
    if unit.session.scalars(_ERASED, {"number": number}).first() is not None:
        raise Refused(say("records", "order_erased", number=number))
    kept.add(number)
