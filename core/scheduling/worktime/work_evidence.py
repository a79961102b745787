"""What was learned of the shop's work as its owner may see it: stated, counted, and planned with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, time

from core.model.own_shop.settings_records import ShopSettings
from core.scheduling.worktime.counted_waits import ENOUGH_PLAYS, FIRST_WAITS
from core.scheduling.worktime.effort_beliefs import ENOUGH, Effort
from core.scheduling.worktime.recorded_acts import TimedTask
from core.scheduling.worktime.work_learning import LearnedWork
from core.wording import locale_figures
from core.wording.messages import say

_BY_MINUTES = (TimedTask.LOOK_OVER, TimedTask.LOAD, TimedTask.UNLOAD, TimedTask.CHECK)
_MONDAY = date(2024, 1, 1)


@dataclass(frozen=True, slots=True)
class WorkEvidence:
    """One belief about the shop's work."""

    kind: str
    """``look_over``, ``repair``, …, ``person``, ``again``, ``late``, ``break``, ``wait``, ``arrivals``."""
    about: str
    at_first: float
    """What was stated or assumed: minutes, times as long as planned, a share, or hours."""
    now: float
    seen: float
    told: float
    """Of what was seen as much as bears on it."""
    lines: tuple[str, ...]


def evidence_of(work: LearnedWork, settings: ShopSettings, *, names: bool) -> tuple[WorkEvidence, ...]:
    """Every belief; ``settings`` as stated, ``names``: whether people may be told by name."""
    return tuple(_all(work, settings, names))


def _all(work: LearnedWork, settings: ShopSettings, names: bool) -> Iterator[WorkEvidence]:
    for task in TimedTask:
        yield _of_effort(task, work.efforts.get(task, Effort()), settings)
    if names and len(work.paces) > 1:
        for who, pace in work.paces:
            lines = (say("worktime", "person", **_range(pace, 1.0)), _told(pace))
            yield WorkEvidence("person", who, 1.0, pace.factor, pace.seen, pace.told, lines)
    yield _of_second_plays(work)
    yield from _of_presence(work)
    yield from _of_waits(work)
    yield from _of_arrivals(work)


def _of_effort(task: TimedTask, effort: Effort, settings: ShopSettings) -> WorkEvidence:
    stated = _stated(task, settings)
    now = (1.0 if stated is None else stated) * effort.factor
    line = _effort_line(task, effort, stated, settings)
    lines = (line, _told(effort)) if effort.seen else (line,)
    about = say("worktime", f"about-{task.value}")
    return WorkEvidence(task.value, about, stated or 1.0, now, effort.seen, effort.told, lines)


def _stated(task: TimedTask, settings: ShopSettings) -> float | None:
    """The minutes that are stated; None: repairs and copies have figures of their own, by kind."""
    if task not in _BY_MINUTES:
        return None
    if task is TimedTask.CHECK and settings.handling.whole_check:
        return 1.0
    return float(getattr(settings.handling, task.value))


def _effort_line(task: TimedTask, effort: Effort, stated: float | None, settings: ShopSettings) -> str:
    if effort.told < ENOUGH:
        if stated is None:
            return say("worktime", "effort-none-planned")
        return say("worktime", "effort-none", stated=_figure(stated))
    if stated is None:
        return say("worktime", "effort-times", **_range(effort, 1.0))
    if task is TimedTask.CHECK and settings.handling.whole_check:
        return say("worktime", "effort-whole", **_range(effort, 1.0))
    told, minutes = _range(effort, stated), stated * effort.factor
    return say("worktime", "effort-minutes", minutes=minutes, stated=_figure(stated), **told)


def _range(effort: Effort, unit: float) -> dict[str, str]:
    each = {"now": effort.factor, "low": effort.low, "high": effort.high}
    return {name: _figure(value * unit, 2 if unit == 1.0 else 1) for name, value in each.items()}


def _told(effort: Effort) -> str:
    return say("worktime", "told", told=f"{effort.told:.0f}", seen=round(effort.seen))


def _of_second_plays(work: LearnedWork) -> WorkEvidence:
    found = work.second_plays
    again, tapes = str(found.again), found.tapes
    if tapes < ENOUGH_PLAYS:
        line = say("worktime", "again-none", least=str(ENOUGH_PLAYS), again=again, tapes=tapes)
    else:
        share = locale_figures.percent(found.share)
        line = say("worktime", "again", share=share, again=again, tapes=tapes)
    about = say("worktime", "about-again")
    return WorkEvidence("again", about, 0.0, found.share, found.tapes, found.again, (line,))


def _of_presence(work: LearnedWork) -> Iterator[WorkEvidence]:
    habits, days = work.presence, work.presence.days
    late = habits.begins_late
    line = say("worktime", "late" if late else "late-none", minutes=_figure(late, 0), days=days)
    yield WorkEvidence("late", say("worktime", "about-late"), 0.0, late, days, days, (line,))
    line = say("worktime", "break-none")
    if habits.break_minutes:
        begin, end = (_clock(habits.break_from + after) for after in (0.0, habits.break_minutes))
        line = say("worktime", "break", begin=begin, end=end)
    about = say("worktime", "about-break")
    yield WorkEvidence("break", about, 0.0, habits.break_minutes, days, days, (line,))


def _of_waits(work: LearnedWork) -> Iterator[WorkEvidence]:
    for wait in work.waits:
        about = say("worktime", f"about-wait-{wait.station.value}")
        line = say("worktime", "wait", hours=_figure(wait.hours, 0), ended=wait.ended)
        first = FIRST_WAITS[wait.station]
        yield WorkEvidence("wait", about, first, wait.hours, wait.ended, wait.ended, (line,))


def _of_arrivals(work: LearnedWork) -> Iterator[WorkEvidence]:
    found = work.arrivals
    parts = {
        "weekdays": [(locale_figures.weekday(_day(part)), rate) for part, rate in found.weekdays],
        "months": [(locale_figures.short_month(date(2024, part, 1)), rate) for part, rate in found.months],
    }
    for kind, rates in parts.items():
        if rates:
            line = say("worktime", "arrivals", orders=found.orders, days=_parts(rates))
            about = say("worktime", f"about-{kind}")
            yield WorkEvidence("arrivals", about, 0.0, found.a_day, found.orders, found.days, (line,))


def _parts(rates: Sequence[tuple[str, float]]) -> str:
    each = [say("worktime", "arrivals-part", part=part, a_day=_figure(rate)) for part, rate in rates]
    return locale_figures.listed(each, "unit")


def _day(weekday: int) -> date:
    return _MONDAY.replace(day=1 + weekday)


def _clock(minutes: float) -> str:
    hour, minute = divmod(round(minutes), 60)
    return locale_figures.time_of_day(time(hour % 24, minute))


def _figure(value: float, digits: int = 1) -> str:
    return locale_figures.figure(value, digits=digits)
