"""What the Shop screen shows, gathered in one reading of the records."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta

from core.model.incident_records import OpenIncident
from core.model.names import JobNumber
from core.model.own_shop.settings_records import Expected, Permission, ShopSettings
from core.playtime.evidence import Evidence
from core.playtime.habits import NoticedChange
from core.playtime.interval_calibration import NOMINAL, IntervalLevels
from core.pricing.price_book import PriceBook
from core.promise.backlogs import Backlog
from core.promise.reliability import Reliability, reliability
from core.scheduling import deck_week, opening_hours
from core.scheduling.deck_week import Week
from core.scheduling.event_rates import Counted
from core.scheduling.worktime.work_evidence import WorkEvidence
from core.services import deck_queue, event_counts, incidents, promises
from core.services.event_counts import Breakdown, ShutDay, TimeOff
from core.services.own_shop import readiness
from core.services.own_shop.readiness import NOTHING_OPEN, Readiness
from core.services.promises import Kept
from core.services.shop_work import learned_work
from core.store import current_prices, current_settings, permissions
from core.store.unit import Unit

COMING_DAYS = 60


@dataclass(frozen=True, slots=True)
class ShopView:
    """The shop as it stands."""

    settings: ShopSettings
    week: Week
    promises: tuple[Kept, ...]
    book: PriceBook
    shut: tuple[tuple[date, str], ...]
    """Days off in the coming weeks, each with its name."""
    record: Reliability
    """How the promises turned out."""
    outages: tuple[Breakdown, ...]
    """Every breakdown of a deck."""
    shut_unplanned: tuple[ShutDay, ...]
    counted: Counted
    learned: Expected
    """What is reckoned with, by what the settings state and what was counted."""
    days_off: tuple[TimeOff, ...] = ()
    """The shop's own closed days."""
    box_order: tuple[JobNumber, ...] = ()
    """Boxes somebody put in an order; empty: they stand as they came."""
    habits: tuple[Evidence, ...] = ()
    """What the decks have shown of customers' tapes."""
    readiness: Readiness = NOTHING_OPEN
    """What is still to be filled in before orders are taken in."""
    levels: IntervalLevels = NOMINAL
    """Where ranges begin and end, and the tapes that showed it."""
    change: NoticedChange | None = None
    """The newest change in what customers bring."""
    backlog: Backlog | None = None
    """More comes in than is played, where the last weeks showed it."""
    incidents: tuple[OpenIncident, ...] = ()
    """Tapes lost or damaged and not settled with their owners yet."""
    work: tuple[WorkEvidence, ...] = ()
    """What the history has shown of the shop's work."""
    no_reports: str = ""
    """Why whoever looks may not see ``record``, which is then empty; nothing: they may."""

    planned: tuple[float, ...] = ()
    """As the tenths of ``record``, of the curves that the plan alone would have stated."""


def read(unit: Unit) -> ShopView:
    """One reading of everything the screen shows."""
    record = promises.record(unit)
    looked, planned = promises.load(unit, record), promises.of_plans(unit, record)
    settings, now = current_settings.read(unit), looked.made_at
    calendar = opening_hours.calendar(settings, now.date())
    last = now.date() + timedelta(days=COMING_DAYS)
    refused = permissions.refusals(settings, unit.who, Permission.REPORTS)
    off = event_counts.days_off(unit)
    words = {day: each.words for each in off for day in each.days if each.words}
    return ShopView(
        settings=settings,
        week=deck_week.week(replace(settings, decks=settings.working_decks), deck_queue.waiting(unit), now),
        promises=promises.under_review(unit, looked),
        book=current_prices.in_force(unit, now.date()),
        shut=tuple((day, words.get(day, why)) for day, why in calendar.shut.items() if day <= last),
        days_off=off,
        box_order=deck_queue.box_order(unit),
        habits=deck_queue.evidence(unit),
        work=learned_work.evidence(unit),
        readiness=readiness.read(unit),
        levels=deck_queue.habits(unit).levels,
        change=deck_queue.habits(unit).change,
        incidents=incidents.open_ones(unit),
        record=reliability(()) if refused else record,
        planned=() if refused else planned,
        no_reports=refused[0].sentence if refused else "",
        outages=event_counts.outages(unit),
        shut_unplanned=event_counts.shut_days(unit),
        counted=event_counts.counted(unit),
        learned=looked.settings.expected,
        backlog=looked.backlog,
    )
