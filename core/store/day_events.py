"""What was said of single days: closed by plan, closed unplanned, or open after all. The last word counts."""

from __future__ import annotations

from datetime import date

from sqlalchemy import select

from core.store.shop_tables import DayEventRow
from core.store.unit import Unit

PLANNED, SHUT, OPEN = "planned", "shut", "open"


def latest(unit: Unit) -> dict[date, DayEventRow]:
    """The last thing said of each day."""
    rows = unit.session.scalars(select(DayEventRow).order_by(DayEventRow.id))
    return {date.fromisoformat(row.day): row for row in rows}


def enter(unit: Unit, day: date, kind: str, words: str) -> None:
    """Says something of a day."""
    unit.session.add(DayEventRow(day=day.isoformat(), kind=kind, words=words, at=unit.now, by=unit.who))
