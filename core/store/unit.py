"""One piece of work on the shop's records: the transaction it runs in, the moment, and who is at it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import datetime

from sqlalchemy import bindparam, column, table, update
from sqlalchemy.orm import Session

from core.model.names import NO_COMMAND, CommandId
from core.model.own_shop.settings_records import ShopSettings

_COUNTERS = table("counters", column("name"), column("last"), column("shop"))
_ALLOT = (
    update(_COUNTERS)
    .where(_COUNTERS.c.name == bindparam("sequence"))
    .values(last=_COUNTERS.c.last + 1)
    .returning(_COUNTERS.c.last)
)
"""Built once: each step allots numbers, and building takes longer than carrying out."""


def _none_given() -> ShopSettings:
    raise NotImplementedError("no settings of a new shop were given to this unit")


@dataclass(frozen=True, slots=True)
class Unit:
    """What every step and query is given. Steps work through ``session`` and never commit."""

    session: Session
    now: datetime
    """With its time zone."""
    who: str
    memory: dict[str, object] = field(default_factory=dict)
    """What an open shop remembers from one question to the next, so that it need not be read again."""
    new_shop: Callable[[], ShopSettings] = _none_given
    """Gives the settings of a shop that has not set any."""
    command: CommandId = NO_COMMAND
    """The id of what is carried out."""


def allot(unit: Unit, counter: str) -> int:
    """The next number of a sequence without gaps: it is taken back when the transaction fails."""
    return int(unit.session.connection().execute(_ALLOT, {"sequence": counter}).scalar_one())
