"""The shop at work: its fittings, its decks in and out of service, and the queue before them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from sqlalchemy import select

from core import captures, customers, history, hours, playtime, shelf, wire
from core import fittings as fitted
from core.deck_choice import possible_systems
from core.errors import Refused, WrongInput
from core.habits import ShopHabits
from core.inventory import TapeLine
from core.names import TapeCode
from core.possibilities import facts
from core.ranges import ZERO
from core.records import Deck, Fittings
from core.stations import ASIDE, Station
from core.tables import DeckEventRow, JobRow, SettingRow, ShutDayRow, TapeRow
from core.turnaround import QueuedTape
from core.unit import Unit

_FITTINGS = "fittings"
_DONE = (Station.READY, Station.HANDED_BACK)


def fittings(unit: Unit) -> Fittings:
    """Decks, hours and people of this shop; a new shop has what ``resources/shop/new.toml`` says."""
    row = unit.session.get(SettingRow, _FITTINGS)
    return fitted.new_shop() if row is None else _read(row.value)


@lru_cache(maxsize=8)
def _read(value: str) -> Fittings:
    """They are asked for in every step and hardly ever changed."""
    return wire.loads(Fittings, value)


def refit(unit: Unit, changed: Fittings) -> Fittings:
    """Changes the shop's fittings from now on. What was promised before stays as it was said.

    Refused while a tape plays on a deck that would be gone.
    """
    checked = fitted.loads(fitted.dump(changed), "fittings")
    known = {deck.name for deck in checked.decks}
    for code, deck in unit.session.execute(
        select(TapeRow.code, TapeRow.deck).where(TapeRow.deck.is_not(None))
    ):
        if deck not in known:
            raise Refused(f"Deck {deck} is playing tape {code}. Take the tape off before the deck goes.")
    row = unit.session.get(SettingRow, _FITTINGS)
    if row is None:
        unit.session.add(SettingRow(name=_FITTINGS, value=wire.dumps(checked)))
    else:
        row.value = wire.dumps(checked)
    history.append(unit, "refitted", "decks, hours or people changed", fittings=checked)
    return checked


def queue(unit: Unit) -> tuple[QueuedTape, ...]:
    """Tapes not ready yet: the playing ones with their time, then the others in the order they came."""
    waiting = select(TapeRow, JobRow.rush).join(JobRow, JobRow.id == TapeRow.job_id)
    rows = unit.session.execute(
        waiting.where(
            TapeRow.station.in_([each for each in shelf.IN_THE_SHOP if each not in _DONE])
        ).order_by(TapeRow.job_id, TapeRow.place)
    )
    shop, boxes = captures.habits(unit), captures.habits_of_boxes(unit)
    return tuple(_queued(tape, rush, boxes.get(tape.job_id, shop)) for tape, rush in rows)


def broke_down(unit: Unit, name: str, words: str = "") -> Fittings:
    """Takes a deck out of service because it broke; ``words`` say what. A tape in it stays where it is.

    WrongInput for a deck the shop does not have; Refused when it is out already.
    """
    if not _deck(unit, name).in_service:
        raise Refused(f"Deck {name} is out of service already.")
    return _switch(unit, name, "out", words, f"{name} broke down")


def back_in_service(unit: Unit, name: str, words: str = "") -> Fittings:
    """Puts a deck back into service; ``words`` say what was done. Refused when it is in service."""
    if _deck(unit, name).in_service:
        raise Refused(f"Deck {name} is in service already.")
    return _switch(unit, name, "back", words, f"{name} is back in service")


def stayed_shut(unit: Unit, day: date, words: str) -> Fittings:
    """Keeps that the shop stays, or stayed, shut on a day it was to be open: ``words`` say why.

    WrongInput without a reason, for a day that is shut by plan, or one that is further off than tomorrow:
    that is a plan, and stands among the shop's closed days.
    """
    fitted, today = fittings(unit), on_the_shops_clock(unit, unit.now).date()
    reason = customers.text("reason", words)
    if not reason:
        raise WrongInput("reason", words, "say why the shop stays shut")
    if day > today + timedelta(days=1):
        raise WrongInput("day", day.isoformat(), "a day up to tomorrow is accepted; later ones are planned")
    if day not in hours.calendar(fitted, day, 1).days:
        raise WrongInput("day", day.isoformat(), "a day on which the shop was to be open is accepted")
    unit.session.add(ShutDayRow(day=day.isoformat(), words=reason, at=unit.now, by=unit.who))
    history.append(unit, "stayed shut", f"shut on {day.isoformat()}: {reason}", day=day)
    return refit(unit, replace(fitted, closed_days=fitted.closed_days | {day}))


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


def _switch(unit: Unit, name: str, kind: str, words: str, told: str) -> Fittings:
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
        minutes=row.minutes if row.minutes == ZERO else playtime.belief_of(known, habits).range,
        station=row.station,
        since=row.since,
        rush=rush,
        bench_minutes=sum((each.likely for each in repairs), 0.0) if still else 0.0,
        known=known,
        habits=habits,
        deck=row.deck,
    )
