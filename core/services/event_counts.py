"""What happens in this shop though nobody planned it, counted: breakdowns, days it stays shut, rush boxes."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

from sqlalchemy import func, select

from core.model.names import FormatName
from core.model.own_shop.settings_records import ShopSettings
from core.scheduling import event_rates, opening_hours
from core.scheduling.breakdowns import awaiting
from core.scheduling.event_rates import Counted, RushMonth
from core.store import current_settings, day_events
from core.store.tables import CaptureRow, DeckEventRow, JobRow, TapeRow
from core.store.unit import Unit
from core.wording import locale_figures
from core.wording.messages import say

OUT, BACK = "out", "back"
NEWEST = 200
"""So many of the newest tapes show what is brought to the shop (an assumption)."""
_MOST_DAYS = 1500
"""So far back it is counted."""


@dataclass(frozen=True, slots=True)
class Breakdown:
    """One breakdown of a deck. ``ended_at`` is None while it is out."""

    deck: str
    began_at: datetime
    ended_at: datetime | None
    words: str
    """What broke."""
    mended: str = ""
    """What was done."""

    def hours(self, now: datetime) -> float:
        """How long it is or was out; never less than nothing, whatever the clock was set to meanwhile."""
        return max(0.0, ((self.ended_at or now) - self.began_at) / timedelta(hours=1))


@dataclass(frozen=True, slots=True)
class ShutDay:
    """A day on which the shop stayed shut though it was to be open."""

    day: date
    words: str


@dataclass(frozen=True, slots=True)
class TimeOff:
    """Closed days that are no public holidays and were said in one breath."""

    days: tuple[date, ...]
    words: str
    """Why; nothing where they stand in the settings only."""
    is_planned: bool


def reckoned(unit: Unit, fitted: ShopSettings | None = None) -> ShopSettings:
    """The shop's settings with what is to be expected by what was counted: what a plan works with.

    ``fitted``: other settings than those in force.
    """
    fitted, seen = fitted or current_settings.read(unit), counted(unit)
    month = unit.now.astimezone(ZoneInfo(fitted.front.timezone)).month
    broken = {each.deck for each in outages(unit) if each.ended_at is None}
    expected = event_rates.learned(seen, fitted.expected, month)
    return awaiting(replace(fitted, decks=fitted.working_decks, expected=expected), broken)


def counted(unit: Unit) -> Counted:
    """Everything counted since the first box came in."""
    fitted, gone = current_settings.read(unit), outages(unit)
    zone = ZoneInfo(fitted.front.timezone)
    today = unit.now.astimezone(zone).date()
    minutes = unit.session.scalar(select(func.sum(CaptureRow.minutes))) or 0.0
    first = unit.session.scalar(select(func.min(JobRow.booked_at)))
    since = today if first is None else min(today, first.astimezone(zone).date())
    since = max(since, today - timedelta(days=_MOST_DAYS))
    shut = sum(each.day >= since for each in shut_days(unit))
    out = {deck.name for deck in fitted.working_decks if not deck.in_service}
    return Counted(
        failures=len(gone),
        play_hours=minutes / 60,
        repairs=sum(each.ended_at is not None for each in gone),
        # A deck that is gone, or was put back with the settings, is not being repaired any more.
        repair_hours=sum(each.hours(unit.now) for each in gone if each.ended_at or each.deck in out),
        shut_days=shut,
        opening_days=_opening_days(fitted, since, today) + shut,
        rush=_rush_by_month(unit, since, today, zone),
        brought=_brought(unit),
    )


def outages(unit: Unit) -> tuple[Breakdown, ...]:
    """Every breakdown, oldest first."""
    found: list[Breakdown] = []
    named = _names_of_now(current_settings.read(unit))
    for row in unit.session.scalars(select(DeckEventRow).order_by(DeckEventRow.id)):
        deck = named.get(row.deck, row.deck)
        if row.kind == OUT:
            found.append(Breakdown(deck, row.at, None, row.words))
            continue
        for place in range(len(found) - 1, -1, -1):
            if found[place].deck == deck and found[place].ended_at is None:
                found[place] = replace(found[place], ended_at=row.at, mended=row.words)
                break
    return tuple(found)


def _names_of_now(settings: ShopSettings) -> dict[str, str]:
    """What decks were called before, but for names that another deck has now."""
    taken = {deck.name for deck in settings.decks}
    return {old: deck.name for deck in settings.decks for old in deck.formerly if old not in taken}


def shut_days(unit: Unit) -> tuple[ShutDay, ...]:
    """Days the shop stayed shut unplanned and that were not taken back, oldest first."""
    last = sorted(day_events.latest(unit).items())
    return tuple(ShutDay(day, event.words) for day, event in last if event.kind == day_events.SHUT)


def days_off(unit: Unit) -> tuple[TimeOff, ...]:
    """The shop's own closed days with their reasons, oldest first."""
    last = day_events.latest(unit)
    found: dict[tuple[object, ...], TimeOff] = {}
    for day in sorted(current_settings.read(unit).closed_days):
        said = last.get(day)
        key = (day,) if said is None else (said.kind, said.words, said.at)
        words, is_planned = ("", True) if said is None else (said.words, said.kind != day_events.SHUT)
        before = found.get(key, TimeOff((), words, is_planned))
        found[key] = replace(before, days=(*before.days, day))
    return tuple(found.values())


def between(
    gone: Sequence[Breakdown], made_at: datetime, ready_at: datetime, zone: ZoneInfo
) -> Iterator[str]:
    """What broke down while a box was in the shop, one phrase each."""
    for each in gone:
        if each.began_at < ready_at and (each.ended_at is None or each.ended_at > made_at):
            began = locale_figures.day(each.began_at.astimezone(zone).date())
            yield say(
                "decks", "broke_down", deck=each.deck, day=began, reason=each.words, given=len(each.words)
            )


@lru_cache(maxsize=8)
def _opening_days(fitted: ShopSettings, since: date, today: date) -> int:
    """Planned opening days from ``since`` up to yesterday."""
    return (
        len(opening_hours.calendar(fitted, since, max((today - since).days, 1)).days) if today > since else 0
    )


def _brought(unit: Unit) -> tuple[tuple[FormatName, int], ...]:
    newest = unit.session.scalars(select(TapeRow.draft).order_by(TapeRow.id.desc()).limit(NEWEST))
    return tuple(sorted(Counter(draft.format for draft in newest).items()))


def _rush_by_month(unit: Unit, since: date, today: date, zone: ZoneInfo) -> tuple[RushMonth, ...]:
    boxes: dict[int, int] = defaultdict(int)
    tapes: dict[int, int] = defaultdict(int)
    rows = unit.session.execute(
        select(JobRow.booked_at, func.count(TapeRow.id))
        .join(TapeRow, TapeRow.job_id == JobRow.id)
        .where(JobRow.rush)
        .group_by(JobRow.id, JobRow.booked_at)
    )
    for booked_at, count in rows:
        day = booked_at.astimezone(zone).date()
        if since <= day:
            boxes[day.month] += 1
            tapes[day.month] += count
    return tuple(
        RushMonth(month, boxes[month], tapes[month], days / 7)
        for month, days in sorted(_days_by_month(since, today).items())
    )


@lru_cache(maxsize=8)
def _days_by_month(since: date, today: date) -> dict[int, int]:
    found: dict[int, int] = defaultdict(int)
    for n in range((today - since).days):
        found[(since + timedelta(days=n)).month] += 1
    return found
