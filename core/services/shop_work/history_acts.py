"""The history as acts of people: who recorded what when, without a word of any customer.

Lines are read once and remembered while the shop is open; what was erased is forgotten with its order.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any, cast
from zoneinfo import ZoneInfo

from sqlalchemy import select

from core.model.copies.copy_records import CopyStepKind
from core.model.own_shop.copying_minutes import CopyingMinutes
from core.model.own_shop.settings_records import ShopSettings
from core.model.stations import Station
from core.pricing import copy_minutes
from core.scheduling.worktime.recorded_acts import Act
from core.store import history, row_digests
from core.store.audits import copy_audit
from core.store.tables import CopyRow, CopyStepRow, EventRow, TapeRow
from core.store.unit import Unit

WINDOW = 16_000
"""So many of the newest lines are looked at, some eight thousand acts: people and customers change with the
years (an assumption)."""
_PACE = 100
"""Lines after which it is looked again: plans need not change with every move."""
_FORGOTTEN = 2_000
"""Lines that leave the window at once."""
_KEY = "history_acts"
_STATIONS = {each.value: each for each in Station}
_HALVES = (CopyStepKind.MADE, CopyStepKind.CHECKED)
"""Each takes half of the minutes of a copy (an assumption)."""


@dataclass(frozen=True, slots=True)
class History:
    """The acts of the lines ``first`` to ``last``, oldest first."""

    first: int
    last: int
    acts: tuple[Act, ...] = ()
    read_with: object = None
    """What of the settings they were read with."""


def read(unit: Unit, settings: ShopSettings) -> History:
    """The acts of the newest lines; ``settings`` tell the clock on the wall and the minutes of copies."""
    last = history.latest(unit) // _PACE * _PACE
    first = max(0, (last - WINDOW) // _FORGOTTEN * _FORGOTTEN)
    kept = cast("History | None", unit.memory.get(_KEY))
    read_with = settings.front.timezone, settings.copying
    if kept is not None and (kept.first, kept.last, kept.read_with) == (first, last, read_with):
        return kept
    if kept is None or (kept.first, kept.read_with) != (first, read_with) or last < kept.last:
        kept = History(first, first, read_with=read_with)
    found = History(first, last, kept.acts + _acts(unit, settings, kept.last, last), read_with)
    if _was_erased(unit, kept.last, last):
        found = History(first, last, _acts(unit, settings, first, last), read_with)
    unit.memory[_KEY] = found
    return found


def _was_erased(unit: Unit, after: int, last: int) -> bool:
    erased = select(EventRow.seq).where(
        EventRow.seq > after, EventRow.seq <= last, EventRow.kind == history.ERASED
    )
    return unit.session.scalars(erased.limit(1)).first() is not None


def _acts(unit: Unit, settings: ShopSettings, after: int, last: int) -> tuple[Act, ...]:
    """The acts of the lines after ``after`` up to ``last``."""
    lines = unit.session.execute(
        select(EventRow.kind, EventRow.job, EventRow.tape, EventRow.payload, EventRow.at, EventRow.by)
        .where(EventRow.seq > after, EventRow.seq <= last, EventRow.kind != row_digests.KIND)
        .order_by(EventRow.seq)
    ).all()
    told = [(line, history.payload_of(line.payload)) for line in lines]
    zone = ZoneInfo(settings.front.timezone)
    repairs, copies = _repairs(unit, told), _copies(unit, told, settings.copying)
    return tuple(_act(line, said, zone, repairs, copies) for line, said in told)


def _act(
    line: Any,
    said: Mapping[str, Any],
    zone: ZoneInfo,
    repairs: Mapping[str, float],
    copies: Mapping[int, float],
) -> Act:
    local = line.at.astimezone(zone)
    copy = copies.get(said.get("copy_step", 0)) if line.kind == copy_audit.KIND else None
    return Act(
        at=line.at.timestamp() / 60,
        day=local.date(),
        clock=_minutes(local),
        who=line.by,
        about=line.tape or line.job or "",
        station=_STATIONS.get(str(said.get("station"))) if line.tape else None,
        deck=str(said.get("deck") or ""),
        played=float(said.get("played_minutes") or 0.0),
        planned=repairs.get(line.tape or "", 0.0) if copy is None else copy,
        books=line.kind == "booked",
        copies=copy is not None,
    )


def _minutes(local: datetime) -> float:
    return 60 * local.hour + local.minute + local.second / 60


def _repairs(unit: Unit, told: Sequence[tuple[Any, Mapping[str, Any]]]) -> dict[str, float]:
    """By tape that was at the bench: the minutes that its repairs were to take."""
    there = Station.AT_THE_BENCH.value
    codes = {line.tape for line, said in told if line.tape and said.get("station") == there}
    if not codes:
        return {}
    rows = unit.session.execute(select(TapeRow.code, TapeRow.verdict).where(TapeRow.code.in_(codes)))
    return {code: verdict.bench_minutes for code, verdict in rows}


def _copies(
    unit: Unit, told: Sequence[tuple[Any, Mapping[str, Any]]], times: CopyingMinutes
) -> dict[int, float]:
    """By step that made or checked a copy: the minutes it was to take."""
    steps = {said.get("copy_step") for line, said in told if line.kind == copy_audit.KIND}
    if not steps:
        return {}
    rows = unit.session.execute(
        select(CopyStepRow.id, CopyRow.code, CopyRow.pieces)
        .join(CopyRow, CopyRow.id == CopyStepRow.copy_id)
        .where(CopyStepRow.id.in_(steps), CopyStepRow.kind.in_(_HALVES))
    )
    return {
        step: copy_minutes.of_pieces(times, code, pieces or 1) / len(_HALVES) for step, code, pieces in rows
    }
