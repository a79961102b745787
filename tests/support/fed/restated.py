"""What would have been stated, promise by promise, with what the record of promises taught by then.

The plan's scenarios are those of a log; from them and the promises whose day was over, each promise is stated
again in the order in which they were made. Dates change nothing in what is played when, so this is the closed
loop without living the world again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from functools import cache
from itertools import groupby
from math import floor

import numpy as np

from core.model.promise_records import Chance, Promise, Recalibrated, Recalibration
from core.promise import lateness, recalibration, recalibration_fit
from core.promise.lateness import Lateness
from core.promise.reliability import Judged
from core.promise.stated_dates import CURVE_DAYS, chances_by
from core.scheduling import opening_hours
from core.scheduling.opening_calendar import Calendar, Minutes
from core.services.promises import NEWEST
from tests.support.fed.fed_shop import CONFIDENCE, settings_of
from tests.support.fed.fed_work import MONDAY, moment
from tests.support.fed.promise_log import NEVER, Logged
from tests.support.worlds.people_at_work import DAY
from tests.support.worlds.told_worlds import STEADY

_SETTINGS = settings_of(STEADY)
"""All worlds are open at the same hours."""
_HORIZON = 500
_PAST = opening_hours.calendar(_SETTINGS, MONDAY.date(), 1_500)


def restated(records: Iterable[Logged]) -> Iterator[Logged]:
    """The records with day, chance and 90 % day as they would have been stated; a shop's in a row."""
    for _, some in groupby(records, key=lambda one: (one.world, one.seed)):
        record = _Record()
        for one in some:
            yield record.state(one)


class _Record:
    """The promises of one shop as stated again, and what became of them by any moment."""

    def __init__(self) -> None:
        self._open: list[tuple[Logged, Promise]] = []
        self._over: list[tuple[Logged, Promise]] = []
        self._known: dict[int, tuple[Lateness, ...]] = {}
        self._learned, self._at = Recalibration(), -1

    def state(self, one: Logged) -> Logged:
        """The promise as it is stated now; it is remembered."""
        calendar = _calendar(floor(one.made))
        width = recalibration.width_of(_planned(one), calendar, _now(one))
        order = recalibration.of_order(self._learn(one.made), one.tapes, one.rush, width)
        made = stated(one, order)
        self._open.append((one, made))
        return replace(one, day=_place(made.day), stated=made.stated, p90=_place(made.p90))

    def _learn(self, made: float) -> Recalibration:
        """Once a day: nothing comes due within one."""
        if floor(made) > self._at:
            self._at = floor(made)
            self._over += [each for each in self._open if _is_over(each[1], self._at)]
            self._open = [each for each in self._open if not _is_over(each[1], self._at)]
            self._over = sorted(self._over, key=lambda each: each[0].number)[-NEWEST:]
            rows = [self._shown(one, promise) for one, promise in self._over]
            self._learned = recalibration_fit.fitted([row for row in rows if row])
        return self._learned

    def _shown(self, one: Logged, promise: Promise) -> tuple[Lateness, ...]:
        if one.number in self._known:
            return self._known[one.number]
        is_ready = one.ready is not None and one.ready <= self._at
        (found,) = lateness.shown([_judged(one, promise, self._at, is_ready)], _PAST) or [()]
        if is_ready:
            self._known[one.number] = found
        return found


def stated(one: Logged, order: Recalibrated) -> Promise:
    """The date of a logged promise with its curve moved as ``order`` says."""
    calendar = _calendar(floor(one.made))
    now, at = _now(one), _planned(one)
    by, days = _curve(recalibration.moved(at, order, calendar, now), calendar, now)
    place = _first(by, CONFIDENCE)
    shown = [Chance(day, float(chance)) for day, chance in zip(days[:CURVE_DAYS], by, strict=False)]
    return Promise(
        day=None if place is None else days[place],
        stated=0.0 if place is None else float(by[place]),
        p50=_day(by, days, 0.5),
        p90=_day(by, days, 0.9),
        held_by=(),
        chances=tuple(shown),
        made_at=moment(one.made * DAY),
        recalibrated=order,
    )


def _now(one: Logged) -> float:
    return (one.made - floor(one.made)) * DAY


def _planned(one: Logged) -> Minutes:
    now = _now(one)
    return np.array([np.inf if lead >= NEVER else now + lead * DAY for lead in one.leads])


def _curve(at: Minutes, calendar: Calendar, now: float) -> tuple[Minutes, Sequence[date]]:
    first = int(np.searchsorted(calendar.day_ends, now, side="left"))
    return chances_by(at, calendar.day_ends[first:]), calendar.days[first:]


def _first(by: Minutes, chance: float) -> int | None:
    place = int(np.searchsorted(by, chance - 1e-12, side="left"))
    return place if place < len(by) else None


def _day(by: Minutes, days: Sequence[date], chance: float) -> date | None:
    place = _first(by, chance)
    return None if place is None else days[place]


@cache
def _calendar(day: int) -> Calendar:
    return opening_hours.calendar(_SETTINGS, MONDAY.date() + timedelta(days=day), _HORIZON)


def _judged(one: Logged, promise: Promise, today: int, is_ready: bool) -> Judged:
    assert promise.day is not None
    ready: datetime | None = moment(one.ready * DAY) if is_ready and one.ready is not None else None
    due = datetime.combine(promise.day + timedelta(days=1), time(), MONDAY.tzinfo)
    now = MONDAY.date() + timedelta(days=today)
    return Judged(f"{one.number}", "", promise, due, ready, ready.date() if ready else None, now)


def _is_over(promise: Promise, today: int) -> bool:
    return promise.day is not None and _place(promise.day) < today


def _place(day: date | None) -> int | None:
    return None if day is None else (day - MONDAY.date()).days
