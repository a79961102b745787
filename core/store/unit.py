"""One piece of work on the shop's records: the transaction it runs in, the moment, and who is at it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from sqlalchemy import update
from sqlalchemy.orm import Session

from core.store.tables import CounterRow


@dataclass(frozen=True, slots=True)
class Unit:
    """What every step and query is given. Steps work through ``session`` and never commit."""

    session: Session
    now: datetime
    """With its time zone."""
    who: str
    memory: dict[str, object] = field(default_factory=dict)
    """What an open shop remembers from one question to the next, so that it need not be read again."""


def allot(unit: Unit, counter: str) -> int:
    """The next number of a sequence without gaps: it is taken back when the transaction fails."""
    taken = update(CounterRow).where(CounterRow.name == counter).values(last=CounterRow.last + 1)
    return unit.session.execute(taken.returning(CounterRow.last)).scalar_one()
