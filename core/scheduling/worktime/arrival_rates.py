"""How many orders come in on each weekday and in each month, beside the usual day.

Each is a gamma belief about a rate that begins at the rate of the whole time, worth four weeks of watching
(as `core.scheduling.event_rates` begins the rush orders of a month).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from core.scheduling.worktime.recorded_acts import Act
from core.scheduling.worktime.work_intervals import Hours

_WORTH_WEEKS = 4.0


@dataclass(frozen=True, slots=True)
class Arrivals:
    """Orders on an opening day: on average, by weekday (0 is Monday) and by month (1 is January)."""

    orders: int = 0
    days: int = 0
    """Opening days watched."""
    a_day: float = 0.0
    weekdays: tuple[tuple[int, float], ...] = ()
    months: tuple[tuple[int, float], ...] = ()


NO_ARRIVALS = Arrivals()


def believed(acts: Iterable[Act], hours: Hours, today: date) -> Arrivals:
    """The orders taken in from the first one up to yesterday."""
    orders = Counter(act.day for act in acts if act.books and act.day < today)
    if not orders:
        return NO_ARRIVALS
    first = min(orders)
    span = (first + timedelta(days=n) for n in range((today - first).days))
    opened = [day for day in span if hours(day) or orders[day]]
    usual = orders.total() / len(opened)
    weekdays = _rates([(day.weekday(), orders[day]) for day in opened], usual, 1.0)
    months = _rates([(day.month, orders[day]) for day in opened], usual, len(opened) / _weeks(first, today))
    return Arrivals(orders.total(), len(opened), usual, weekdays, months)


def _weeks(first: date, today: date) -> float:
    return max(1.0, (today - first).days / 7)


def _rates(
    days: Iterable[tuple[int, int]], usual: float, days_a_week: float
) -> tuple[tuple[int, float], ...]:
    """Orders a day for each part of the week or year, of (part, orders) of every opening day."""
    watched: Counter[int] = Counter()
    came: Counter[int] = Counter()
    for part, orders in days:
        watched[part] += 1
        came[part] += orders
    worth = _WORTH_WEEKS * days_a_week
    return tuple((part, (worth * usual + came[part]) / (worth + watched[part])) for part in sorted(watched))
