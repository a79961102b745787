"""The tapes in the shop's care as a plan sees them: how each is known, and the steps still before it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from core.model import common_random_numbers
from core.model.names import FormatName, JobNumber, Speed, TapeCode, TvSystem
from core.model.own_shop.settings_records import ShopSettings
from core.model.ranges import Range
from core.model.stations import Station
from core.playtime.habits import STARTING, ShopHabits
from core.playtime.possibilities import Facts
from core.scheduling.capacity_bounds import binding
from core.scheduling.deck_choice import suited
from core.scheduling.dispatching import in_dispatching_order
from core.scheduling.opening_calendar import Calendar
from core.scheduling.plan_records import Step, UnderWay, drawn_as

BY_HAND = 300
"""Queued tapes up to which every person is followed at once; a longer queue has minutes added instead
(our choice: a refresh stays within its time)."""


BUSY = 0.3
"""Below this, minutes added to every tape stand for the waiting well enough (derived: on a prototype)."""
CLEARING_MINUTES = 1.0
"""The least a tape needs of a person that is not cleared to play: somebody clears it (an assumption)."""


@dataclass(frozen=True, slots=True)
class QueuedTape:
    """A tape in the shop's care; ``bench_minutes`` is what repairs still take, ``copying_minutes`` what the
    copies of its order do, where it is the last of them that needs the bench."""

    code: TapeCode
    format: FormatName
    recorded_as: FormatName | None
    tv: TvSystem | None
    speed: Speed | None
    minutes: Range
    station: Station
    since: datetime
    """When its station began."""
    rush: bool
    bench_minutes: float
    known: Facts | None = None
    """What is known of the recording; None: only ``minutes`` are."""
    habits: ShopHabits = STARTING
    """What the shop believes of it, tapes already played of its box taken in."""
    deck: str | None = None
    """The deck it is playing on, when somebody named it."""
    rests_until: datetime | None = None
    """Until when it must come to the temperature of the room (see `core.catalogue.acclimatisation`)."""
    copying_minutes: float = 0.0
    plays: bool = True
    """False for a recording that no deck of the shop can play: it is in no plan."""

    @property
    def job(self) -> JobNumber:
        """The job number is the beginning of the tape code."""
        return JobNumber(self.code[:6])


def lined_up(
    settings: ShopSettings, queue: Sequence[QueuedTape], calendar: Calendar
) -> tuple[list[Step], list[Step]]:
    """The tapes on their way to a deck in the order in which they are planned: rush, and the others."""
    coming = [tape for tape in queue if tape.station.waits_for_a_deck]
    rush, others = (
        in_dispatching_order(
            [queued_step(tape, settings, calendar) for tape in coming if tape.rush is hurried]
        )
        for hurried in (True, False)
    )
    return rush, others


def follows_people(settings: ShopSettings, queue: Sequence[QueuedTape], coming: Sequence[Step]) -> bool:
    """Whether a plan of this queue follows each person."""
    return len(queue) <= BY_HAND and _people_matter(settings, coming)


def under_way(
    settings: ShopSettings, queue: Sequence[QueuedTape], calendar: Calendar, now: float
) -> UnderWay:
    """What plays and what is checked at this moment."""
    playing = [
        (
            queued_step(tape, settings, calendar),
            max(0.0, now - calendar.at(tape.since)),
            _on(tape, settings),
        )
        for tape in queue
        if tape.station is Station.PLAYING
    ]
    checked = [tape for tape in queue if tape.station is Station.BEING_CHECKED]
    return UnderWay(playing, [queued_step(tape, settings, calendar) for tape in checked])


def _on(tape: QueuedTape, settings: ShopSettings) -> int | None:
    """The place of the deck a tape is playing on, where it is known and still there."""
    return next((place for place, deck in enumerate(settings.decks) if deck.name == tape.deck), None)


def queued_step(tape: QueuedTape, settings: ShopSettings, calendar: Calendar) -> Step:
    bench = 0.0
    if tape.station.needs_the_bench:
        looked = settings.handling.look_over if tape.station is Station.BOOKED_IN else 0.0
        bench = settings.worked.repair * tape.bench_minutes + looked
        bench = max(bench, CLEARING_MINUTES) + settings.worked.copying * tape.copying_minutes
    return Step(
        key=common_random_numbers.key(tape.code),
        box=common_random_numbers.key(tape.job),
        suited=suited(settings.decks, tape.format, tape.recorded_as, tape.tv, tape.speed),
        minutes=tape.minutes,
        bench=bench,
        plays=tape.plays,
        drawn_as=drawn_as(tape.known, tape.habits, tape.minutes),
        rests_until=calendar.at(tape.rests_until) if tape.rests_until else 0.0,
        repairs=bool(bench and tape.bench_minutes),
    )


def _people_matter(settings: ShopSettings, queue: Sequence[Step]) -> bool:
    """Whether a plan must follow each person: with one, or where people are busy for `BUSY` of the time."""
    if settings.people == 1 or not settings.decks:
        return bool(settings.decks)
    each = settings.handling
    by_hand = sum(step.bench + each.load + each.unload + each.check_of(step.minutes.likely) for step in queue)
    work: dict[tuple[int, ...], float] = {}
    for step in queue:
        work[step.suited.decks] = work.get(step.suited.decks, 0.0) + step.minutes.likely
    bounds = [bound.each for decks in work if decks and (bound := binding(work, decks))]
    return by_hand > BUSY * settings.people * max(bounds, default=0.0)
