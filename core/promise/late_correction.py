"""The guard on a date: when boxes keep running late, dates move out until the stated chance is true again.

The model is asked first and bettered first; the guard is for what it does not know. The rule: it acts only
while `reliability` alarms (the last tenth of the curves holds more than twice its share) and at least 80
promises are judged. Then every date, and the whole curve with it, is set so many times as far off as the
newest 150 promises, those overdue among them, ran over theirs.

Acting all the time, as adaptive rules do, doubled the slack of a model that was right (derived: measured on a
prototype), and its feedback is late: early finishers come first. So promises are judged by their day, not by
their finish.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from datetime import date, timedelta
from math import ceil, inf

from core.model.promise_records import Chance, Promise
from core.promise.reliability import Reliability
from core.wording import locale_figures
from core.wording.messages import say

FEWEST = 80
"""Promises before a date is moved (an assumption)."""
NEWEST = 150
"""Promises looked back on (an assumption)."""
MOST = 3.0
"""A date is never set more than three times as far off: then the model is to be mended, not guarded
(our choice)."""


def factor(found: Reliability) -> float:
    """How many times as far off a date is to be set; 1 while the alarm is silent."""
    newest = found.judged[-NEWEST:]
    if not found.alarms or len(newest) < FEWEST:
        return 1.0
    stated = sum(each.promise.stated for each in newest) / len(newest)
    return min(max(1.0, conformal([each.lead_ratio for each in newest], stated)), MOST)


def conformal(scores: Sequence[float], level: float) -> float:
    """The score that the next one does not exceed with at least the chance ``level``; infinite for too few.

    Split conformal: the ⌈(n + 1) level⌉-th smallest of n exchangeable scores; the chance is then at most
    1 ÷ (n + 1) above the level (Lei et al., JASA 113 (2018) 1094, from memory).
    """
    place = ceil((len(scores) + 1) * level - 1e-9)
    return sorted(scores)[place - 1] if 1 <= place <= len(scores) else inf


def guarded(promise: Promise, times: float, days: Sequence[date]) -> Promise:
    """The promise with its day and its curve ``times`` as far off, on the opening ``days`` in order.

    The stated chance stays: so often the day further off was kept. Unchanged at 1, or when there is no day.
    """
    if times <= 1 or promise.day is None or not days:
        return promise
    made_on = promise.made_at.date()

    def moved(day: date) -> date:
        lead = (day - made_on).days + 1
        wanted = made_on + timedelta(days=ceil(lead * times) - 1)
        return days[min(bisect_left(days, wanted), len(days) - 1)]

    curve: dict[date, float] = {}
    for chance in promise.chances:
        curve[moved(chance.day)] = chance.by
    return replace(
        promise,
        day=moved(promise.day),
        p50=moved(promise.p50) if promise.p50 else None,
        p90=moved(promise.p90) if promise.p90 else None,
        chances=tuple(Chance(day, by) for day, by in sorted(curve.items())),
        held_by=(*promise.held_by, _why(times)),
    )


def _why(times: float) -> str:
    return say("dates", "runs_late", percent=locale_figures.percent(max(times - 1, 0.01)))
