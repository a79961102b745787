"""What the bench loads now: a tape for each free deck, by the rule the dates are made with."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from core.model.settings_records import Deck, ShopSettings
from core.model.stations import Station
from core.model.tape_records import TapeRecord
from core.scheduling import opening_hours
from core.scheduling.next_tape import UpNext, deck_names, up_next
from core.scheduling.plan import LOAD_MINUTES, estimate
from core.scheduling.queued_tapes import ON_ITS_WAY, QueuedTape
from core.services import decks, tapes
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
    """Each free deck the queue has tapes for, in the order of the fittings; empty when none is free."""
    fittings, now = decks.fittings(unit), decks.on_the_shops_clock(unit, unit.now)
    queue = decks.queue(unit)
    found = {deck: _told(unit, deck, up, now) for deck, up in dealt(fittings, queue, now).items()}
    return tuple(found[deck.name] for deck in fittings.decks if deck.name in found)


def dealt(fittings: ShopSettings, queue: Sequence[QueuedTape], now: datetime) -> dict[str, UpNext]:
    """What each free deck loads now, no tape twice; the least flexible deck chooses first."""
    left = [tape for tape in queue if tape.station in ON_ITS_WAY]
    found: dict[str, UpNext] = {}
    for deck in free_decks(fittings, queue, opening_hours.today(fittings, now)):
        if not any(deck.name in deck_names(fittings, tape) for tape in left):
            continue
        found[deck.name] = up_next(fittings, left, now, deck.name)
        left = [tape for tape in left if tape is not found[deck.name].tape]
    return found


def free_decks(fittings: ShopSettings, queue: Sequence[QueuedTape], today: date) -> list[Deck]:
    """The decks in service with no tape in them, the least flexible first.

    A tape that plays nobody said where is in the first deck that may play it, as the dates have it.
    """
    taken = {tape.deck for tape in queue if tape.station is Station.PLAYING and tape.deck}
    taken |= {each.deck for each in fittings.outages if each.begins <= today <= each.ends}
    for tape in queue:
        if tape.station is Station.PLAYING and not tape.deck:
            taken.update([name for name in deck_names(fittings, tape) if name not in taken][:1])
    free = [deck for deck in fittings.decks if deck.in_service and deck.name not in taken]
    return sorted(free, key=lambda deck: len(deck.plays))


def _told(unit: Unit, deck: str, found: UpNext, now: datetime) -> ToLoad:
    if found.tape is None:
        return ToLoad(deck, None, None, found.why)
    minutes = LOAD_MINUTES + estimate(found.tape.minutes)
    return ToLoad(deck, tapes.get(unit, found.tape.code), now + timedelta(minutes=minutes), found.why)
