"""Whether more comes in than the shop plays, by its own last weeks, and how unsure that makes a date.

Three comparisons, each with the chance that it is so and no whim of a few weeks: what came in for the decks
that have most to do beside all the minutes they can play, the handling of tapes beside the hours of the
people at the bench, and all that came in beside all that was played. The weeks themselves say how unsure a
mean is (normal approximation). A date behind such a queue rests on the pace of the coming weeks, which is
known from the last ones only; so finish times spread by what weeks differ, the more the further off.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import sqrt
from statistics import NormalDist, fmean, stdev

import numpy as np

from core.model import common_random_numbers
from core.model.common_random_numbers import SEED
from core.model.own_shop.settings_records import Duty, ShopSettings
from core.promise import promise_basis
from core.scheduling import opening_hours
from core.scheduling.capacity_bounds import Decks, binding
from core.scheduling.opening_calendar import Calendar, Minutes
from core.wording.messages import say

WEEKS = 8
"""So many of the newest weeks are looked at: customers change with the seasons (an assumption)."""
ENOUGH = 4
"""Fewer weeks say nothing of the next (an assumption)."""
SURE = 0.95
"""Chance from which it is said (our choice: 19 times in 20)."""
_LEAST_GROWTH = 0.05
"""Share of what was played by which more must have come in, beside being sure of it (an assumption)."""
_LEAST_SEEN = 0.25
"""Of what came in so much must have been read off the decks, else nobody reads them (an assumption)."""
_MOST_OFF = 0.5
"""Weeks that differ by more tell of holidays, not of a pace (an assumption)."""
_WEEK = 7 * 24 * 60.0
"""Minutes, by definition."""
_PACE = common_random_numbers.key("pace")
_NORMAL = NormalDist()


@dataclass(frozen=True, slots=True)
class ShopWeek:
    """Seven days of a shop, minutes."""

    came: Mapping[Decks, float] = field(default_factory=dict)
    """Play time that came in, by the places of the decks that play it."""
    handling: float = 0.0
    """Of people's time that came in."""
    played: float = 0.0

    @property
    def all_that_came(self) -> float:
        return sum(self.came.values())


@dataclass(frozen=True, slots=True)
class Backlog:
    """More comes in than is played. Hours a week."""

    by: str
    """What is short: ``decks``, ``people``, or ``shop`` where nobody can say which."""
    coming: float
    going: float
    chance: float
    """That it is so."""
    weeks: int
    decks: int = 0
    """How many of them it is, where it is decks."""
    off: float = 0.0
    """By which share weeks differ: standard deviation."""

    @property
    def sentence(self) -> str:
        """As the Counter and the owner read it."""
        coming, going = round(self.coming), round(self.going)
        return say("dates", f"backlog-{self.by}", decks=self.decks, coming=coming, going=going)


def found(weeks: Sequence[ShopWeek], settings: ShopSettings) -> Backlog | None:
    """The comparison that is surest, where it is sure enough; ``weeks`` in any order."""
    if len(weeks) < ENOUGH:
        return None
    each = [one for one in (_of_decks(weeks, settings), _of_people(weeks, settings), _of_all(weeks)) if one]
    return max((one for one in each if one.chance >= SURE), key=lambda one: one.chance, default=None)


def spread(at: Minutes, backlog: Backlog | None, calendar: Calendar, now: float) -> Minutes:
    """Finish times as unsure as the pace of a shop with a backlog: each scenario has a pace of its own.

    The spread of a finish ``w`` weeks of opening off is that of the mean pace, off ÷ √weeks seen, and that of
    the weeks to come, off ÷ √w; the middle stays. Unchanged without a backlog.
    """
    if backlog is None or not backlog.off or not len(at):
        return at
    begun = float(calendar.worked(np.array([now]))[0])
    lead = np.maximum(calendar.worked(at) - begun, 0.0)
    week = _open_minutes(calendar)
    ahead = np.maximum(np.where(np.isinf(lead), 1.0, lead) / week, 1.0)
    pace = backlog.off * np.sqrt(1 / backlog.weeks + 1 / ahead) * _normal(len(at))
    moved = calendar.when_worked(begun + lead * np.exp(pace))
    return np.where(np.isinf(at) | (lead <= 0), at, moved)


def _of_decks(weeks: Sequence[ShopWeek], settings: ShopSettings) -> Backlog | None:
    together: Counter[Decks] = Counter()
    for week in weeks:
        together.update(week.came)
    bounds = [bound for decks in together if decks and (bound := binding(together, decks))]
    if not bounds:
        return None
    most = max(bounds, key=lambda bound: bound.each)
    came = [sum(m for decks, m in week.came.items() if most.decks.issuperset(decks)) for week in weeks]
    return _compared("decks", came, len(most.decks) * _deck_week(settings), weeks, len(most.decks))


def _of_people(weeks: Sequence[ShopWeek], settings: ShopSettings) -> Backlog | None:
    basis = promise_basis.of(settings, 0)
    hours = settings.people * basis.hours_a_week
    if any(Duty.BENCH.value in each.does for each in settings.working_staff):
        hours = min(hours, sum(each.hours_a_week for each in basis.staff or ()))
    return _compared("people", [week.handling for week in weeks], 60 * hours, weeks)


def _of_all(weeks: Sequence[ShopWeek]) -> Backlog | None:
    """What came in beside what was played in the same weeks; a queue that is caught up with is none."""
    came, played = ([getattr(week, name) for week in weeks] for name in ("all_that_came", "played"))
    if fmean(played) < _LEAST_SEEN * fmean(came) or fmean(came) < (1 + _LEAST_GROWTH) * fmean(played):
        return None
    more = [each - out for each, out in zip(came, played, strict=True)]
    return Backlog(
        "shop", fmean(came) / 60, fmean(played) / 60, _chance_above(more, 0.0), len(weeks), off=_off(weeks)
    )


def _compared(
    by: str, came: Sequence[float], can: float, weeks: Sequence[ShopWeek], decks: int = 0
) -> Backlog:
    chance = _chance_above(came, can)
    return Backlog(by, fmean(came) / 60, can / 60, chance, len(weeks), decks, _off(weeks))


def _chance_above(weekly: Sequence[float], limit: float) -> float:
    """The chance that the mean of weeks like these is above a limit."""
    error = stdev(weekly) / sqrt(len(weekly))
    over = fmean(weekly) - limit
    if error <= 0:
        return float(over > 0)
    return _NORMAL.cdf(over / error)


def _off(weeks: Sequence[ShopWeek]) -> float:
    """By which share the weeks' play time differs; that of what came in where nobody reads the decks."""
    played = [week.played for week in weeks]
    told = played if fmean(played) > 0 else [week.all_that_came for week in weeks]
    return min(stdev(told) / fmean(told), _MOST_OFF) if fmean(told) > 0 else 0.0


def _deck_week(settings: ShopSettings) -> float:
    """Minutes that one deck can play in a week, time past closing included, failures left out."""
    openings = opening_hours.regular(settings)
    days = len({each.weekday for each in openings})
    return sum(each.end - each.start for each in openings) + days * float(settings.past_closing_minutes)


def _open_minutes(calendar: Calendar) -> float:
    """Minutes of opening in an average week of the calendar."""
    span = float(calendar.closes[-1] - calendar.opens[0])
    return max(1.0, float((calendar.closes - calendar.opens).sum()) / max(1.0, span / _WEEK))


def _normal(scenarios: int) -> Minutes:
    """A standard normal number for each scenario, the same for every box (Box and Muller 1958)."""
    first, second = common_random_numbers.uniforms(SEED, [_PACE, _PACE + 1], scenarios)
    return np.asarray(np.sqrt(-2 * np.log(np.maximum(first, 2.0**-53))) * np.cos(2 * np.pi * second))
