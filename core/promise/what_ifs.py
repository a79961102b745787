"""What would help: the same box in the same scenarios with one thing changed in the shop.

Each line plans the queue again with the same draws, so the days between two answers come from the change
and from nothing else. For the background: it costs a load a line.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime

from core.model.promise_records import Promise
from core.model.quote_records import QuotedTape
from core.model.settings_records import Deck, OpeningHours, ShopSettings
from core.playtime.habits import STARTING, ShopHabits
from core.promise import turnaround
from core.promise.turnaround import Load
from core.scheduling.queued_tapes import QueuedTape
from core.wording import locale_figures

LONGER = 60
"""Minutes by which a day, or what may play past it, is made longer."""
_DAY_MINUTES = 24 * 60


@dataclass(frozen=True, slots=True)
class WhatIf:
    """One change and the date it would make."""

    change: str
    day: date | None
    stated: float
    days_gained: int | None
    """Calendar days sooner (negative: later); None when there is a date in one case only."""

    @property
    def sentence(self) -> str:
        """E.g. ``with another deck like VHS 1: Thursday 5 March, 6 days sooner``."""
        if self.day is None:
            return f"{self.change}: no date"
        if self.days_gained is None:
            return f"{self.change}: {locale_figures.day(self.day)}, where there is no date now"
        return f"{self.change}: {locale_figures.day(self.day)}, {_gained(self.days_gained)}"


def helps(
    fittings: ShopSettings,
    queue: Sequence[QueuedTape],
    now: datetime,
    tapes: Sequence[QuotedTape],
    *,
    rush: bool = False,
    shop: ShopHabits = STARTING,
    rests_hours: float = 0.0,
) -> tuple[WhatIf, ...]:
    """Changes to the shop and the box, the one that gains most days first; those that lose days last."""
    load = turnaround.load(fittings, queue, now)
    plain = turnaround.promise(load, tapes, rush, None, shop, rests_hours)
    found = []
    if not rush:
        hurried = turnaround.promise(load, tapes, True, None, shop, rests_hours)
        found.append(_what_if("as a rush box", plain, hurried))
    for change, changed in changes(fittings, _first_decks(load, tapes)):
        other = turnaround.load(changed, queue, now, by_hand=load.by_hand)
        dated = turnaround.promise(other, tapes, rush, None, shop, rests_hours)
        found.append(_what_if(change, plain, dated))
    return tuple(sorted(found, key=lambda one: -_worth(one)))


def changes(fittings: ShopSettings, places: Sequence[int]) -> Iterator[tuple[str, ShopSettings]]:
    """Each change in words, with the shop as it would be; ``places`` are those of a deck of each kind."""
    for place in places:
        deck = fittings.decks[place]
        another = replace(deck, name=f"another {deck.name}")
        yield f"with another deck like {deck.name}", replace(fittings, decks=(*fittings.decks, another))
    wanted = frozenset().union(*(fittings.decks[place].plays for place in places))
    for deck in fittings.decks:
        if deck.plays & wanted and (not deck.in_service or deck.name in fittings.expected.awaited):
            yield f"with {deck.name} back in service", _back(fittings, deck)
    yield "with one more person", replace(fittings, people=fittings.people + 1)
    yield "open an hour longer", replace(fittings, openings=_longer(fittings.openings))
    late = fittings.past_closing_minutes + LONGER
    yield "letting tapes play an hour longer after closing", replace(fittings, past_closing_minutes=late)
    for place in places:
        decks = tuple(_out(deck, n == place) for n, deck in enumerate(fittings.decks))
        if fittings.decks[place].name not in fittings.expected.awaited:
            yield f"if {fittings.decks[place].name} broke down", replace(fittings, decks=decks)


def _first_decks(load: Load, tapes: Sequence[QuotedTape]) -> list[int]:
    """The first deck of each kind the box needs."""
    return list(dict.fromkeys(decks[0] for tape in tapes if (decks := turnaround.decks_of(load, tape))))


def _back(fittings: ShopSettings, deck: Deck) -> ShopSettings:
    decks = tuple(replace(each, in_service=True) if each is deck else each for each in fittings.decks)
    awaited = fittings.expected.awaited - {deck.name}
    return replace(fittings, decks=decks, expected=replace(fittings.expected, awaited=awaited))


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


def _what_if(change: str, plain: Promise, other: Promise) -> WhatIf:
    gained = (plain.day - other.day).days if plain.day and other.day else None
    return WhatIf(change, other.day, other.stated, gained)


def _worth(one: WhatIf) -> float:
    if one.days_gained is not None:
        return one.days_gained
    return 1e6 if one.day else -1e6


def _gained(days: int) -> str:
    if not days:
        return "no sooner"
    count = f"{abs(days)} day{'' if abs(days) == 1 else 's'}"
    return f"{count} sooner" if days > 0 else f"{count} later"
