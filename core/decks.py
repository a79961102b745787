"""The shop at work: its fittings, the queue before the decks, and whether its promises will be kept."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from sqlalchemy import select

from core import captures, history, playtime, recorded, shelf, turnaround, wire
from core import fittings as fitted
from core.deck_choice import possible_systems
from core.errors import Refused, WrongInput
from core.habits import ShopHabits
from core.inventory import TapeLine
from core.names import TapeCode
from core.possibilities import facts
from core.ranges import ZERO
from core.records import Fittings, Job, Promise
from core.stations import ASIDE, Station
from core.tables import JobRow, SettingRow, TapeRow
from core.turnaround import QueuedTape
from core.unit import Unit

_FITTINGS = "fittings"
_DONE = (Station.READY, Station.HANDED_BACK)


@dataclass(frozen=True, slots=True)
class Kept:
    """One promise under review. ``chance`` is what the model gives it now; None when no date was promised."""

    job: Job
    promise: Promise
    """As it was given."""
    now: Promise | None
    """What would be said today; None when nothing of the job waits for a deck or the bench."""
    chance: float | None
    held_by: tuple[str, ...]
    is_at_risk: bool
    """Less likely now than it was stated, by more than the noise of the model: call the customer first."""


NOISE = 0.05
"""A chance that fell by less than one time in twenty is not worth a call (an assumption)."""


def fittings(unit: Unit) -> Fittings:
    """Decks, hours and people of this shop; a new shop has what ``resources/shop/new.toml`` says."""
    row = unit.session.get(SettingRow, _FITTINGS)
    return fitted.new_shop() if row is None else wire.loads(Fittings, row.value)


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


def promises(unit: Unit) -> tuple[Kept, ...]:
    """Every open job with its promise and the chance of keeping it now, the most endangered first."""
    load = turnaround.load(fittings(unit), queue(unit), on_the_shops_clock(unit, unit.now))
    here = select(TapeRow.job_id).where(TapeRow.station.in_(shelf.IN_THE_SHOP))
    rows = unit.session.scalars(shelf.whole_jobs().where(JobRow.id.in_(here)).order_by(JobRow.id))
    kept = [_kept(load, recorded.job(row)) for row in rows]
    return tuple(sorted(kept, key=lambda each: 2.0 if each.chance is None else each.chance))


def check_plays(unit: Unit, name: str, draft: TapeLine) -> None:
    """WrongInput when the shop has no such deck; Refused when it is out of service or plays no such tape."""
    known = {deck.name: deck for deck in fittings(unit).decks}
    if name not in known:
        raise WrongInput("deck", name, f"this shop has {', '.join(known) or 'no decks'}")
    deck, systems = known[name], possible_systems(draft.format, draft.recorded_as)
    if not deck.in_service:
        raise Refused(f"Deck {name} is out of service. Choose another one.")
    if not deck.plays.intersection(systems):
        raise Refused(f"Deck {name} does not play {' or '.join(systems)}. Choose another one.")


def on_the_shops_clock(unit: Unit, moment: datetime) -> datetime:
    """The moment as the clock on the shop's wall shows it."""
    return moment.astimezone(ZoneInfo(fittings(unit).front.timezone))


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
    )


def _kept(load: turnaround.Load, job: Job) -> Kept:
    now = turnaround.standing(load, job.number)
    held_by = now.held_by if now is not None else ()
    if job.promise.day is None:
        return Kept(job, job.promise, now, None, held_by, False)
    chance = turnaround.chance_of(load, job.number, job.promise.day) if now is not None else 1.0
    return Kept(job, job.promise, now, chance, held_by, chance < job.promise.stated - NOISE)
