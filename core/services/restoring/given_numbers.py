"""Order numbers given out after a backup was made stay given: the restored shop counts on after them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import column, select, table, update

from core.store import history
from core.store.engines import open_database
from core.store.sharing.shop_scope import ShopSession
from core.store.unit import Unit
from core.wording.messages import say

KIND = "restored"
"""Of the line of history."""
COUNTERS = table("counters", column("name"), column("last"), column("shop"))
LAST_ORDER = select(COUNTERS.c.last).where(COUNTERS.c.name == "job")
"""The sequence of the last order."""


@dataclass(frozen=True, slots=True)
class RestoreNote:
    """What the history will say of a restore."""

    file: str
    now: datetime
    who: str
    last_given: int
    """The sequence of the last order somebody knows of; 0 when nothing is known."""
    erased: frozenset[str] = frozenset()
    """Orders of everybody who is known to have been erased (see `erased_orders`)."""


def note(sound: Path, note: RestoreNote, last_there: int) -> None:
    """Writes into the shop that comes that it was restored, and lets it count on after ``last_there``.

    The numbers in between stay free for good: their orders are in what was kept, or on slips of customers.
    """
    database = open_database(sound)
    try:
        with ShopSession(database.writing) as session, session.begin():
            _note(Unit(session, note.now, note.who), note, max(last_there, note.last_given))
    finally:
        database.close()


def _note(unit: Unit, note: RestoreNote, last: int) -> None:
    here = int(unit.session.execute(LAST_ORDER).scalar_one())
    skipped = max(0, last - here)
    words = say("records", "restored_line", file=note.file, skipped=skipped)
    first = here + 1 if skipped else 0
    history.append(
        unit, KIND, words, file=note.file, first_skipped=first, last_skipped=last if skipped else 0
    )
    if skipped:
        unit.session.execute(update(COUNTERS).where(COUNTERS.c.name == "job").values(last=last))
