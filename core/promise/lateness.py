"""How late orders were beside the days that were told of them, as the plan alone had those days.

A promise tells of two days, each with its chance: the promised one, and the one that was even odds.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from math import log

import numpy as np

from core.model.promise_records import USUAL_WIDTH, Promise
from core.promise import recalibration, shop_minutes
from core.promise.reliability import Judged, pit_histogram
from core.scheduling.opening_calendar import Calendar

_LEAST_LEAD = 10.0
"""Shop minutes; nothing is promised sooner."""
_HAIR = 1e-9


@dataclass(frozen=True, slots=True)
class Lateness:
    """How one order did beside one day of its curve."""

    level: float
    """The chance that was stated for the day."""
    ratio: float
    """Logarithm of the lead it took over the lead to that day as the plan alone had it."""
    is_open: bool
    """It is not ready yet: the ratio is a lower bound."""
    tapes: int | None
    """What it was about; None is not known."""
    rush: bool
    width: float = USUAL_WIDTH
    """How unsure the plan was (see `Recalibrated.width`)."""
    is_even: bool = False
    """Beside the day that was even odds, not the promised one."""
    made: float = 0.0
    """When the promise was made, and the lead it allowed: shop minutes."""
    allowed: float = 0.0


def shown(judged: Sequence[Judged], calendar: Calendar) -> list[tuple[Lateness, ...]]:
    """What each promise shows that was made within the calendar, the promised day first."""
    found = (tuple(_outcomes(one, calendar)) for one in judged if one.promise.made_at >= calendar.start)
    return [each for each in found if each]


def tenths_of_plans(judged: Sequence[Judged], calendar: Calendar) -> tuple[float, ...]:
    """Share of the promises that came true in each tenth of the curve that the plan alone had."""
    told = [_place_in_plan(one, calendar) for one in judged if one.promise.made_at >= calendar.start]
    return tuple(float(share) for share in pit_histogram(told))


def _outcomes(judged: Judged, calendar: Calendar) -> Iterator[Lateness]:
    """How it did beside the promised day, and beside the day that was even odds where that is another."""
    promise = judged.promise
    yield from _outcome(judged, calendar, promise.day, promise.stated)
    if promise.p50 is not None and promise.p50 != promise.day:
        even = _outcome(judged, calendar, promise.p50, _chance(promise, promise.p50))
        yield from (replace(each, is_even=True) for each in even)


def _outcome(judged: Judged, calendar: Calendar, day: date | None, level: float) -> Iterator[Lateness]:
    if day is None or not 0 < level <= 1 or not len(calendar.opens):
        return
    promise, zone = judged.promise, judged.due_at.tzinfo
    made, over = calendar.at(promise.made_at), datetime.combine(day + timedelta(days=1), time(), zone)
    begun = _passed(calendar, made)
    allowed = max(shop_minutes.closed_by(calendar, calendar.at(over)) - begun, _LEAST_LEAD)
    ready = judged.ready_at or datetime.combine(judged.today, time(), zone)
    took = max(_passed(calendar, calendar.at(ready)) - begun, 1.0)
    is_late = judged.ready_at is None or judged.ready_at >= over
    took = max(took, allowed + 1.0) if is_late else min(took, allowed)  # as the day itself judges it
    about = promise.recalibrated
    shift = about.at(recalibration.score(level)) if about else 0.0
    yield Lateness(
        level=level,
        ratio=log(took / allowed) + shift,
        is_open=judged.ready_at is None,
        tapes=about.tapes if about else None,
        rush=about.rush if about else False,
        width=(about.width if about else None) or USUAL_WIDTH,
        made=begun,
        allowed=allowed,
    )


def _place_in_plan(judged: Judged, calendar: Calendar) -> tuple[float, float]:
    """The chances of the plan between which the outcome lies: a lead has the chance of the moved one."""
    outcomes = [
        (chance.by, outcome.ratio)
        for chance in judged.promise.chances
        if judged.ready_at is not None or chance.day < judged.today
        for outcome in _outcome(judged, calendar, chance.day, chance.by)
    ]
    before = max((by for by, ratio in outcomes if ratio > 0), default=0.0)
    after = min((by for by, ratio in outcomes if ratio <= 0), default=1.0)
    return min(before, 1 - _HAIR), max(after, _HAIR)


def _passed(calendar: Calendar, moment: float) -> float:
    found = float(shop_minutes.passed(calendar, np.array([moment]))[0])
    return found if np.isfinite(found) else float(shop_minutes.closed_by(calendar, moment))


def _chance(promise: Promise, day: date) -> float:
    return next((chance.by for chance in promise.chances if chance.day == day), 0.0)
