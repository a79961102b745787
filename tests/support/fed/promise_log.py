"""A log of promises made to an invented shop, one record each, and what came of them.

`lived` lives one world once and asks the program at each box that comes in, with what the shop could have
known by then. `write` and `read` keep records as JSON lines (one object a line, in the order in which the
promises were made, worlds and seeds one after the other), so that a way of correcting what is stated can be
tried again and again without living the world anew: dates change nothing in which tape is played when.

A correction may use, at a promise, every earlier record of the same world and seed with what was known by
``made``: that the box was ready, where ``ready < made``, and else that it was not ready yet.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import asdict, dataclass, replace
from datetime import date
from functools import cache
from math import floor, inf
from pathlib import Path
from typing import Any
from unittest.mock import patch

import numpy as np

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import ShopSettings
from core.promise import backlogs, turnaround
from core.promise.stated_dates import chances_by
from core.promise.turnaround import Load
from core.scheduling import opening_hours
from core.scheduling.opening_calendar import Calendar, Minutes
from tests.support.fed.fed_shop import CONFIDENCE, FedShop, settings_of
from tests.support.fed.fed_work import MONDAY, moment
from tests.support.worlds.living_shop import LivingShop
from tests.support.worlds.people_at_work import DAY
from tests.support.worlds.shop_lives import Box, World
from tests.support.worlds.told_worlds import STEADY

SCENARIOS = 300
"""Fewer than the program draws (1,000 to 200, by the length of the queue): a year then costs some seconds."""
NEVER = 1e6
"""Days."""
_CERTAIN = 0.9999
_ASKED_IN_FULL = 20
"""Of so many promises one is asked for as the Counter asks, to hold the log to it."""
_WORKED_OUT = opening_hours.calendar
_FINE = 1e5
"""Parts of a day in which a lead is told, rounded down: what is done by a closing stays so."""


@dataclass(frozen=True, slots=True)
class Logged:
    """One promise and what came of it. Days are counted from day 0 of the world, a Monday."""

    world: str
    seed: int
    number: int
    """From 1, in the order in which this shop made its promises: one for every box."""
    made: float
    """Days; the fraction is the time of day."""
    tapes: int
    decks: str
    """The kind of deck that has most of the box's likely minutes."""
    rush: bool
    queue: int
    """Tapes that wait for a deck of any kind."""
    ahead: float
    """Likely hours of play for each deck of that kind: what stands before the box, and its own."""
    grows: bool
    """Whether the program says that more comes in than is played."""
    days: tuple[int, ...]
    """Opening days from the day it was made on (whole numbers), until the model is as good as certain."""
    by: tuple[float, ...]
    """The model's chance that the box is ready by the close of each of these days."""
    leads: tuple[float, ...]
    """Days from coming in to being ready, in each scenario of the model, rising; `NEVER`: it is not."""
    model_day: int | None
    """The first day good enough by the model alone, and its chance there."""
    model_stated: float
    day: int | None
    """What was said to the customer, after whatever the program corrects by the record of its promises."""
    stated: float
    p90: int | None
    """The first day that is kept nine times in ten, as it was said."""
    ready: float | None
    """Days; None: not by the end of the world."""

    @property
    def kept(self) -> bool:
        return self.day is not None and self.ready is not None and floor(self.ready) <= self.day


def write(records: Iterable[Logged], path: Path) -> None:
    """Adds the records to a file of JSON lines."""
    with path.open("a", encoding="utf-8") as file:
        for record in records:
            file.write(json.dumps(asdict(record)) + "\n")


def read(path: Path) -> Iterator[Logged]:
    """The records of a file of JSON lines."""
    with path.open(encoding="utf-8") as file:
        for line in file:
            found = json.loads(line)
            lists = {name: tuple(found[name]) for name in ("days", "by", "leads")}
            yield Logged(**(found | lists))


def lived(world: World, seed: int) -> list[Logged]:
    """One life of a world, a record for each box that came in on a day that counts."""
    book = _Book(world, seed)
    with (
        patch.object(turnaround, "SCENARIOS", ((10**9, SCENARIOS),)),
        patch.object(opening_hours, "calendar", _calendar),
    ):
        LivingShop(world, seed, book.ask).live()
    return [
        replace(record, ready=round(box.done / DAY, 4) if box.done < inf else None)
        for record, box in zip(book.logged, book.boxes, strict=True)
    ]


class _Book:
    """Asks the program at each box, and remembers what it said."""

    def __init__(self, world: World, seed: int) -> None:
        self._world, self._seed = world, seed
        self._fed = FedShop(world)
        self.logged: list[Logged] = []
        self.boxes: list[Box] = []

    def ask(self, shop: LivingShop, box: Box) -> None:
        if shop.now >= self._world.days * DAY:
            self._fed.tell(box)
            return
        self._fed.look(shop)
        tapes = self._fed.tell(box)
        settings, now = self._fed.settings(shop), moment(shop.now)
        grows = backlogs.found(self._fed.weeks(shop), settings)
        load = turnaround.load(settings, self._fed.queue(shop), now, backlog=grows)
        copying = self._fed.copying_minutes
        habits = self._fed.habits
        finish, _ = turnaround.behind(load, tapes, box.rush, habits, copying_minutes=copying)
        self.boxes.append(box)
        self.logged.append(self._logged(shop, box, load, finish.at))
        if len(self.logged) % _ASKED_IN_FULL == 1:
            made = turnaround.promise(load, tapes, box.rush, None, habits, copying_minutes=copying)
            one = self.logged[-1]
            assert (one.day, one.stated, one.p90) == (_place(made.day), made.stated, _place(made.p90))

    def _logged(self, shop: LivingShop, box: Box, load: Load, at: Minutes) -> Logged:
        first = int(np.searchsorted(load.calendar.day_ends, load.now, side="left"))
        by = chances_by(at, load.calendar.day_ends[first:])
        certain = int(np.searchsorted(by, _CERTAIN)) + 1
        place = int(np.searchsorted(by, CONFIDENCE - 1e-12))
        day = _place(load.calendar.days[first + place]) if place < len(by) else None
        chance = float(by[place]) if place < len(by) else 0.0
        kind, ahead = _ahead(shop, box)
        return Logged(
            world=self._world.name,
            seed=self._seed,
            number=len(self.logged) + 1,
            made=round(shop.now / DAY, 7),
            tapes=len(box.tapes),
            decks=kind,
            rush=box.rush,
            queue=load.tapes_waiting,
            ahead=round(ahead / 60, 3),
            grows=load.backlog is not None,
            days=tuple(_place(day) for day in load.calendar.days[first : first + certain]),
            by=tuple(round(float(each), 4) for each in by[:certain]),
            leads=_leads(at - load.now),
            model_day=day,
            model_stated=chance,
            day=day,
            stated=chance,
            p90=day,
            ready=None,
        )


def _calendar(settings: ShopSettings, first_day: date, days: int = opening_hours.HORIZON_DAYS) -> Calendar:
    """As the program works it out, remembered for longer: hours of a world never change."""
    return _calendars(settings.openings, settings.closed_days, first_day, days)


@cache
def _calendars(
    openings: tuple[OpeningHours, ...], closed: frozenset[date], first_day: date, days: int
) -> Calendar:
    plain = replace(settings_of(STEADY), openings=openings, closed_days=closed)
    return _WORKED_OUT(plain, first_day, days)


def _leads(minutes: Minutes) -> tuple[float, ...]:
    found = np.where(np.isfinite(minutes), np.floor(np.sort(minutes) / DAY * _FINE) / _FINE, NEVER)
    return tuple(float(each) for each in found)


def _ahead(shop: LivingShop, box: Box) -> tuple[str, float]:
    """The kind of deck with most of the box's minutes, and minutes of work for each deck of that kind."""
    mine: Counter[frozenset[str]] = Counter()
    for plays in set(shop.world.decks):
        mine[plays] += sum(tape.likely for tape in box.tapes if tape.new.format in plays)
    plays, minutes = max(mine.items(), key=lambda kind: (kind[1], sorted(kind[0])))
    before = sum(tape.likely for tape in shop.waiting if tape.new.format in plays)
    return "+".join(sorted(plays)), (before + minutes) / shop.world.decks.count(plays)


def _place(day: date | None) -> Any:
    return None if day is None else (day - MONDAY.date()).days
