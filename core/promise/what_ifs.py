"""What would help a box on the counter, or all boxes in the shop: the same plan with one thing changed.

Each change plans the queue again with the same draws (common random numbers), so what lies between two
answers comes from the change and from nothing else. For the background: it costs a plan a line.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

import numpy as np

from core.model.names import JobNumber
from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Deck, Duty, Person, ShopSettings
from core.model.promise_records import Promise
from core.model.quote_records import QuotedTape
from core.model.stations import Station
from core.playtime.habits import STARTING, ShopHabits
from core.promise import turnaround
from core.promise.turnaround import Load
from core.scheduling import rosters
from core.scheduling.queued_tapes import QueuedTape
from core.wording.messages import say

LONGER = 60
"""Minutes by which a day, or what may play past it, is made longer (our choice)."""
MOST = 3
"""Changes worth a line for the whole queue (an assumption)."""
_DAY_MINUTES = 24 * 60
"""By definition."""
_LEAST_DAYS = 0.05
"""An hour and a quarter: less is not worth a line (an assumption)."""


@dataclass(frozen=True, slots=True)
class WhatIf:
    """One change and the date it would make for the box on the counter."""

    change: str
    day: date | None
    stated: float
    days_gained: int | None
    """Calendar days sooner (negative: later); None when there is a date in one case only."""


@dataclass(frozen=True, slots=True)
class Relief:
    """One change. ``days`` is how much sooner a box is ready on average; ``saved`` dates would hold again."""

    change: str
    days: float
    saved: int
    endangered: int

    @property
    def sentence(self) -> str:
        """E.g. ``with one more person: orders ready 1.5 days sooner on average; 2 of 3 dates …``."""
        days = round(self.days, 1)
        sooner = say("dates", "sooner", change=self.change, days=int(days) if days == int(days) else days)
        if not self.saved:
            return sooner
        return say("dates", "dates_hold", sooner=sooner, saved=self.saved, endangered=self.endangered)


def helps(
    settings: ShopSettings,
    queue: Sequence[QueuedTape],
    now: datetime,
    tapes: Sequence[QuotedTape],
    *,
    rush: bool = False,
    shop: ShopHabits = STARTING,
    rests_hours: float = 0.0,
    copying_minutes: float = 0.0,
) -> tuple[WhatIf, ...]:
    """Changes to the shop and the box, the one that gains most days first; those that lose days last."""

    def dated(load: Load, hurried: bool = rush) -> Promise:
        return turnaround.promise(load, tapes, hurried, None, shop, rests_hours, copying_minutes)

    load = turnaround.load(settings, queue, now)
    plain = dated(load)
    found = [] if rush else [_what_if(say("dates", "rush_order"), plain, dated(load, True))]
    first_decks = _first_each(turnaround.decks_of(load, tape) for tape in tapes)
    found += [_what_if(change, plain, dated(other)) for change, other in _replanned(load, queue, first_decks)]
    return tuple(sorted(found, key=lambda one: -_worth(one)))


def reliefs(
    settings: ShopSettings,
    queue: Sequence[QueuedTape],
    now: datetime,
    endangered: Mapping[JobNumber, Promise],
) -> tuple[Relief, ...]:
    """The changes that help the whole queue most: by dates that would hold again, then by days."""
    plain = turnaround.load(settings, queue, now)
    waiting = (tape for tape in queue if tape.station is not Station.PLAYING)
    first_decks = _first_each(turnaround.decks_for(plain, tape) for tape in waiting)
    found = []
    for change, other in _replanned(plain, queue, first_decks):
        saved = sum(_holds(other, number, promise) for number, promise in endangered.items())
        found.append(Relief(change, _sooner(plain, other), saved, len(endangered)))
    useful = [each for each in found if each.days >= _LEAST_DAYS]
    return tuple(sorted(useful, key=lambda each: (-each.saved, -each.days))[:MOST])


def changes(settings: ShopSettings, places: Sequence[int]) -> Iterator[tuple[str, ShopSettings]]:
    """Each change in words, with the shop as it would be; ``places`` are those of a deck of each kind."""
    for place in places:
        deck = settings.decks[place]
        another = replace(deck, name=f"{deck.name} +")
        words = say("dates", "another_deck", deck=deck.name)
        yield words, replace(settings, decks=(*settings.decks, another))
    wanted = frozenset().union(*(settings.decks[place].plays for place in places))
    for deck in settings.decks:
        if deck.plays & wanted and (not deck.in_service or deck.name in settings.expected.awaited):
            yield say("dates", "deck_back", deck=deck.name), _back(settings, deck)
    yield say("dates", "one_more_person"), rosters.one_more(settings)
    for person in settings.working_staff:
        if person.hours and Duty.BENCH.value in person.does:
            yield say("dates", "always_here", name=person.name), _always_here(settings, person)
    yield say("dates", "open_longer"), replace(settings, openings=_longer(settings.openings))
    late = settings.past_closing_minutes + LONGER
    yield say("dates", "play_longer"), replace(settings, past_closing_minutes=late)
    for place in places:
        decks = tuple(_out(deck, n == place) for n, deck in enumerate(settings.decks))
        name = settings.decks[place].name
        if name not in settings.expected.awaited:
            yield say("dates", "deck_breaks_down", deck=name), replace(settings, decks=decks)


def _replanned(load: Load, queue: Sequence[QueuedTape], places: Sequence[int]) -> Iterator[tuple[str, Load]]:
    """The queue planned once more for each change, people followed as they were."""
    for change, changed in changes(load.settings, places):
        yield change, turnaround.load(changed, queue, load.made_at, by_hand=load.by_hand)


def _first_each(decks: Iterator[tuple[int, ...]]) -> list[int]:
    """The first deck of each kind that is needed."""
    return list(dict.fromkeys(each[0] for each in decks if each))


# --- the shop as it would be ----------------------------------------------------------------


def _back(settings: ShopSettings, deck: Deck) -> ShopSettings:
    decks = tuple(replace(each, in_service=True) if each is deck else each for each in settings.decks)
    awaited = settings.expected.awaited - {deck.name}
    return replace(settings, decks=decks, expected=replace(settings.expected, awaited=awaited))


def _always_here(settings: ShopSettings, person: Person) -> ShopSettings:
    """One person without hours of their own."""
    staff = tuple(replace(each, hours=()) if each is person else each for each in settings.staff)
    return replace(settings, staff=staff)


def _out(deck: Deck, is_out: bool) -> Deck:
    return replace(deck, in_service=False) if is_out else deck


def _longer(openings: tuple[OpeningHours, ...]) -> tuple[OpeningHours, ...]:
    """The last opening of every day an hour longer."""
    last = {opening.weekday: opening for opening in sorted(openings, key=lambda one: one.end)}
    return tuple(
        replace(opening, end=min(_DAY_MINUTES, opening.end + LONGER))
        if last[opening.weekday] == opening
        else opening
        for opening in openings
    )


# --- what it would bring --------------------------------------------------------------------


def _what_if(change: str, plain: Promise, other: Promise) -> WhatIf:
    gained = (plain.day - other.day).days if plain.day and other.day else None
    return WhatIf(change, other.day, other.stated, gained)


def _worth(one: WhatIf) -> float:
    if one.days_gained is not None:
        return one.days_gained
    return 1e6 if one.day else -1e6


def _holds(load: Load, number: JobNumber, promise: Promise) -> bool:
    """Whether the date would be as sure as it was said to be."""
    return promise.day is not None and turnaround.chance_of(load, number, promise.day) >= promise.stated


def _sooner(plain: Load, other: Load) -> float:
    """Days by which the middle of a box's finish times comes sooner, over the boxes that finish at all."""
    gained = turnaround.days_sooner(plain, other)
    return float(np.mean(list(gained.values()))) if gained else 0.0
