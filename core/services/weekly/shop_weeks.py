"""What came in and what was played in each of the last weeks."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta

from sqlalchemy import func, select

from core.model.inventory import TapeLine
from core.model.own_shop.settings_records import ShopSettings
from core.model.ranges import Range
from core.model.repair_records import Verdict
from core.promise import backlogs
from core.promise.backlogs import WEEKS, Backlog, ShopWeek
from core.scheduling.capacity_bounds import Decks
from core.scheduling.deck_choice import suited
from core.store.tables import CaptureRow, JobRow, TapeRow
from core.store.unit import Unit

_WEEK = timedelta(days=7)


def backlog(unit: Unit, settings: ShopSettings) -> Backlog | None:
    """Whether more comes in than this shop plays; ``settings`` as dates are made from."""
    return backlogs.found(read(unit, settings), settings)


def read(unit: Unit, settings: ShopSettings) -> tuple[ShopWeek, ...]:
    """The newest whole weeks since the first order, newest first."""
    first = unit.session.scalar(select(func.min(JobRow.booked_at)))
    count = 0 if first is None else min(WEEKS, (unit.now - first) // _WEEK)
    if count < backlogs.ENOUGH:
        return ()
    since = unit.now - count * _WEEK
    came: list[dict[Decks, float]] = [{} for _ in range(count)]
    handling, played = [0.0] * count, [0.0] * count
    each = settings.handling
    for booked_at, draft, verdict, minutes in _arrivals(unit, since):
        week = _place(unit.now, booked_at, count)
        decks = suited(settings.decks, draft.format, draft.recorded_as, draft.tv, draft.speed).decks
        came[week][decks] = came[week].get(decks, 0.0) + minutes
        repairs = settings.worked.repair * verdict.bench_minutes
        handling[week] += each.look_over + each.load + each.unload + each.check_of(minutes) + repairs
    for at, minutes in unit.session.execute(
        select(CaptureRow.at, CaptureRow.minutes).where(CaptureRow.at >= since, CaptureRow.at <= unit.now)
    ):
        played[_place(unit.now, at, count)] += minutes
    return tuple(ShopWeek(*week) for week in zip(came, handling, played, strict=True))


def _arrivals(unit: Unit, since: datetime) -> Iterator[tuple[datetime, TapeLine, Verdict, float]]:
    """Tapes to be played that came in since then and stand in their orders, with their minutes."""
    rows = unit.session.execute(
        select(JobRow.booked_at, TapeRow.draft, TapeRow.verdict, TapeRow.minutes, TapeRow.played_minutes)
        .join(TapeRow, TapeRow.job_id == JobRow.id)
        .where(JobRow.booked_at >= since, JobRow.booked_at <= unit.now, TapeRow.left_out_in.is_(None))
    )
    for booked_at, draft, verdict, minutes, exact in rows:
        if verdict.is_worked_on:
            yield booked_at, draft, verdict, _mean(minutes) if exact is None else exact


def _place(now: datetime, at: datetime, count: int) -> int:
    """Which week, counted back from now; what is exactly a week old is of the newest one."""
    return min(max(-((at - now) // _WEEK) - 1, 0), count - 1)


def _mean(minutes: Range) -> float:
    """The mean of a range by its three percentiles (Swanson's rule, from memory)."""
    return 0.3 * minutes.low + 0.4 * minutes.likely + 0.3 * minutes.high
