"""Which tape goes on a deck now: the rule every promise is made by, so that the bench can keep to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

import numpy as np

from core.model.settings_records import ShopSettings
from core.model.stations import Station
from core.scheduling import opening_hours
from core.scheduling.deck_choice import suited
from core.scheduling.deck_timelines import Gate
from core.scheduling.plan import LOAD_MINUTES, estimate
from core.scheduling.queued_tapes import ON_ITS_WAY, QueuedTape
from core.scheduling.waiting_tapes import FILL
from core.wording import locale_figures


@dataclass(frozen=True, slots=True)
class UpNext:
    """The tape to load, or None; ``why`` is a sentence for the bench."""

    tape: QueuedTape | None
    why: str


def up_next(fittings: ShopSettings, queue: Sequence[QueuedTape], now: datetime, deck: str) -> UpNext:
    """The tape for one deck at this moment: rush boxes first, then in the order of the queue.

    One that would not end before closing (by its estimate) waits for an opening, and the longest of the
    next `FILL` that would, and is cleared to play, takes the deck meanwhile. ``deck`` is a deck's name.
    """
    calendar = opening_hours.calendar(fittings, opening_hours.today(fittings, now))
    moment = calendar.at(now) + LOAD_MINUTES
    mine = [tape for tape in _in_turn(queue) if deck in deck_names(fittings, tape)]
    if not mine:
        return UpNext(None, "No tape of the queue plays on this deck.")
    starts = {tape.code: _start(fittings, calendar, tape, moment) for tape in mine[: FILL + 1]}
    able = [
        tape
        for tape in mine[: FILL + 1]
        if starts[tape.code] == moment and tape.station is Station.CLEARED_TO_PLAY and _is_warm(tape, now)
    ]
    if able and able[0] is mine[0]:
        return UpNext(able[0], "It is next in the queue.")
    if able:
        longest = max(able, key=lambda tape: estimate(tape.minutes))
        return UpNext(longest, _instead(mine[0], starts[mine[0].code] > moment, _is_warm(mine[0], now)))
    if starts[mine[0].code] == moment:
        return UpNext(None, _not_yet(mine[: FILL + 1], now))
    if not np.isfinite(starts[mine[0].code]):
        return UpNext(None, "The shop has no opening hours in which it could be played.")
    day = calendar.day_of(starts[mine[0].code])
    return UpNext(
        None, f"Nothing would end before closing; the next tape starts on {locale_figures.day(day)}."
    )


def _in_turn(queue: Sequence[QueuedTape]) -> list[QueuedTape]:
    """Rush first; boxes in their order; in a box the longest first, as `dispatching` puts them."""
    boxes = {job: place for place, job in enumerate(dict.fromkeys(tape.job for tape in queue))}
    coming = [tape for tape in queue if tape.station in ON_ITS_WAY]
    return sorted(coming, key=lambda tape: (not tape.rush, boxes[tape.job], -tape.minutes.likely))


def deck_names(fittings: ShopSettings, tape: QueuedTape) -> list[str]:
    """The decks in service that may play this tape, the least flexible first."""
    found = suited(fittings.decks, tape.format, tape.recorded_as, tape.tv, tape.speed)
    return [fittings.decks[place].name for place in found.decks]


def _start(
    fittings: ShopSettings, calendar: opening_hours.Calendar, tape: QueuedTape, moment: float
) -> float:
    return Gate(calendar, estimate(tape.minutes), fittings.past_closing_minutes).start_of(moment)


def _is_warm(tape: QueuedTape, now: datetime) -> bool:
    return tape.rests_until is None or tape.rests_until <= now


def _instead(first: QueuedTape, is_too_long: bool, is_warm: bool) -> str:
    if is_too_long:
        return f"Tape {first.code} is next, but would not end before closing: this one does."
    if not is_warm:
        return f"Tape {first.code} is next, but it came in cold and still rests."
    return f"Tape {first.code} is next, but it is not cleared to play yet."


def _not_yet(next_ones: Sequence[QueuedTape], now: datetime) -> str:
    cleared = [tape for tape in next_ones if tape.station is Station.CLEARED_TO_PLAY]
    if cleared and not any(_is_warm(tape, now) for tape in cleared):
        return "The next tapes came in cold and still rest."
    return "The next tapes are not cleared to play yet."
