"""What the bench loads now: a tape for each free deck, by the plan the dates are made with."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from core.model.tape_records import TapeRecord
from core.scheduling.next_tape import NextTape, next_tapes
from core.scheduling.plan_records import estimate
from core.services import deck_queue
from core.store import current_settings, lookup, row_records
from core.store.unit import Unit


@dataclass(frozen=True, slots=True)
class ToLoad:
    """One free deck that tapes of the queue wait for."""

    deck: str
    tape: TapeRecord | None
    """None: nothing may be loaded now."""
    ends: datetime | None
    """When the tape ends if it is loaded now, by the minutes it is planned with; on the shop's clock."""
    why: str
    """A sentence."""


def read(unit: Unit) -> tuple[ToLoad, ...]:
    """Each free deck the queue has tapes for, in the order of the settings; empty when none is free."""
    settings, now = current_settings.read(unit), current_settings.local(unit, unit.now)
    found = next_tapes(settings, deck_queue.waiting(unit), now)
    return tuple(
        _told(unit, deck.name, found[deck.name], now) for deck in settings.decks if deck.name in found
    )


def _told(unit: Unit, deck: str, found: NextTape, now: datetime) -> ToLoad:
    if found.tape is None:
        return ToLoad(deck, None, None, found.why)
    minutes = current_settings.read(unit).handling.load + estimate(found.tape.minutes)
    return ToLoad(
        deck,
        row_records.tape(lookup.tape_row(unit, found.tape.code)),
        now + timedelta(minutes=minutes),
        found.why,
    )
