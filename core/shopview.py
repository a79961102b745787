"""What the Shop screen shows, gathered in one reading of the records."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from core import captures, decks, deckweek, hours, pricebook, promises, tally
from core.deckweek import Week
from core.learning import Evidence
from core.pace import Counted
from core.pricebook import PriceBook
from core.promises import Kept
from core.records import Expected, Fittings
from core.reliability import Reliability
from core.tails import USUAL, Tails
from core.tally import Outage, ShutDay
from core.unit import Unit

COMING_DAYS = 60


@dataclass(frozen=True, slots=True)
class ShopView:
    """The shop as it stands."""

    fittings: Fittings
    week: Week
    promises: tuple[Kept, ...]
    book: PriceBook
    shut: tuple[tuple[date, str], ...]
    """Days off in the coming weeks, each with its name."""
    record: Reliability
    """How the promises turned out."""
    outages: tuple[Outage, ...]
    """Every breakdown of a deck."""
    shut_unplanned: tuple[ShutDay, ...]
    counted: Counted
    learned: Expected
    """What is reckoned with, by what the fittings state and what was counted."""
    habits: tuple[Evidence, ...] = ()
    """What the decks have shown of customers' tapes."""
    tails: Tails = USUAL
    """Where ranges begin and end, and the tapes that showed it."""

    @property
    def overrun(self) -> float:
        """How many times as far off dates are set, because boxes ran late."""
        return self.learned.overrun


def read(unit: Unit) -> ShopView:
    """One reading of everything the screen shows."""
    looked = promises.load(unit)
    fittings, now = decks.fittings(unit), looked.made_at
    calendar = hours.calendar(fittings, now.date())
    last = now.date() + timedelta(days=COMING_DAYS)
    return ShopView(
        fittings=fittings,
        week=deckweek.week(fittings, decks.queue(unit), now),
        promises=promises.under_review(unit, looked),
        book=pricebook.in_force(now.date()),
        shut=tuple((day, why) for day, why in calendar.shut.items() if day <= last),
        habits=captures.evidence(unit),
        tails=captures.habits(unit).tails,
        record=promises.record(unit),
        outages=tally.outages(unit),
        shut_unplanned=tally.shut_days(unit),
        counted=tally.counted(unit),
        learned=looked.fittings.expected,
    )
