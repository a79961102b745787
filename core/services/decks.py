"""The shop at work: its fittings, its decks in and out of service, and the queue before them."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from sqlalchemy import select

from core.model.errors import Refused, WrongInput
from core.model.inventory import TapeLine
from core.model.names import JobNumber, TapeCode
from core.model.ranges import ZERO
from core.model.settings_records import Deck, Outage, ShopSettings
from core.model.stations import ASIDE, Station
from core.playtime import tape_minutes
from core.playtime.habits import ShopHabits
from core.playtime.possibilities import facts
from core.scheduling import opening_hours
from core.scheduling.deck_choice import possible_systems
from core.scheduling.queued_tapes import QueuedTape
from core.services import captures, customers, settings_versions
from core.store import history, lookup
from core.store.tables import BoxOrderRow, DeckEventRow, JobRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures

_DONE = (Station.READY, Station.HANDED_BACK)


def fittings(unit: Unit) -> ShopSettings:
    """Decks, hours and people of this shop, as they are settled now."""
    return settings_versions.current(unit)


def refit(unit: Unit, changed: ShopSettings) -> ShopSettings:
    """Changes the shop's settings from now on (see `settings_versions.change`)."""
    return settings_versions.change(unit, changed)


def queue(unit: Unit) -> tuple[QueuedTape, ...]:
    """Tapes not ready yet, box by box: in the order they were put in, then in the order they came."""
    waiting = select(TapeRow, JobRow.rush).join(JobRow, JobRow.id == TapeRow.job_id)
    rows = unit.session.execute(
        waiting.where(
            TapeRow.station.in_([each for each in lookup.IN_THE_SHOP if each not in _DONE])
        ).order_by(TapeRow.job_id, TapeRow.place)
    )
    shop, boxes = captures.habits(unit), captures.habits_of_boxes(unit)
    queued = [_queued(tape, rush, boxes.get(tape.job_id, shop)) for tape, rush in rows]
    places = {number: place for place, number in enumerate(box_order(unit))}
    return tuple(sorted(queued, key=lambda tape: places.get(tape.job, len(places))))


def box_order(unit: Unit) -> tuple[JobNumber, ...]:
    """The boxes somebody put in an order, first to last; those not named come after, as they came."""
    newest = select(BoxOrderRow).order_by(BoxOrderRow.id.desc()).limit(1)
    row = unit.session.scalars(newest).one_or_none()
    return () if row is None else tuple(JobNumber(number) for number in row.numbers)


def broke_down(unit: Unit, name: str, words: str = "") -> ShopSettings:
    """Takes a deck out of service because it broke; ``words`` say what. A tape in it stays where it is.

    WrongInput for a deck the shop does not have; Refused when it is out already.
    """
    if not _deck(unit, name).in_service:
        raise Refused(f"Deck {name} is out of service already.")
    return _switch(unit, name, "out", words, f"{name} broke down")


def back_in_service(unit: Unit, name: str, words: str = "") -> ShopSettings:
    """Puts a deck back into service; ``words`` say what was done. Refused when it is in service."""
    if _deck(unit, name).in_service:
        raise Refused(f"Deck {name} is in service already.")
    return _switch(unit, name, "back", words, f"{name} is back in service")


def plan_outage(unit: Unit, outage: Outage, words: str = "") -> ShopSettings:
    """Keeps that a deck is out of service by plan, from the first day to the last; ``words`` say why.

    WrongInput for a deck the shop does not have, days in the wrong order, gone, or further off than any date
    is looked for; Refused when the deck is out by plan on one of them already.
    """
    _deck(unit, outage.deck)
    opening_hours.check_span(outage.begins, outage.ends, on_the_shops_clock(unit, unit.now).date())
    fitted = fittings(unit)
    for each in fitted.outages:
        if each.deck == outage.deck and each.begins <= outage.ends and outage.begins <= each.ends:
            raise Refused(
                f"{each.deck} is out by plan {_span(each)} already. "
                "Take that back first, or choose other days."
            )
    said = _because(words)
    history.append(unit, "outage planned", f"{outage.deck} out by plan {_span(outage)}{said}", outage=outage)
    return _with_outages(unit, fitted, [*fitted.outages, outage])


def cancel_outage(unit: Unit, outage: Outage, words: str = "") -> ShopSettings:
    """Takes a planned outage back; one that has begun ends with yesterday. ``words`` say why.

    Refused when no such outage is planned, or when it is over.
    """
    fitted, today = fittings(unit), on_the_shops_clock(unit, unit.now).date()
    if outage not in fitted.outages:
        raise Refused(f"{outage.deck} is not out by plan {_span(outage)}; somebody took it back already.")
    if outage.ends < today:
        raise Refused(f"{outage.deck} was out {_span(outage)}; that is over and stays in the record.")
    left = [replace(outage, ends=today - timedelta(days=1))] if outage.begins < today else []
    told = f"{outage.deck} not out any more {_span(outage)}{_because(words)}"
    history.append(unit, "outage taken back", told, outage=outage)
    return _with_outages(unit, fitted, [each for each in fitted.outages if each != outage] + left)


def _with_outages(unit: Unit, fitted: ShopSettings, outages: list[Outage]) -> ShopSettings:
    in_order = sorted(outages, key=lambda each: (each.begins, each.deck))
    return refit(unit, replace(fitted, outages=tuple(in_order)))


def check_plays(unit: Unit, name: str, draft: TapeLine) -> None:
    """WrongInput when the shop has no such deck; Refused when it is out of service or plays no such tape."""
    deck, systems = _deck(unit, name), possible_systems(draft.format, draft.recorded_as)
    if not deck.in_service:
        raise Refused(f"Deck {name} is out of service. Choose another one.")
    if not deck.plays.intersection(systems):
        raise Refused(f"Deck {name} does not play {' or '.join(systems)}. Choose another one.")


def on_the_shops_clock(unit: Unit, moment: datetime) -> datetime:
    """The moment as the clock on the shop's wall shows it."""
    return moment.astimezone(ZoneInfo(fittings(unit).front.timezone))


def _deck(unit: Unit, name: str) -> Deck:
    known = {deck.name: deck for deck in fittings(unit).decks}
    if name not in known:
        raise WrongInput("deck", name, f"this shop has {', '.join(known) or 'no decks'}")
    return known[name]


def _span(outage: Outage) -> str:
    return locale_figures.span(outage.begins, outage.ends)


def _because(words: str) -> str:
    said = customers.text("why", words)
    return f": {said}" if said else ""


def _switch(unit: Unit, name: str, kind: str, words: str, told: str) -> ShopSettings:
    said = customers.text("what broke or was done", words)
    unit.session.add(DeckEventRow(deck=name, kind=kind, words=said, at=unit.now, by=unit.who))
    history.append(unit, f"deck {kind}", told + (f": {said}" if said else ""), deck=name)
    fitted = fittings(unit)
    changed = (
        replace(each, in_service=kind == "back") if each.name == name else each for each in fitted.decks
    )
    return refit(unit, replace(fitted, decks=tuple(changed)))


def _queued(row: TapeRow, rush: bool, habits: ShopHabits) -> QueuedTape:
    """One waiting tape, believed anew by what the shop and its box have shown since it came."""
    repairs = [each.minutes for each in row.verdict.repairs]
    known = facts(row.draft)
    still = row.station in (Station.BOOKED_IN, Station.LOOKED_OVER, Station.AT_THE_BENCH, *ASIDE)
    return QueuedTape(
        code=TapeCode(row.code),
        format=row.draft.format,
        recorded_as=row.draft.recorded_as,
        tv=row.draft.tv,
        speed=row.draft.speed,
        minutes=row.minutes if row.minutes == ZERO else tape_minutes.belief_of(known, habits).range,
        station=row.station,
        since=row.since,
        rush=rush,
        bench_minutes=sum((each.likely for each in repairs), 0.0) if still else 0.0,
        known=known,
        habits=habits,
        deck=row.deck,
        rests_until=row.rests_until,
    )
