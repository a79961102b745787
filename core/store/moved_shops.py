"""A shop that was moved elsewhere: nobody opens what is left here by mistake, and nobody changes it."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import Connection, column, insert, select, table

from core.model.errors import Refused
from core.store.columns import UtcMoment
from core.store.sharing.shop_scope import narrowed, owned
from core.store.shop_tables import ChangeNumberRow, ShopMoveRow
from core.wording import locale_figures
from core.wording.messages import say

MOVED = "moved"
"""Stands among the numbers of changes, which each step reads: windows still open hear of it there."""

_MOVES = table(
    ShopMoveRow.__tablename__, column("place"), column("at", UtcMoment), column("by"), column("shop")
)
_NUMBERS = table(ChangeNumberRow.__tablename__, column("kind"), column("number"), column("shop"))


def check(connection: Connection) -> None:
    """Refused, naming the new place, when the shop was moved."""
    row = connection.execute(
        narrowed(connection, select(_MOVES.c.place, _MOVES.c.at, _MOVES.c.by), _MOVES)
    ).first()
    if row is not None:
        day = locale_figures.full_day(row.at.date())
        raise Refused(say("records", "shop_was_moved", where=row.place, day=day, who=row.by))


def mark(connection: Connection, place: str, now: datetime, who: str) -> None:
    """Says that the shop was moved to ``place``, in the transaction of ``connection``."""
    connection.execute(insert(_MOVES), owned(connection, {"place": place, "at": now, "by": who}))
    connection.execute(insert(_NUMBERS), owned(connection, {"kind": MOVED, "number": 0}))
