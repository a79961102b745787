"""Promises of the program against years that were lived without it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, replace
from datetime import date
from enum import Enum

import numpy as np

from core.model.own_shop.opening_records import OpeningHours
from core.model.own_shop.settings_records import Expected, ShopSettings
from core.model.ranges import Range
from core.playtime.tape_minutes import belief
from core.promise import turnaround
from core.scheduling.plan_records import estimate
from tests.support.shops import FRONT, deck
from tests.support.told import Records, moment, told_lengths
from tests.support.worlds import shop_year, tape_world
from tests.support.worlds.shop_year import Box, House, Luck, NewTape, Year

OPENINGS = (*(OpeningHours(day, 540, 1080) for day in range(5)), OpeningHours(5, 600, 840))
FORMATS = {"vhs": 0.5, "hi8": 0.3, "minidv": 0.2}
DECKS = (("vhs",), ("vhs",), ("vhs",), ("hi8",), ("hi8",), ("minidv",))
RANGES = (Range(40, 105, 119), Range(25, 60, 118), Range(55, 118, 320), Range(30, 55, 63))
HABIT = 0.6
WARM_UP = 30
"""Days at first whose promises do not count: the shop begins empty."""


@dataclass(frozen=True, slots=True)
class Given:
    """One promise and what came of it. Times in days."""

    stated: float
    kept: bool
    came: float
    lead: float
    """From coming in to being ready."""
    p90: float
    """The lead that nine of ten scenarios keep."""
    ahead: float
    """As in `Came`."""


@dataclass(frozen=True, slots=True)
class Came:
    """One box, promised or not. Times in days."""

    came: float
    lead: float
    ahead: float
    """Likely hours of work before it and in it, for each deck of the format that has most."""


@dataclass(frozen=True, slots=True)
class World:
    """A kind of year: the shop's people and luck, what is told of it to the program, and what boxes hold."""

    people: int
    luck: Luck
    expected: Expected
    """What the owner states of troubles."""
    content: Callable[[np.random.Generator, bool], list[NewTape]]


def as_believed(dice: np.random.Generator, rush: bool) -> list[NewTape]:
    """A box whose tapes are as long as is believed, and follow their box as is believed."""
    count = int(dice.geometric(1 / (4 if rush else 9)))
    common, found = dice.random(), []
    format = str(dice.choice(list(FORMATS), p=list(FORMATS.values())))
    for _ in range(count):
        minutes = RANGES[int(dice.integers(len(RANGES)))]
        uniform = common if dice.random() < HABIT else dice.random()
        below = max(0.0, minutes.low - (minutes.likely - minutes.low) / 4)
        above = minutes.high + (minutes.high - minutes.likely) / 4
        knots = [below, minutes.low, minutes.likely, minutes.high, above]
        true = float(np.interp(uniform, [0, 0.1, 0.5, 0.9, 1], knots))
        found.append(NewTape(format, estimate(minutes), minutes.likely, true, minutes))
    return found


def as_households_bring(dice: np.random.Generator, rush: bool) -> list[NewTape]:
    """A box of one household, which may have recorded everything at the slowest speed."""
    while True:
        tapes = tape_world.tapes(tape_world.USUAL, 40, dice)
        mine = [tape for tape in tapes if tape.job == tapes[0].job and tape.line.format in FORMATS]
        if mine:
            break
    found = []
    for tape in mine:
        minutes = belief(tape.line, None).range
        found.append(NewTape(tape.line.format, estimate(minutes), minutes.likely, tape.minutes, tape))
    return found


RIGHT = World(2, Luck(boxes_a_day=2.6), Expected(), as_believed)
ALL_TOGETHER = World(
    2,
    Luck(1.3, rush_boxes_a_day=0.15, between_failures=6_000.0, repair=1_080.0, closures=0.015),
    Expected(100.0, 18.0, 0.9, 6.2, 0.015),
    as_households_bring,
)
"""A quiet shop: two thirds of what the busiest decks can do. The boxes of its households hold 6.2 tapes on
average (derived: of 1,500 drawn)."""
BUSY = replace(ALL_TOGETHER, luck=replace(ALL_TOGETHER.luck, boxes_a_day=1.65))
"""The same shop with a queue, as the trade has it: some 85 % of what the busiest decks can do (common
practice, no source; chosen before any promise was asked for)."""


class Way(Enum):
    """A program that is asked. All are asked for the same boxes of the same year."""

    AS_IT_IS = "as it is"
    """The owner has stated how often troubles come; what the shop counts corrects that."""
    COUNTING = "nothing stated"
    """The owner has stated nothing, and the shop counts from its first day on."""
    HEEDLESS = "heedless"
    """It reckons with no trouble at all."""
    TOLD = "told every length"
    """As it is, and it knows how long every tape plays: how sharp dates were if tapes could be measured."""


@dataclass(frozen=True, slots=True)
class Lived:
    """What one year gave: the promises of each program, all boxes, how much of the busiest decks was used."""

    given: Mapping[Way, list[Given]]
    boxes: Sequence[Came]
    used: float


def lived(world: World, seed: int, ways: Sequence[Way], days: int = 300, every: int = 1) -> Lived:
    """One year, each program asked for every so many boxes; what never came to an end counts as missed."""
    book = _Book(world, every, ways)
    one = Year(_house(world), world.luck, world.content, book.ask, seed, days)
    one.live()
    boxes = [Came(*_times(box), ahead) for box, ahead in book.came]
    given = {way: [_given(*each) for each in promised] for way, promised in book.promised.items()}
    return Lived(given, boxes, one.share_used())


def _house(world: World) -> House:
    hours = [(540.0, 1080.0)] * 5 + [(600.0, 840.0), None]
    return House([frozenset(plays) for plays in DECKS], hours, 60.0, world.people)


class _Book:
    """Asks each program for a promise and remembers it."""

    def __init__(self, world: World, every: int, ways: Sequence[Way]) -> None:
        self.records = Records(_fittings(world))
        self.world = world
        self.every = every
        self.promised: dict[Way, list[_Asked]] = {way: [] for way in ways}
        self.came: list[tuple[Box, float]] = []

    def ask(self, now: float, lived: Year, box: Box) -> None:
        self.records.learn(now, lived, box)
        if now < WARM_UP * shop_year.DAY:
            return
        ahead = _ahead(lived, box) / 60
        self.came.append((box, ahead))
        if box.number % self.every:
            return
        for way, promised in self.promised.items():
            with told_lengths(lived, box) if way is Way.TOLD else nullcontext():
                promised.append((box, *self._promised(now, lived, box, way), ahead))

    def _promised(self, now: float, lived: Year, box: Box, way: Way) -> tuple[turnaround.Promise, float]:
        """The promise, and the lead in days that nine of ten scenarios keep."""
        stated = self.world.expected if way in (Way.AS_IT_IS, Way.TOLD) else Expected()
        fitted = self.records.shop(now, lived, stated)
        if way is Way.HEEDLESS:
            fitted = replace(fitted, expected=Expected())
        queue = self.records.queue(lived, knows_lengths=way is Way.TOLD)
        load = turnaround.load(fitted, queue, moment(now))
        tapes, habits = self.records.quoted(box), self.records.habits
        made = turnaround.promise(load, tapes, box.rush, shop=habits)
        finish, _ = turnaround.behind(load, tapes, box.rush, habits)
        last = float(np.quantile(finish.at, 0.9, method="inverted_cdf"))
        return made, (last - load.now) / shop_year.DAY


_Asked = tuple[Box, turnaround.Promise, float, float]


def _ahead(lived: Year, box: Box) -> float:
    """Likely minutes of work for each deck of a format, its own included; of its formats the most."""
    found = []
    for format in {tape.new.format for tape in box.tapes}:
        tapes = [tape for tape in [*lived.waiting, *box.tapes] if tape.new.format == format]
        found.append(sum(tape.likely for tape in tapes) / sum(format in plays for plays in DECKS))
    return max(found)


def _given(box: Box, made: turnaround.Promise, p90: float, ahead: float) -> Given:
    done = moment(box.done).date() if np.isfinite(box.done) else date.max
    kept = made.day is not None and done <= made.day
    return Given(made.stated, kept, *_times(box), p90, ahead)


def _times(box: Box) -> tuple[float, float]:
    """When it came and how long it took, in days."""
    return box.came / shop_year.DAY, (box.done - box.came) / shop_year.DAY


def _fittings(world: World) -> ShopSettings:
    decks = [deck(f"{n} {plays[0]}", *plays) for n, plays in enumerate(DECKS)]
    front = replace(FRONT, timezone="UTC")
    return ShopSettings(front, tuple(decks), OPENINGS, None, None, frozenset(), 60, world.people, 0.9)
