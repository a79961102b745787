"""When work really begins, and the break: quarters of an hour in which hardly anybody records anything.

On days with enough to do, the work on tapes recorded in each quarter of an hour of the clock is counted over
all the days on which the shop was open then. The rate of a quarter is a gamma belief that begins at the
rate of the whole day, worth `_WORTH` days. Where it falls below `_QUIET` of the usual, nobody works: at the
beginning of the day, work begins later than the shop opens; in between, there is a break.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from statistics import median

from core.model.stations import Station
from core.scheduling.worktime.recorded_acts import Act
from core.scheduling.worktime.work_intervals import Hours

QUARTER = 15
"""Minutes."""
_BUSY = 12
"""Moves of tapes a day from which somebody had something to do all day (an assumption)."""
_WORTH = 10.0
"""Days that the rate of the whole day is worth (an assumption): no break is believed in before about twenty
days of which nothing was recorded at that time."""
_QUIET = 0.35
"""Share of the usual rate below which nobody works (an assumption)."""
_LEAST_BREAK = 2
"""Quarters; a shorter one is none."""
_MOST_LATE = 8
"""Quarters: what is quiet longer than two hours after opening is no late beginning (an assumption)."""


@dataclass(frozen=True, slots=True)
class Presence:
    """Minutes after opening at which work begins, and the break in minutes after midnight."""

    begins_late: float = 0.0
    break_from: float = 0.0
    break_minutes: float = 0.0
    days: int = 0
    """Busy days it was counted on."""


ALWAYS_HERE = Presence()


def believed(acts: Iterable[Act], hours: Hours) -> Presence:
    """What the busy days show."""
    days: dict[date, Counter[int]] = {}
    for act in acts:
        if act.station not in (None, Station.BOOKED_IN):
            days.setdefault(act.day, Counter())[int(act.clock // QUARTER)] += 1
    busy = {day: found for day, found in days.items() if found.total() >= _BUSY}
    if not busy:
        return ALWAYS_HERE
    rates = _rates(busy, hours)
    opens = _opening(busy, hours)
    late = _late(rates, opens)
    begin, length = _break(rates, opens + late)
    return Presence(QUARTER * late, QUARTER * begin, QUARTER * length, len(busy))


def _rates(busy: Mapping[date, Counter[int]], hours: Hours) -> dict[int, float]:
    """Beside the usual rate, that of each quarter in which the shop is open."""
    seen: Counter[int] = Counter()
    watched: Counter[int] = Counter()
    for day, found in busy.items():
        is_open = set(_quarters(hours, day))
        watched.update(is_open)
        seen.update({quarter: count for quarter, count in found.items() if quarter in is_open})
    if not seen:
        return {}
    usual = median(seen[quarter] / days for quarter, days in watched.items())
    usual = usual or seen.total() / watched.total()
    return {
        quarter: (_WORTH * usual + seen[quarter]) / (_WORTH + days) / usual
        for quarter, days in sorted(watched.items())
    }


def _quarters(hours: Hours, day: date) -> Iterable[int]:
    for opens, closes in hours(day):
        yield from range(int(-(-opens // QUARTER)), int(closes // QUARTER))


def _opening(busy: Iterable[date], hours: Hours) -> int:
    """The quarter in which the shop opens on most of these days."""
    first = Counter(next(iter(_quarters(hours, day)), 0) for day in busy)
    return first.most_common(1)[0][0]


def _late(rates: Mapping[int, float], opens: int) -> int:
    late = 0
    while rates.get(opens + late, 1.0) < _QUIET:
        late += 1
    return late if late <= _MOST_LATE else 0


def _break(rates: Mapping[int, float], begin: int) -> tuple[int, int]:
    """Where the longest quiet stretch between two that are not quiet begins, and its quarters."""
    quarters = [quarter for quarter in rates if quarter >= begin]
    loud = [quarter for quarter in quarters if rates[quarter] >= _QUIET]
    pauses = [(after - before - 1, before + 1) for before, after in pairwise(loud)]
    pauses = [(length, start) for length, start in pauses if all(start + n in rates for n in range(length))]
    length, start = max(pauses, default=(0, 0))
    return (start, length) if length >= _LEAST_BREAK else (0, 0)
